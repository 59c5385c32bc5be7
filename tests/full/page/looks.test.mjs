// Every page, light and dark, narrow and wide: no violation of axe-core's rules, nothing wider than the window. Pictures
// into DOCS where SHOTS is set.
import test, { after } from "node:test";
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { LONGEST, Service, browser, drop, enter, go, measured } from "./service.mjs";

after(() => browser.close());
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

for (const language of ["en", "de", "es"]) {
  test(`pages in ${language}`, { timeout: LONGEST }, async () => {
    const persons = [{ name: "Sam Example", role: "owner", pin: "2846" }];
    const service = new Service({ persons, language, hosts: ["bay.example"] });
    service.addToInbox("R-2041");
    await service.start();
    try {
      const page = await enter(service, { viewport: { width: 1280, height: 800 } });
      await page.locator("a.job", { hasText: "R-2041" }).click();
      await measured(page);
      const photo = join(service.folder, "housing.png");
      writeFileSync(photo, await page.screenshot({ clip: { x: 0, y: 0, width: 320, height: 200 } }));
      await drop(service, page, "[data-add]", [photo]);
      await page.locator("img.photo").first().waitFor();
      const job = page.url().split("#")[0];
      const pages = [
        ["jobs", service.address], ["job", job], ["answers", `${job}/answers`], ["trace", `${job}/trace/0`],
        ["not-found", `${job}/file/99`],
      ];
      let checked = 0;
      const wrong = [];
      const look = async (name, scheme) => {
        await page.evaluate(() => document.querySelectorAll("details").forEach((d) => { d.open = true; }));
        await page.evaluate(axe);
        const { violations } = await page.evaluate(() => globalThis.axe.run());
        const said = violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.target).slice(0, 3).join(" ")}`);
        wrong.push(...said.map((text) => `${name} ${scheme}: ${text}`));
        checked++;
      };
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        for (const [name, address] of pages) {
          await go(page, address);
          if (name === "trace") await page.waitForFunction(() => document.querySelectorAll("#readings tr").length > 3);
          for (const width of [360, 1280, 2560]) {
            await page.setViewportSize({ width, height: width === 360 ? 740 : 900 });
            await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
            const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
            if (wide > 0) wrong.push(`${name} at ${width} is ${wide} px too wide`);
            const isShown = process.env.SHOTS && language === "en" && (width === 1280 || (width === 360 && name !== "not-found"));
            if (isShown) await page.screenshot({ path: join(process.env.DOCS, `${name}-${width}-${colorScheme}.png`), fullPage: false });
            if (process.env.SHOTS_ALL) await page.screenshot({ path: join(process.env.SHOTS_ALL, `${language}-${name}-${width}-${colorScheme}.png`), fullPage: true });
          }
          await page.setViewportSize({ width: 1280, height: 800 });
          await look(name, colorScheme);
        }
        // The code for another device, and a refused signature.
        await go(page, job);
        await page.click("header button");
        await look("pair", colorScheme);
        await go(page, job);
        await page.fill("#sign-by-pin", "0");
        await page.click("form.sign button");
        assert.equal(await page.locator("form.sign .error").count(), 1);
        await look("refused signature", colorScheme);
        await go(page, `${job}/answers`);
        await page.locator("[name='vehicle.year']").fill("x");
        await page.click("form.answers > p button");
        await page.locator(".field.wrong").waitFor();
        await look("refused answers", colorScheme);
        const stranger = await (await browser.newContext({ colorScheme })).newPage();
        await stranger.goto(service.address);
        await stranger.evaluate(axe);
        assert.deepEqual((await stranger.evaluate(() => globalThis.axe.run())).violations.map((v) => v.id), [], "refused");
      }
      assert.deepEqual(wrong, []);
      // No sentence without words: a key would be shown as it is.
      await go(page, job);
      const text = await page.locator("body").innerText();
      assert.doesNotMatch(text, /\b(state|ask|verdict|found|step|line|field|choice)-[a-z]+(-[a-z]+)*\b/);
      console.log(`${language}: ${checked} pages without a violation`);
    } finally { await service.remove(); }
  });
}
