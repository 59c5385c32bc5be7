// Traces of 8 million samples x 4 in Chromium, measured and printed: time and size of views, pictures a second while the
// view is panned within what is loaded. Goals: 50 ms at the median, 64 KB a channel, 60 a second.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Service, browser, enter, go, measured } from "./service.mjs";
import { wav } from "./recordings.mjs";

const middle = (values) => values.toSorted((a, b) => a - b)[values.length >> 1];
const service = new Service();
const folder = join(service.folder, "inbox", "L-1");
mkdirSync(folder);
writeFileSync(join(folder, "long.wav"), wav(8_000_000, 4));
await service.start();
try {
  const page = await enter(service, { viewport: { width: 1280, height: 900 } });
  await page.locator("a.job", { hasText: "L-1" }).click();
  await measured(page);
  await go(page, `${page.url().split("#")[0]}/trace/0`);
  await page.waitForFunction(() => document.querySelectorAll("#readings tr").length > 5);
  const views = await page.evaluate(async () => {
    const base = location.pathname.replace("/trace/", "/data/"), all = [];
    for (const [from, to] of [[0, 40], [3, 25], [10, 14], [10, 11], [10, 10.1], [10, 10.001]]) {
      for (let channel = 0; channel < 4; channel++) {
        const start = performance.now();
        const answer = await fetch(`${base}/${channel}?from=${from}&to=${to}&pixels=2560`);
        all.push([performance.now() - start, (await answer.arrayBuffer()).byteLength]);
      }
    }
    return all;
  });
  const [times, sizes] = [0, 1].map((i) => views.map((v) => v[i]));
  console.log(`views of 2560 pixels: median ${middle(times).toFixed(1)} ms, longest ${Math.max(...times).toFixed(1)} ms, largest ${Math.max(...sizes)} bytes`);
  for (const zooms of [0, 2, 6]) {
    for (let i = 0; i < zooms; i++) await page.click("[data-view=in]");
    await page.waitForTimeout(1500);
    const stamps = await page.evaluate(() => new Promise((done) => {
      const lane = document.querySelector(".lane .u-over"), stamps = [];
      const picture = (time) => {
        stamps.push(time);
        if (stamps.length > 300) return done(stamps);
        lane.dispatchEvent(new WheelEvent("wheel", { deltaY: stamps.length % 8 < 4 ? 1 : -1, shiftKey: true, bubbles: true, cancelable: true }));
        requestAnimationFrame(picture);
      };
      requestAnimationFrame(picture);
    }));
    const gaps = stamps.slice(1).map((time, i) => time - stamps[i]);
    const span = await page.locator("#readings tbody").first().locator("td").allInnerTexts();
    console.log(`${span[3]} to ${span[4]} s: ${(1000 * gaps.length / (stamps.at(-1) - stamps[0])).toFixed(1)} pictures a second, median ${middle(gaps).toFixed(1)} ms`);
  }
} finally { await service.remove(); await browser.close(); }
