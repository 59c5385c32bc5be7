// Traces of a recording: lanes over one time, two cursors, marks of findings, a table of the same view.
"use strict";
(() => {
  const { buckets, sentences } = window.baybrief;
  const box = /** @type {HTMLElement} */ (document.getElementById("lanes"));
  const table = /** @type {HTMLTableElement} */ (document.getElementById("readings"));
  const whole = { from: Number(box.dataset.start), to: Number(box.dataset.end) };
  const view = { ...whole };
  const cursors = { a: whole.from + (whole.to - whole.from) / 3, b: whole.from + (whole.to - whole.from) * 2 / 3 };
  /** The cursor that clicks and arrows move; with Shift they move the other one. @type {"a" | "b"} */
  let chosen = "a";
  /** @param {MouseEvent | KeyboardEvent} event */
  const cursorOf = (event) => event.shiftKey ? (chosen === "a" ? "b" : "a") : chosen;
  const cursorButtons = /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-cursor]"));
  cursorButtons.forEach((button) => button.addEventListener("click", () => {
    chosen = button.dataset.cursor === "b" ? "b" : "a";
    cursorButtons.forEach((b) => b.setAttribute("aria-pressed", String(b === button)));
  }));
  /** @type {{from: number, to: number, notable: boolean}[]} */
  const marks = [...document.querySelectorAll("[data-mark-from]")].map((e) => {
    const d = /** @type {HTMLElement} */ (e).dataset;
    return { from: Number(d.markFrom), to: Number(d.markTo), notable: d.notable !== undefined };
  });
  const colour = (/** @type {string} */ name) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

  /** Points to the sentence of the mark at a time: from the place to its words. @param {number} t */
  const tellMark = (t) => {
    const found = [...document.querySelectorAll("[data-notable]")].filter((e) => {
      const d = /** @type {HTMLElement} */ (e).dataset;
      return Number(d.markFrom) <= t && t <= Number(d.markTo);
    });
    document.querySelectorAll("li.pointed").forEach((e) => e.classList.remove("pointed"));
    found.forEach((e) => e.closest("li")?.classList.add("pointed"));
    found[0]?.scrollIntoView({ block: "nearest" });
  };

  /** Draws the trace of a lane into a picture of its own: the part in view and half a view on either side. A view that only
   * moves takes what it shows from there, and nothing is drawn anew. @param {Lane} lane */
  const strip = (lane) => {
    const { plot: { bbox }, strip: { canvas, drawn }, range: [low, high] } = lane;
    const span = view.to - view.from, scale = bbox.width / span, ink = colour("--ink");
    const isDrawn = drawn.time === lane.time && drawn.ink === ink && drawn.height === bbox.height &&
      Math.abs(drawn.scale / scale - 1) < 1e-9 && drawn.from <= Math.max(view.from, whole.from) && Math.min(view.to, whole.to) <= drawn.to;
    if (isDrawn) return drawn;
    const from = Math.max(whole.from, view.from - span / 2), to = Math.min(whole.to, view.to + span / 2);
    // A picture without an extent cannot be drawn.
    Object.assign(canvas, { width: Math.max(1, Math.ceil((to - from) * scale)), height: Math.max(1, bbox.height) });
    const pen = /** @type {CanvasRenderingContext2D} */ (canvas.getContext("2d")), { time, min, max } = lane;
    const y = (/** @type {number} */ v) => (high - v) / (high - low) * bbox.height;
    Object.assign(pen, { strokeStyle: ink, lineWidth: devicePixelRatio, lineJoin: "bevel" });
    pen.beginPath();
    let isOpen = false;
    // To the first one behind the end: the line goes on to it.
    for (let i = Math.max(0, placeAt(lane, from)), isLast = false; i < time.length && !isLast; i++) {
      const least = min[i], most = max[i], x = (time[i] - from) * scale;
      isLast = time[i] > to;
      if (least === null || most === null) { isOpen = false; continue; }
      // One that stands alone is a dot.
      if (!isOpen) pen.moveTo(x - devicePixelRatio, y(least));
      pen.lineTo(x, y(least));
      if (most > least) pen.lineTo(x, y(most));
      isOpen = true;
    }
    pen.stroke();
    return Object.assign(drawn, { time, ink, scale, from, to, height: bbox.height });
  };

  /** Draws trace, marks and cursors of a lane. @param {any} plot */
  const overlay = (plot) => {
    const { ctx, bbox } = plot;
    const x = (/** @type {number} */ t) => plot.valToPos(t, "x", true);
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    const lane = lanes.find((l) => l.plot === plot);
    if (lane?.time.length) {
      const { from } = strip(lane);
      ctx.drawImage(lane.strip.canvas, Math.round(x(from)), bbox.top);
    }
    ctx.fillStyle = colour("--mark");
    ctx.globalCompositeOperation = "destination-over";
    // What is true of nearly all of it points to no place.
    const isPlace = (/** @type {{from: number, to: number}} */ m) => m.to - m.from < (whole.to - whole.from) * 0.9;
    for (const m of marks) if (m.notable && isPlace(m)) ctx.fillRect(x(m.from), bbox.top, Math.max(2, x(m.to) - x(m.from)), bbox.height);
    ctx.globalCompositeOperation = "source-over";
    ctx.lineWidth = 2;
    ctx.font = "bold 14px sans-serif";
    ctx.textAlign = "left";
    for (const [name, t] of Object.entries(cursors)) {
      ctx.strokeStyle = ctx.fillStyle = colour("--act");
      ctx.setLineDash(name === "a" ? [] : [6, 4]);
      ctx.beginPath();
      ctx.moveTo(x(t), bbox.top);
      ctx.lineTo(x(t), bbox.top + bbox.height);
      ctx.stroke();
      // On a ground of its own: a lane may be black with pulses.
      ctx.fillRect(x(t), bbox.top, 18, 18);
      ctx.fillStyle = colour("--act-ink");
      ctx.fillText(name.toUpperCase(), x(t) + 4, bbox.top + 14);
    }
    ctx.restore();
  };

  const ticks = new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 9, useGrouping: false });
  /** One lane: what it shows, the buckets that are loaded, its picture, and the samples at the cursors.
   * @typedef {{plot: any, place: HTMLElement, width: number, data: DOMStringMap, time: Float64Array, min: (number | null)[], max: (number | null)[],
   *   loaded: null | {data: string, width: number, span: number, from: number, to: number},
   *   range: [number, number], strip: {canvas: HTMLCanvasElement, drawn: Drawn},
   *   exact: {a?: Exact, b?: Exact}, isLoading: boolean}} Lane
   * @typedef {{t: number, data: string, value: number | null}} Exact
   * @typedef {{time?: Float64Array, ink: string, scale: number, height: number, from: number, to: number}} Drawn
   * @typedef {{time: Float64Array, min: (number | null)[], max: (number | null)[]}} Buckets */
  /** @type {Lane[]} */
  const lanes = [...box.querySelectorAll(".lane")].map((element) => {
    const lane = /** @type {HTMLElement} */ (element);
    const place = /** @type {HTMLElement} */ (lane.querySelector(".plot"));
    const axis = { values: (/** @type {any} */ _, /** @type {number[]} */ at) => at.map((v) => ticks.format(v)), stroke: colour("--soft"), grid: { stroke: colour("--rule") }, ticks: { stroke: colour("--rule") } };
    /** @type {[number, number]} */
    const range = [0, 1];
    const plot = new uPlot({
      width: place.clientWidth, height: 150, legend: { show: false },
      cursor: { drag: { x: true, y: false, setScale: false }, sync: { key: "lanes" } },
      scales: { x: { time: false, range: () => [view.from, view.to] }, y: { range: () => range } },
      axes: [axis, { ...axis, size: 64 }],
      series: [{}, { paths: () => null, points: { show: false } }],
      hooks: {
        draw: [overlay],
        setSelect: [(/** @type {any} */ p) => {
          if (p.select.width < 4) return;
          show(p.posToVal(p.select.left, "x"), p.posToVal(p.select.left + p.select.width, "x"));
          p.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
        }],
      },
    }, [[], []], place);
    plot.over.addEventListener("click", (/** @type {MouseEvent} */ event) => {
      const t = plot.posToVal(event.offsetX, "x");
      cursors[cursorOf(event)] = t;
      tellMark(t);
      redraw();
    });
    plot.over.addEventListener("wheel", (/** @type {WheelEvent} */ event) => {
      event.preventDefault();
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) return pan(Math.sign(event.deltaX || event.deltaY) / 20);
      zoom(event.deltaY > 0 ? 1.4 : 1 / 1.4, plot.posToVal(event.offsetX, "x"));
    }, { passive: false });
    /** @type {Lane} */
    const shown = { plot, place, width: place.clientWidth, data: lane.dataset, time: new Float64Array(0), min: [], max: [], loaded: null, exact: {}, isLoading: false, range, strip: { canvas: document.createElement("canvas"), drawn: { ink: "", scale: 0, height: 0, from: 0, to: 0 } } };
    return shown;
  });

  /** True where a lane has what the view shows, as fine as the view shows it. @param {Lane} lane */
  const isCovered = ({ data: { data }, loaded, width }) => {
    const span = view.to - view.from;
    return loaded !== null && loaded.data === data && loaded.width === width && Math.abs(loaded.span - span) < span * 1e-6 &&
      loaded.from <= view.from && view.to <= loaded.to;
  };
  /** Loads what the view shows and half of it on either side, so that panning asks for little; one question at a time, so
   * that a view that moves all the while is drawn as well. @param {Lane} lane */
  const loadLane = async (lane) => {
    if (lane.isLoading) return;
    lane.isLoading = true;
    try {
      for (let data = lane.data.data; data && !isCovered(lane); data = lane.data.data) {
        const span = view.to - view.from, { width } = lane;
        const from = Math.max(whole.from, view.from - span / 2), to = Math.min(whole.to, view.to + span / 2);
        const part = await buckets(data, from, to, width * (to - from) / span);
        Object.assign(lane, part, { loaded: { data, width, span, from, to } });
        const [least, most] = extentOf(part, from, to);
        // The same range while the view moves inside of what is loaded: a trace that jumps up and down is hard to read.
        Object.assign(lane.range, uPlot.rangeNum(least ?? 0, most ?? 1, 0.1, true));
        lane.plot.setData([[from, to], [least, most]]);
        tellReadings();
      }
    } finally { lane.isLoading = false; }
  };
  const load = () => Promise.all(lanes.map(loadLane)).catch(() => {});

  /** @param {number} from @param {number} to */
  const show = (from, to) => {
    const least = (whole.to - whole.from) / 1e7 || 1e-6;
    if (to - from < least) to = from + least;
    view.from = Math.max(whole.from, from);
    view.to = Math.min(whole.to, to);
    redraw();
    load();
  };
  /** @param {number} factor @param {number} [about] */
  const zoom = (factor, about = (view.from + view.to) / 2) => show(about - (about - view.from) * factor, about + (view.to - about) * factor);
  /** @param {number} part */
  const pan = (part) => {
    const by = Math.max(whole.from - view.from, Math.min(whole.to - view.to, (view.to - view.from) * part));
    show(view.from + by, view.to + by);
  };
  /** @type {Record<string, () => void>} */
  const actions = {
    all: () => show(whole.from, whole.to), in: () => zoom(0.5), out: () => zoom(2), left: () => pan(-0.5), right: () => pan(0.5),
  };
  document.querySelectorAll("[data-view]").forEach((button) =>
    button.addEventListener("click", () => actions[String(/** @type {HTMLElement} */ (button).dataset.view)]()));
  box.addEventListener("keydown", (event) => {
    const step = (view.to - view.from) / 100;
    const key = /** @type {Record<string, () => void>} */ ({
      "+": actions.in, "-": actions.out, 0: actions.all, PageUp: actions.left, PageDown: actions.right,
      ArrowLeft: () => { cursors[cursorOf(event)] -= step; redraw(); },
      ArrowRight: () => { cursors[cursorOf(event)] += step; redraw(); },
    })[event.key];
    if (key) { event.preventDefault(); key(); }
  });

  /** Place of the last bucket that begins at or before a time; -1 where there is none. @param {Buckets} part @param {number} t */
  const placeAt = (part, t) => {
    let low = -1, high = part.time.length - 1;
    while (low < high) { const mid = (low + high + 1) >> 1; if (part.time[mid] <= t) low = mid; else high = mid - 1; }
    return low;
  };
  /** Middle of a bucket, and whether all its samples are the same. @param {Buckets} part @param {number} t */
  const middleAt = (part, t) => {
    const i = placeAt(part, t), min = i < 0 ? null : part.min[i], max = i < 0 ? null : part.max[i];
    return min === null || max === null ? { value: null, isExact: true } : { value: (min + max) / 2, isExact: min === max };
  };
  /** Value of a lane at a cursor: the sample there, once it was asked for; until then the middle of its bucket, and none
   * where the cursor stands outside of what is loaded.
   * @param {Lane} lane @param {"a" | "b"} name @returns {{value: number | null, isExact: boolean}} */
  const valueAt = (lane, name) => {
    const t = cursors[name], exact = lane.exact[name];
    if (exact && exact.t === t && exact.data === lane.data.data) return { value: exact.value, isExact: true };
    const isLoaded = lane.loaded !== null && lane.loaded.from <= t && t <= lane.loaded.to;
    return isLoaded ? middleAt(lane, t) : { value: null, isExact: false };
  };
  /** Smallest and largest value between two times. @param {Buckets} part @param {number} from @param {number} to */
  const extentOf = (part, from, to) => {
    /** @type {number | null} */
    let least = null;
    /** @type {number | null} */
    let most = null;
    for (let i = Math.max(0, placeAt(part, from)); i < part.time.length && part.time[i] <= to; i++) {
      const low = part.min[i], high = part.max[i];
      if (low !== null && (least === null || low < least)) least = low;
      if (high !== null && (most === null || high > most)) most = high;
    }
    return [least, most];
  };
  /** Asks for the samples at the cursors once they rest. */
  let resting = 0;
  const readExactly = () => {
    clearTimeout(resting);
    resting = setTimeout(async () => {
      const names = /** @type {("a" | "b")[]} */ (["a", "b"]);
      await Promise.all(lanes.flatMap((lane) => names.filter((name) => !valueAt(lane, name).isExact).map(async (name) => {
        const t = cursors[name], { data } = lane.data;
        if (!data) return;
        const part = await buckets(data, t, t, 8000);
        lane.exact[name] = { t, data, value: middleAt(part, t).value };
      }))).catch(() => {});
      readings();
    }, 150);
  };
  const number = new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 4, useGrouping: false });
  /** @param {number | null} v */
  const said = (v) => v === null ? sentences["no-value"] : number.format(v);
  /** Seconds, to a thousandth of what is in view. @param {number} t */
  const saidTime = (t) => {
    const digits = Math.max(0, Math.min(9, Math.ceil(3 - Math.log10(view.to - view.from || 1))));
    return t.toLocaleString(document.documentElement.lang, { minimumFractionDigits: digits, maximumFractionDigits: digits, useGrouping: false });
  };
  /** One group of rows a lane: its name, then its values. */
  const readings = () => {
    /** @param {"th" | "td"} tag @param {string[]} cells @param {Partial<HTMLTableCellElement>} [as] */
    const row = (tag, cells, as) => {
      const tr = document.createElement("tr");
      for (const text of cells) {
        const cell = document.createElement(tag);
        cell.textContent = text;
        tr.append(Object.assign(cell, as));
      }
      return tr;
    };
    /** A single value takes the whole row. @param {string} name @param {string[]} cells */
    const group = (name, cells) => {
      const body = document.createElement("tbody");
      body.append(row("th", [name], { colSpan: 5, scope: "rowgroup" }), row("td", cells, { colSpan: cells.length > 1 ? 1 : 5 }));
      return body;
    };
    const span = Math.abs(cursors.b - cursors.a);
    const head = document.createElement("thead");
    head.append(row("th", ["value-a", "value-b", "difference", "smallest", "largest"].map((key) => sentences[key]), { scope: "col" }));
    const values = lanes.filter((lane) => lane.data.data).map((lane) => {
      const a = valueAt(lane, "a"), b = valueAt(lane, "b"), { name, unit } = lane.data;
      const read = (/** @type {{value: number | null, isExact: boolean}} */ r) =>
        r.isExact ? said(r.value) : r.value === null ? "…" : `≈ ${said(r.value)}`;
      const less = a.value === null || b.value === null ? "" : read({ value: b.value - a.value, isExact: a.isExact && b.isExact });
      return group(unit ? `${name}, ${unit}` : String(name), [read(a), read(b), less, ...extentOf(lane, view.from, view.to).map(said)]);
    });
    const time = group(`${sentences.time}, s`, [cursors.a, cursors.b, cursors.b - cursors.a, view.from, view.to].map(saidTime));
    const period = group(sentences.frequency, [span > 0 ? `${said(1 / span)} Hz · ${said(60 / span)} 1/min` : ""]);
    table.replaceChildren(head, time, period, ...values);
  };
  /** The table follows a view that moves ten times a second: fast enough to read, and the pictures come first. */
  let told = 0, telling = 0;
  const tellReadings = () => {
    clearTimeout(telling);
    const left = 100 - (performance.now() - told);
    if (left > 0) { telling = setTimeout(tellReadings, left); return; }
    readings();
    readExactly();
    told = performance.now();
  };
  /** Draws all lanes with the next picture, however often it is asked for until then. */
  let picture = 0;
  const redraw = () => {
    if (picture) return;
    picture = requestAnimationFrame(() => {
      picture = 0;
      lanes.forEach((lane) => lane.plot.setScale("x", { min: view.from, max: view.to }));
      tellReadings();
    });
  };

  document.querySelectorAll("[data-mark-from]").forEach((element) => element.addEventListener("click", () => {
    const d = /** @type {HTMLElement} */ (element).dataset;
    const from = Number(d.markFrom), to = Number(d.markTo), margin = Math.max((to - from) * 0.5, (whole.to - whole.from) / 1000);
    Object.assign(cursors, { a: from, b: to });
    show(from - margin, to + margin);
    box.scrollIntoView({ block: "nearest" });
  }));
  /** Sets the lane of two speeds that are held against each other. */
  const compared = /** @type {HTMLElement | null} */ (document.getElementById("compared"));
  const compare = () => {
    if (!compared) return;
    const [one, other, by] = [...compared.querySelectorAll("select")];
    const unit = one.selectedOptions[0].dataset.unit || "", title = `${one.selectedOptions[0].text} / ${other.selectedOptions[0].text}`;
    const units = /** @type {Record<string, string>} */ ({ ratio: "", difference: unit, percent: "%" });
    Object.assign(compared.dataset, {
      data: `${compared.dataset.compared}/${one.value}/${other.value}?by=${by.value}`, unit: units[by.value],
      name: `${by.selectedOptions[0].text}: ${title}`,
    });
  };
  compared?.addEventListener("change", () => { compare(); load(); });
  compare();

  // To ask for a width makes the browser lay the page out: asked once, not with each picture.
  new ResizeObserver(() => {
    lanes.forEach((lane) => { lane.width = lane.place.clientWidth; });
    lanes.forEach((lane) => lane.plot.setSize({ width: lane.width, height: 150 }));
    load();
  }).observe(box);

  load().then(() => {
    const named = location.hash && document.querySelector(`${CSS.escape(location.hash).replace("\\#", "#")} [data-mark-from]`);
    if (named) /** @type {HTMLElement} */ (named).click();
  });
})();
