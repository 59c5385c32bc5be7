// What every page does by itself: live changes, thumbnails, added files, the vehicle number's check.
"use strict";
(() => {
  const body = document.body;
  /** @type {Record<string, string>} */
  const sentences = JSON.parse(body.dataset.sentences || "{}");
  const live = document.getElementById("live");

  /** Says something in the page's head. @param {string} text */
  const say = (text) => { if (live) live.textContent = text; };

  /** Files that are being added. */
  let adding = 0;
  let isSubmitting = false;
  addEventListener("submit", () => { isSubmitting = true; });
  addEventListener("pageshow", () => { isSubmitting = false; });
  /** True while the person types, or has filled in or chosen something that a reload would lose. */
  const isBusy = () => adding > 0 || isSubmitting || document.querySelector("form.answers, #lanes") !== null ||
    [...document.querySelectorAll("input:not([type=hidden]), textarea")].some((e) => {
      const input = /** @type {HTMLInputElement} */ (e);
      return input.checked || (!["checkbox", "file"].includes(input.type) && input.value !== input.defaultValue);
    }) || document.activeElement?.matches("input:not([type=file], [type=checkbox]), select, textarea") === true;

  /** Name of an element by which it is found again. @param {Element} element */
  const nameOf = (element) => element.id || `${element.tagName} ${element.getAttribute("href") || ""} ${element.textContent?.trim().slice(0, 80)}`;
  /** Puts a fresh content in the place of the present one: the focus stays, and what was opened.
   * @param {HTMLElement} old @param {HTMLElement} fresh */
  const replace = (old, fresh) => {
    const open = new Set([...old.querySelectorAll("details[open] > summary")].map(nameOf));
    const focused = document.activeElement && old.contains(document.activeElement) ? nameOf(document.activeElement) : "";
    for (const summary of fresh.querySelectorAll("details > summary")) {
      if (open.has(nameOf(summary))) summary.parentElement?.setAttribute("open", "");
    }
    // The reason why a file was not added stays in sight.
    fresh.querySelector("#added")?.append(...old.querySelectorAll("#added li.error"));
    old.replaceWith(fresh);
    showProgress();
    const again = focused && [...fresh.querySelectorAll("a, button, input, select, textarea, summary, [tabindex]")].find((e) => nameOf(e) === focused);
    if (again instanceof HTMLElement) again.focus({ preventScroll: true });
    wire(fresh);
  };
  /** The content as the server sent it, before scripts changed it. */
  let sent = document.getElementById("main")?.innerHTML;
  let isRefreshing = false;
  let newest = body.dataset.changes;
  const onChange = async (/** @type {string} */ count) => {
    newest = count;
    // A page that answers a form would send it again.
    while (body.dataset.changes && newest !== body.dataset.changes && !isRefreshing) {
      isRefreshing = true;
      const answer = await fetch(location.href).catch(() => null);
      const text = answer?.ok ? await answer.text().catch(() => "") : "";
      isRefreshing = false;
      const fresh = new DOMParser().parseFromString(text, "text/html"), main = fresh.getElementById("main");
      if (!answer) return say(sentences.offline);
      // A change of another job is none of this page.
      const isSame = main?.innerHTML === sent;
      if (!isSame && isBusy()) return say(sentences.changed);
      if (!main || !fresh.body.dataset.changes) return location.reload();
      body.dataset.changes = fresh.body.dataset.changes;
      // It may be newer than the event that asked for it.
      if (Number(body.dataset.changes) > Number(newest)) newest = body.dataset.changes;
      if (isSame) continue;
      sent = main.innerHTML;
      replace(/** @type {HTMLElement} */ (document.getElementById("main")), main);
    }
    say("");
  };

  /** Steps of the jobs that are being done: words, and the share of the step that is done, %.
   * @type {Record<string, [string, number | null]>} */
  let progress = {};
  /** The count of changes that was heard last. */
  let heard = "";
  const showProgress = () => document.querySelectorAll("[data-progress]").forEach((element) => {
    const [text, percent] = progress[String(/** @type {HTMLElement} */ (element).dataset.progress)] || ["", null];
    const bar = document.createElement("progress");
    if (percent !== null) Object.assign(bar, { max: 100, value: percent });
    bar.setAttribute("aria-label", text);
    element.replaceChildren(...(text ? [bar, percent === null ? text : `${text}, ${percent} %`] : []));
  });
  const onNews = (/** @type {string} */ text) => {
    const news = JSON.parse(text);
    progress = news.progress;
    showProgress();
    if (heard !== String(news.changes)) onChange(heard = String(news.changes));
  };
  const onSilence = () => {
    heard = "";
    say(sentences.offline);
  };

  const poll = () => {
    setInterval(async () => {
      const answer = await fetch("/news").catch(() => null);
      if (!answer || !answer.ok) return onSilence();
      onNews(await answer.text());
    }, 5000);
  };

  if (window.SharedWorker) {
    const worker = new SharedWorker("/assets/live.js");
    worker.port.onmessage = (event) => event.data === "offline" ? onSilence() : onNews(event.data);
    worker.onerror = poll;
  } else poll();

  /** Buckets of a channel. @param {string} address @param {number} from @param {number} to @param {number} pixels */
  const buckets = async (address, from, to, pixels) => {
    const answer = await fetch(`${address}${address.includes("?") ? "&" : "?"}from=${from}&to=${to}&pixels=${Math.round(pixels)}`);
    if (!answer.ok) throw new Error(String(answer.status));
    const data = new DataView(await answer.arrayBuffer());
    const start = data.getFloat64(0, true), step = data.getFloat64(8, true), size = step > 0 ? 8 : 16;
    const n = (data.byteLength - 16) / size;
    const time = new Float64Array(n), min = new Array(n), max = new Array(n);
    for (let i = 0, at = 16; i < n; i++) {
      if (step > 0) time[i] = start + i * step;
      else { time[i] = data.getFloat64(at, true); at += 8; }
      const low = data.getFloat32(at, true), high = data.getFloat32(at + 4, true);
      min[i] = Number.isNaN(low) ? null : low;
      max[i] = Number.isNaN(high) ? null : high;
      at += 8;
    }
    return { time, min, max };
  };
  window.baybrief = { buckets, sentences };

  /** @param {HTMLCanvasElement} canvas */
  const thumbnail = async (canvas) => {
    const { data, from, to } = canvas.dataset;
    const { min, max } = await buckets(String(data), Number(from), Number(to), canvas.width / 2);
    const pen = canvas.getContext("2d");
    if (!pen || !min.length) return;
    const values = [...min, ...max].filter((v) => v !== null);
    const low = Math.min(...values), span = Math.max(...values) - low || 1;
    const y = (/** @type {number} */ v) => canvas.height - 2 - (v - low) / span * (canvas.height - 4);
    pen.fillStyle = getComputedStyle(canvas).color;
    for (let i = 0; i < min.length; i++) {
      if (min[i] === null) continue;
      const top = y(max[i]);
      pen.fillRect(i * canvas.width / min.length, top, Math.max(1, canvas.width / min.length), Math.max(1, y(min[i]) - top));
    }
  };
  const seen = new IntersectionObserver((entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      seen.unobserve(entry.target);
      thumbnail(/** @type {HTMLCanvasElement} */ (entry.target)).catch(() => {});
    }
  });
  // A file that is dropped beside the field would take the place of the page.
  addEventListener("dragover", (event) => event.preventDefault());
  addEventListener("drop", (event) => event.preventDefault());
  const zoneNow = () => /** @type {HTMLElement | null} */ (document.querySelector("[data-add], [data-new]"));
  if (zoneNow()) {
    const zone = () => /** @type {HTMLElement} */ (zoneNow());
    /** @param {string} address @param {RequestInit} request @returns {Promise<Response>} */
    const post = async (address, request) => {
      const answer = await fetch(address, { method: "POST", ...request }).catch(() => null);
      if (answer?.ok) return answer;
      const page = new DOMParser().parseFromString(answer ? await answer.text() : "", "text/html");
      throw new Error((page.querySelector(".error") || page.querySelector("main p"))?.textContent || sentences.offline);
    };
    /** @param {string} name @param {(item: HTMLElement) => Promise<void>} work */
    const shown = async (name, work) => {
      const item = document.createElement("li");
      item.textContent = `${name}: ${sentences.adding}`;
      document.getElementById("added")?.append(item);
      try {
        await work(item);
        return true;
      } catch (error) {
        item.textContent = `${name}: ${sentences.failed} ${/** @type {Error} */ (error).message}`;
        item.className = "error";
        return false;
      }
    };
    /** Name of a new job: typed, else that of the folder, else what its files' names share before the first _, else day
     * and time. @param {File[]} files @param {string} folder */
    const jobName = (files, folder) => {
      const input = /** @type {HTMLInputElement | null} */ (document.getElementById("name"));
      const typed = input?.value.trim();
      const first = files[0].name.split("_")[0];
      if (typed || folder) return typed || folder;
      if (files.every((f) => f.name.startsWith(`${first}_`))) return first;
      const now = new Date();
      const two = (/** @type {number} */ n) => String(n).padStart(2, "0");
      return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}${two(now.getMinutes())}${two(now.getSeconds())}`;
    };
    /** Address of the job that files are added to; a new one is begun where the page is not that of a job.
     * @param {File[]} files @param {string} folder */
    const target = async (files, folder) => {
      const { add, new: begin } = zone().dataset;
      if (add) return add;
      const body = new URLSearchParams({ token: String(document.body.dataset.token), name: jobName(files, folder) });
      const answer = await post(String(begin), { body });
      return `${new URL(answer.url).pathname}/add`;
    };
    /** Adds one file after the other. @param {File[]} files @param {string} [folder] */
    const add = async (files, folder = "") => {
      if (!files.length) return;
      adding++;
      let address = "", isWhole = await shown(files[0].name, async (item) => { address = await target(files, folder); item.remove(); });
      for (const file of isWhole ? files : []) {
        const isAdded = await shown(file.name, async (item) => {
          const headers = { "x-form-token": String(body.dataset.token) };
          await post(`${address}?name=${encodeURIComponent(file.name)}`, { body: file, headers });
          item.textContent = `${file.name}: ${sentences.added}`;
        });
        isWhole = isWhole && isAdded;
      }
      adding--;
      // Who began a job by its files wants to see it; where one failed, the reason stays in sight.
      if (zone().dataset.new && isWhole) location.assign(address.replace(/\/add$/, ""));
    };
    /** Files of what was dropped, those of folders as well. @param {FileSystemEntry} entry @returns {Promise<File[]>} */
    const filesIn = async (entry) => {
      if (entry.name.startsWith(".")) return [];
      if (entry.isFile) return [await new Promise((done, fail) => /** @type {FileSystemFileEntry} */ (entry).file(done, fail))];
      const reader = /** @type {FileSystemDirectoryEntry} */ (entry).createReader(), files = [];
      for (;;) {
        /** @type {FileSystemEntry[]} */
        const part = await new Promise((done, fail) => reader.readEntries(done, fail));
        if (!part.length) return files;
        for (const inner of part) files.push(...await filesIn(inner));
      }
    };
    /** @param {DataTransfer} dropped */
    const addDropped = async (dropped) => {
      const files = [...dropped.files];
      const entries = [...dropped.items].map((item) => item.webkitGetAsEntry?.()).filter((entry) => entry !== null && entry !== undefined);
      const folder = entries.find((entry) => entry.isDirectory);
      if (!folder) return add(files);
      await add((await Promise.all(entries.map(filesIn))).flat(), folder.name);
    };
    addEventListener("dragover", () => zone().classList.add("over"));
    addEventListener("dragleave", (event) => { if (!event.relatedTarget) zone().classList.remove("over"); });
    addEventListener("drop", (event) => {
      zone().classList.remove("over");
      if (event.dataTransfer) addDropped(event.dataTransfer).catch((error) => say(String(error)));
    });
    addEventListener("change", ({ target }) => {
      if (target instanceof HTMLInputElement && target.type === "file") add([...(target.files || [])]);
    });
  }

  /** What the content of a page does by itself. @param {HTMLElement} main */
  const wire = (main) => {
    main.querySelectorAll("canvas.thumbnail").forEach((canvas) => seen.observe(canvas));
    // Whoever gave a name once is offered it again in this tab; never the PIN.
    main.querySelectorAll("[data-remember]").forEach((element) => {
      const field = /** @type {HTMLInputElement | HTMLSelectElement} */ (element);
      const key = String(field.dataset.remember), known = sessionStorage.getItem(key);
      const isOffered = !(field instanceof HTMLSelectElement) || [...field.options].some((o) => o.value === known);
      if (known && isOffered) field.value = known;
      if (field instanceof HTMLInputElement) field.defaultValue = field.value;
      field.form?.addEventListener("submit", () => sessionStorage.setItem(key, field.value));
    });
  };
  wire(/** @type {HTMLElement} */ (document.getElementById("main")));

  /** Check digit of 49 CFR 565.15, which vehicles of North American makers have (first character 1 to 5).
   * @param {string} vin */
  const hasCheckDigit = (vin) => {
    const values = "0123456789.ABCDEFGH..JKLMN.P.R..STUVWXYZ";
    const weights = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];
    const sum = [...vin].reduce((s, c, i) => s + values.indexOf(c) % 10 * weights[i], 0);
    return "0123456789X"[sum % 11] === vin[8];
  };
  document.querySelectorAll("[data-check=vin]").forEach((element) => {
    const input = /** @type {HTMLInputElement} */ (element);
    const hint = /** @type {HTMLElement} */ (document.getElementById("vin-hint"));
    const check = () => {
      const vin = input.value.trim().toUpperCase(), isWhole = /^[0-9A-HJ-NPR-Z]{17}$/.test(vin);
      const isPart = /^[0-9A-HJ-NPR-Z]{0,17}$/.test(vin);
      // While it is typed, its length is no fault.
      const isTyping = document.activeElement === input && isPart;
      const doubt = vin === "" || isWhole || isTyping ? "" : sentences["vin-form"].replace("#", String([...vin].length));
      hint.textContent = doubt || (isWhole && /^[1-5]/.test(vin) && !hasCheckDigit(vin) ? sentences["vin-digit"] : "");
      input.setAttribute("aria-invalid", String(hint.textContent !== ""));
    };
    input.addEventListener("input", check);
    input.addEventListener("blur", check);
    check();
  });

  // A refused form shows its error, wherever it stands on the page.
  document.querySelector("main .error[role=alert]")?.closest(".field, form, section, div")?.scrollIntoView({ block: "center" });
})();
