// Traces of a recording: lanes over one time, two cursors, marks of findings, a table of the same view.
"use strict";
(() => {
  const { buckets, sentences } = window.baybrief;
  const box = /** @type {HTMLElement} */ (document.getElementById("lanes"));
  const table = /** @type {HTMLTableElement} */ (document.getElementById("readings"));
  const whole = { from: Number(box.dataset.start), to: Number(box.dataset.end) };
  const view = { ...whole };
  const cursors = { a: whole.from + (whole.to - whole.from) / 3, b: whole.from + (whole.to - whole.from) * 2 / 3 };
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

  /** Draws marks and cursors of a lane. @param {any} plot */
  const overlay = (plot) => {
    const { ctx, bbox } = plot;
    const x = (/** @type {number} */ t) => plot.valToPos(t, "x", true);
    ctx.save();
    ctx.beginPath();
    ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
    ctx.clip();
    ctx.fillStyle = colour("--mark");
    ctx.globalCompositeOperation = "destination-over";
    // What is true of nearly all of it points to no place.
    const isPlace = (/** @type {{from: number, to: number}} */ m) => m.to - m.from < (whole.to - whole.from) * 0.9;
    for (const m of marks) if (m.notable && isPlace(m)) ctx.fillRect(x(m.from), bbox.top, Math.max(2, x(m.to) - x(m.from)), bbox.height);
    ctx.globalCompositeOperation = "source-over";
    ctx.lineWidth = 2;
    ctx.font = "bold 14px sans-serif";
    for (const [name, t] of Object.entries(cursors)) {
      ctx.strokeStyle = ctx.fillStyle = colour("--act");
      ctx.setLineDash(name === "a" ? [] : [6, 4]);
      ctx.beginPath();
      ctx.moveTo(x(t), bbox.top);
      ctx.lineTo(x(t), bbox.top + bbox.height);
      ctx.stroke();
      ctx.fillText(name.toUpperCase(), x(t) + 4, bbox.top + 14);
    }
    ctx.restore();
  };

  const lanes = [...box.querySelectorAll(".lane")].map((element) => {
    const lane = /** @type {HTMLElement} */ (element);
    const place = /** @type {HTMLElement} */ (lane.querySelector(".plot"));
    const axis = { stroke: colour("--soft"), grid: { stroke: colour("--rule") }, ticks: { stroke: colour("--rule") } };
    const ink = colour("--ink");
    const plot = new uPlot({
      width: place.clientWidth, height: 150, legend: { show: false },
      cursor: { drag: { x: true, y: false, setScale: false }, sync: { key: "lanes" } },
      scales: { x: { time: false, range: () => [view.from, view.to] } },
      axes: [axis, { ...axis, size: 64 }],
      series: [{}, { stroke: ink, width: 1 }, { stroke: ink, width: 1 }],
      bands: [{ series: [2, 1], fill: ink }],
      hooks: {
        draw: [overlay],
        setSelect: [(/** @type {any} */ p) => {
          if (p.select.width < 4) return;
          show(p.posToVal(p.select.left, "x"), p.posToVal(p.select.left + p.select.width, "x"));
          p.setSelect({ left: 0, width: 0, top: 0, height: 0 }, false);
        }],
      },
    }, [[], [], []], place);
    plot.over.addEventListener("click", (/** @type {MouseEvent} */ event) => {
      const t = plot.posToVal(event.offsetX, "x");
      cursors[event.shiftKey ? "b" : "a"] = t;
      tellMark(t);
      redraw();
    });
    plot.over.addEventListener("wheel", (/** @type {WheelEvent} */ event) => {
      event.preventDefault();
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) return pan(Math.sign(event.deltaX || event.deltaY) / 20);
      zoom(event.deltaY > 0 ? 1.4 : 1 / 1.4, plot.posToVal(event.offsetX, "x"));
    }, { passive: false });
    return { plot, place, data: lane.dataset, time: new Float64Array(0), min: [], max: [], loaded: null };
  });

  let wanted = 0;
  /** Loads what the view shows and half of it on either side, so that panning asks for nothing; an answer that comes
   * after a newer question is left. */
  const load = async () => {
    const turn = ++wanted, span = view.to - view.from;
    const from = Math.max(whole.from, view.from - span / 2), to = Math.min(whole.to, view.to + span / 2);
    await Promise.all(lanes.map(async (lane) => {
      const { data } = lane.data, { loaded } = lane, width = lane.place.clientWidth;
      if (!data) return;
      const isThere = loaded && loaded.data === data && loaded.width === width && Math.abs(loaded.span - span) < span * 1e-6 &&
        loaded.from <= view.from && view.to <= loaded.to;
      if (isThere) return;
      const part = await buckets(data, from, to, width * (to - from) / span);
      if (turn !== wanted) return;
      Object.assign(lane, part, { loaded: { data, width, span, from, to } });
      lane.plot.setData([part.time, part.min, part.max]);
    })).catch(() => {});
    if (turn === wanted) redraw();
  };

  /** @param {number} from @param {number} to */
  const show = (from, to) => {
    const least = (whole.to - whole.from) / 1e7 || 1e-6;
    if (to - from < least) to = from + least;
    view.from = Math.max(whole.from, from);
    view.to = Math.min(whole.to, to);
    lanes.forEach((lane) => lane.plot.setScale("x", { min: view.from, max: view.to }));
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
      ArrowLeft: () => { cursors[event.shiftKey ? "b" : "a"] -= step; redraw(); },
      ArrowRight: () => { cursors[event.shiftKey ? "b" : "a"] += step; redraw(); },
    })[event.key];
    if (key) { event.preventDefault(); key(); }
  });

  /** Value of a lane at a time; the middle of its bucket. @param {any} lane @param {number} t */
  const valueAt = (lane, t) => {
    let low = 0, high = lane.time.length - 1;
    if (high < 0 || t < lane.time[0]) return null;
    while (low < high) { const mid = (low + high + 1) >> 1; if (lane.time[mid] <= t) low = mid; else high = mid - 1; }
    return lane.min[low] === null ? null : (lane.min[low] + lane.max[low]) / 2;
  };
  const number = new Intl.NumberFormat(document.documentElement.lang, { maximumSignificantDigits: 4, useGrouping: false });
  /** @param {number | null} v */
  const said = (v) => v === null ? sentences["no-value"] : number.format(v);
  const readings = () => {
    const row = (/** @type {string[]} */ cells, tag = "td") => {
      const tr = document.createElement("tr");
      cells.forEach((text, i) => { const cell = document.createElement(i ? tag : text ? "th" : "td"); cell.textContent = text; tr.append(cell); });
      return tr;
    };
    const span = Math.abs(cursors.b - cursors.a);
    const rows = [
      row(["", "value-a", "value-b", "difference", "smallest", "largest"].map((key) => key && sentences[key]), "th"),
      row([`${sentences.time}, s`, ...[cursors.a, cursors.b, span, view.from, view.to].map(said)]),
      row([sentences.frequency, "", "", span > 0 ? `${said(1 / span)} Hz · ${said(60 / span)} 1/min` : "", "", ""]),
      ...lanes.filter((lane) => lane.data.data).map((lane) => {
        const a = valueAt(lane, cursors.a), b = valueAt(lane, cursors.b), { name, unit } = lane.data;
        const shown = (/** @type {number[]} */ ends) => ends.filter((v, i) => v !== null && lane.time[i] >= view.from && lane.time[i] <= view.to);
        const least = shown(lane.min).reduce((x, y) => x === null || y < x ? y : x, null);
        const most = shown(lane.max).reduce((x, y) => x === null || y > x ? y : x, null);
        return row([unit ? `${name}, ${unit}` : String(name), said(a), said(b), a === null || b === null ? "" : said(b - a), said(least), said(most)]);
      }),
    ];
    table.replaceChildren(...rows);
  };
  const redraw = () => { lanes.forEach((lane) => lane.plot.redraw(false)); readings(); };

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

  new ResizeObserver(() => lanes.forEach((lane) => lane.plot.setSize({ width: lane.place.clientWidth, height: 150 }))).observe(box);

  load().then(() => {
    const named = location.hash && document.querySelector(`${CSS.escape(location.hash).replace("\\#", "#")} [data-mark-from]`);
    if (named) /** @type {HTMLElement} */ (named).click();
  });
})();
