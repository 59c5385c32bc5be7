// The whole way from files to signed report and labour rows.
import test, { after } from "node:test";
import assert from "node:assert/strict";
import { writeFileSync, mkdirSync, chmodSync, readFileSync, existsSync } from "node:fs";
import { join } from "node:path";
import { LONGEST, Service, browser, drop, enter, enterJob, go, jobFiles, measured, until } from "./service.mjs";

after(() => browser.close());

test("from dragged files to a signed report takes at most five actions", { timeout: LONGEST }, async () => {
  const persons = [{ name: "Sam Example", role: "owner", pin: "2846" }];
  const service = await new Service({ persons }).start();
  try {
    const page = await enter(service);
    let actions = 0;
    const act = async (what) => { actions++; await what; };
    await act(drop(service, page, "[data-new]", jobFiles()));
    // The page goes to the job, and shows its report once it is measured, by itself.
    await page.waitForURL(/\/job\//);
    await measured(page);
    assert.match(await page.locator(".sentence").innerText(), /Established: Clutch 1 does not release/);
    await act(page.fill("#sign-by-pin", "2846"));
    await act(page.click("form.sign button"));
    await page.locator("p.signed").waitFor();
    const link = page.locator(".documents a", { hasText: /^report.pdf$/ });
    const address = new URL(await link.getAttribute("href"), service.address).href;
    await act(link.click({ modifiers: ["Alt"] }));
    const report = await page.context().request.get(address);
    assert.equal((await report.body()).subarray(0, 5).toString(), "%PDF-");
    assert.ok(actions <= 5, `${actions} actions`);
    console.log(`actions from files to the signed report in the browser: ${actions}`);
    const name = (await page.locator("h1").innerText()).trim();
    assert.ok(service.has(`${name}/report.pdf`), name);
    assert.ok((await report.body()).equals(readFileSync(join(service.out, name, "report.pdf"))), "the signed one");
    assert.match(await page.locator("p.signed").innerText(), /Sam Example/);
    assert.deepEqual(page.foreign, []);
    assert.deepEqual(page.complaints, []);
  } finally { await service.remove(); }
});

test("lines of work, outcome, photo and mail, by persons with roles", { timeout: LONGEST }, async () => {
  const persons = [
    { name: "T. Technician", role: "technician", pin: "1111" }, { name: "A. Adviser", role: "adviser", pin: "2222" },
  ];
  const service = new Service({ persons });
  // A stand-in for the desktop's helper: notes what it was given.
  const bin = join(service.folder, "bin"), noted = join(service.folder, "mail");
  mkdirSync(bin);
  writeFileSync(join(bin, "xdg-email"), `#!/bin/sh\nprintf '%s\\n' "$@" > "${noted}"\n`);
  chmodSync(join(bin, "xdg-email"), 0o755);
  service.addToInbox("R-1");
  await service.start();
  try {
    const page = await enterJob(service, "R-1");
    const job = page.url().split("#")[0];
    const record = async (step, who, pin, fill) => {
      await go(page, job);
      await page.click("form.lines summary");
      await page.selectOption("#step", step);
      await fill();
      await page.selectOption("#line-by", who);
      await page.fill("#line-by-pin", pin);
      await page.click("form.lines button");
    };
    // The adviser may not sign, nor may the technician record a customer's word.
    assert.deepEqual(await page.locator("#sign-by option").allInnerTexts(), ["T. Technician"]);
    await record("authorise", "T. Technician", "1111", () => page.fill("#said-by", "C. Owner"));
    assert.match(await page.locator(".error").innerText(), /role of T. Technician/);
    await record("authorise", "A. Adviser", "9999", () => page.fill("#said-by", "C. Owner"));
    assert.match(await page.locator(".error").innerText(), /PIN is wrong/);
    const line = page.locator("table.work tr", { hasText: "G200" });
    // What is not possible is said in the page's words, none of the command line's.
    await record("complete", "T. Technician", "1111", () => line.locator("input").check());
    assert.match(await page.locator(".error").innerText(), /^G200 is not authorised: ask the customer[^`]*$/);
    await record("authorise", "A. Adviser", "2222", async () => {
      await line.locator("input").check();
      await page.fill("#said-by", "C. Owner");
      await page.fill("#up-to", "-1");
    });
    assert.match(await page.locator(".field", { has: page.locator("#up-to") }).innerText(), /-1 cannot be the sum/);
    await record("authorise", "A. Adviser", "2222", async () => {
      await line.locator("input").check();
      await page.locator("table.work tr", { hasText: "G210" }).locator("input").check();
      await page.fill("#said-by", "C. Owner");
      await page.selectOption("#how", "telephone");
    });
    await page.waitForURL(/#lines/);
    assert.match(await line.innerText(), /authorised · C. Owner, by telephone/);
    await record("complete", "T. Technician", "1111", async () => {
      await line.locator("input").check();
      await page.fill("#hours", "6,5");
    });
    await page.waitForURL(/#lines/);
    assert.match(await line.innerText(), /6\.5 h/);
    assert.match(service.read("R-1/labour.csv"), /G200/);
    await page.click("summary:has-text('Recorded so far')");
    assert.match(await page.locator("ol.events").first().innerText(), /C. Owner, by telephone, recorded by A. Adviser/);

    // A photo, with the caption that it stands under in the report.
    const photo = join(service.folder, "clutch.png");
    writeFileSync(photo, await page.screenshot({ clip: { x: 0, y: 0, width: 300, height: 200 } }));
    await drop(service, page, "[data-add]", [photo]);
    await page.locator("img.photo").first().waitFor();
    await page.click("a.button:has-text('Answer')");
    await page.getByLabel("Caption").fill("Worn release bearing");
    await page.click("form.answers > p button");
    await page.waitForURL(job);
    await page.click("summary:has-text('Record what was found')");
    await page.selectOption("#found", "confirmed");
    await page.selectOption("#photo", "clutch.png");
    await page.fill("#part", "release bearing");
    await page.fill("#outcome-by-pin", "1111");
    await page.locator("form[action$=outcome] button").click();
    await page.waitForURL(/#outcome/);
    assert.match(await page.locator("section:has(#outcome)").innerText(), /the cause that the report names; Part: release bearing; Photo: clutch.png \(T. Technician/);

    await go(page, job);
    await page.locator("form[action$=send] button").first().click();
    assert.match(await page.locator("main").innerText(), /handed to your mail program/);
    const given = readFileSync(noted, "utf8");
    assert.match(given, /--attach\n.*\/R-1\/rev-\d+\/report\.pdf/);
    // A desktop whose mail program takes no attachment: a draft without it, and the folder.
    writeFileSync(join(bin, "xdg-email"), `#!/bin/sh\ncase "$*" in *--attach*) exit 4;; esac\nprintf '%s\\n' "$@" > "${noted}"\n`);
    writeFileSync(join(bin, "xdg-open"), `#!/bin/sh\nprintf '%s\\n' "$@" > "${noted}-folder"\n`);
    chmodSync(join(bin, "xdg-open"), 0o755);
    await go(page, job);
    await page.locator("form[action$=send] button").first().click();
    assert.match(await page.locator("main").innerText(), /drag the file into the message/);
    assert.doesNotMatch(readFileSync(noted, "utf8"), /--attach/);
    assert.match(readFileSync(`${noted}-folder`, "utf8"), /\/R-1\/rev-\d+\n$/);

    // Five wrong PINs hold the person up.
    for (let i = 0; i < 6; i++) {
      await go(page, job);
      await page.fill("#sign-by-pin", "0000");
      await page.click("form.sign button");
    }
    assert.match(await page.locator(".error").innerText(), /Too many wrong PINs/);
    // Nor does a restart of the service free the person.
    const { port } = service;
    await service.stop();
    await service.start(port);
    const later = await enter(service);
    await go(later, job);
    await measured(later);
    await later.fill("#sign-by-pin", "1111");
    await later.click("form.sign button");
    assert.match(await later.locator(".error").innerText(), /Too many wrong PINs/);
    assert.ok(!existsSync(join(service.out, "R-1", "signed")));
    assert.ok(!service.log.includes("2222") && !service.log.includes("1111"), "no PIN in the log");
  } finally { await service.remove(); }
});

test("by keyboard alone: a job, answers with an error beside its field, a signature", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  try {
    const page = await enter(service);
    const keys = page.keyboard;
    /** Moves the focus with Tab until it is on what is wanted. */
    const to = async (selector) => {
      for (let i = 0; i < 400; i++) {
        // A page that loads itself anew at that moment keeps the focus.
        const isThere = await page.evaluate((s) => document.activeElement?.matches(s) ?? false, selector).catch(() => null);
        if (isThere) return;
        if (isThere === null) await page.waitForLoadState();
        else await keys.press("Tab");
      }
      throw new Error(`${selector} is not reached by Tab`);
    };
    await to("#name");
    await keys.type("R-7 keyboard");
    await keys.press("Enter");
    await page.waitForURL(/\/job\//);
    await to("#files");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), keys.press("Space")]);
    await chooser.setFiles(jobFiles().filter((f) => !f.endsWith("job.toml")));
    await page.locator("article.recording").first().waitFor();
    await to("a.button");
    await keys.press("Enter");
    await page.waitForURL(/answers/);
    const field = async (label, text) => {
      const id = await page.getByLabel(label, { exact: true }).first().getAttribute("id");
      await to(`#${id}`);
      await keys.type(text);
    };
    await field("Job number", "R-7");
    await field("Model year", "nineteen");
    await field("Complaint in the customer’s words", "Judders.");
    await to("form.answers > p button");
    await keys.press("Enter");
    await page.locator(".field.wrong").waitFor();
    assert.match(await page.locator(".field.wrong").innerText(), /nineteen is not a model year/);
    assert.equal(await page.getByLabel("Job number").inputValue(), "R-7", "what was typed is kept");
    const year = await page.getByLabel("Model year").getAttribute("id");
    await to(`#${year}`);
    await keys.press("Control+A");
    await keys.type("2019");
    await to("form.answers > p button");
    await keys.press("Enter");
    await page.waitForURL((url) => !url.pathname.endsWith("answers"));
    await page.locator("blockquote", { hasText: "Judders." }).waitFor();
    await to("#sign-by");
    await keys.type("K. Board");
    await to("form.sign button");
    await keys.press("Enter");
    await page.locator("p.signed").waitFor();

    // Traces: zoom, pan and cursors.
    await page.locator("article.recording a").first().focus();
    await keys.press("Enter");
    await to("#lanes");
    const readings = () => page.locator("#readings").innerText();
    await page.waitForFunction(() => document.querySelectorAll("#readings tr").length > 3);
    const before = await readings();
    await keys.press("+");
    await keys.press("ArrowRight");
    await keys.press("Shift+ArrowLeft");
    await until("the readings follow", async () => await readings() !== before);
  } finally { await service.remove(); }
});

test("wrong lines of a file are told in the shop's language, and answered in the form", { timeout: LONGEST }, async () => {
  const service = await new Service({ language: "de" }).start();
  try {
    const page = await enter(service);
    const told = join(service.folder, "job.toml");
    writeFileSync(told, '[job]\nopened = 9.3.2026\n[vehicle]\nyear = "20x9"\nplate = "B - 1"\n[unit]\ncylinders = "vier"\n[job]\nextra words\n');
    await drop(service, page, "[data-new]", [told, ...jobFiles().filter((f) => !f.endsWith("job.toml"))]);
    await measured(page);
    await page.locator("a.button").first().click();
    const errors = (await page.locator(".error").allInnerTexts()).join("\n");
    assert.match(errors, /20x9 ist kein Modelljahr/);
    assert.match(errors, /9.3.2026 ist kein Tag/);
    assert.match(errors, /vier ist keine ganze Zahl/);
    assert.doesNotMatch(errors, /\b(found|write|line|was left out)\b/);
    assert.equal(await page.inputValue("[name='vehicle.plate']"), "B - 1");
    await page.fill("[name='vehicle.year']", "2019");
    await page.fill("[name='job.opened']", "2026-03-09");
    await page.fill("[name='unit.cylinders']", "4");
    await page.click("form.answers > p button");
    await page.waitForURL((url) => !url.pathname.endsWith("answers"));
    const name = await page.locator("h1").innerText();
    const kept = readFileSync(join(service.out, ".baybrief", "added", name, "job.toml"), "utf8");
    assert.match(kept, /opened = 2026-03-09/);
    assert.match(kept, /# opened = 9.3.2026\n/);
    assert.match(kept, /# extra words\n/);
  } finally { await service.remove(); }
});

test("the channel preset used last for the same caller is offered first", { timeout: LONGEST }, async () => {
  const service = new Service();
  for (const name of ["R-1", "R-2", "R-3"]) service.addToInbox(name);
  await service.start();
  try {
    const page = await enter(service);
    const job = (name) => page.locator("a.job", { hasText: name });
    const answers = async (name) => {
      await go(page, service.address);
      await job(name).click();
      await measured(page);
      await page.locator("a.button").first().click();
    };
    const presets = () => page.getByLabel("Connected as in").first().locator("option").allInnerTexts();
    const save = async (caller, preset) => {
      await page.getByLabel("Called by (workshop)").fill(caller);
      if (preset) await page.getByLabel("Connected as in").first().selectOption(preset);
      await page.click("form.answers > p button");
      await page.waitForURL((url) => !url.pathname.endsWith("answers"));
      await page.locator("form.sign", { hasText: "report 2" }).waitFor();
    };
    await answers("R-1");
    assert.doesNotMatch((await presets()).join(), /used last here/);
    await save("Garage A", "wav-fuse-and-shafts");
    await answers("R-2");
    await save("Garage A");
    await answers("R-2");
    assert.match((await presets())[1], /^wav-fuse-and-shafts.*used last here/);
    await answers("R-3");
    await save("Garage B");
    await answers("R-3");
    assert.doesNotMatch((await presets()).join(), /used last here/);
  } finally { await service.remove(); }
});

test("from a sentence to its place in the trace and back; derived speeds; two speeds compared", { timeout: LONGEST }, async () => {
  const service = new Service();
  service.addToInbox("R-1");
  await service.start();
  try {
    const page = await enterJob(service, "R-1");
    const sentence = page.locator(".grade-abnormal a[href*=trace]").first();
    const words = await sentence.innerText();
    await sentence.click();
    await page.waitForFunction(() => document.querySelectorAll("#readings tr").length > 3);
    assert.match(await page.locator(".lane h2").allInnerTexts().then((t) => t.join()), /Speed from .*rpm/);
    assert.equal(await page.locator("#compared").count(), 1);
    // Readings stay what they are when the view moves away from the cursors; the other cursor is set without a key.
    const at = (column) => page.locator("#readings tbody td:nth-child(" + column + ")").allInnerTexts().then((t) => t.slice(2, 5));
    const settled = () => page.waitForFunction(() => !/[≈…]/.test(document.getElementById("readings")?.innerText ?? "…"));
    await page.click("[data-view=all]");
    await page.click("[data-cursor=b]");
    await page.locator(".lane .u-over").first().click({ position: { x: 40, y: 40 } });
    await settled();
    const [a, b] = [await at(1), await at(2)];
    await page.locator(".lane .u-over").first().click({ position: { x: 60, y: 40 } });
    await settled();
    assert.deepEqual(await at(1), a, "cursor A stays");
    await page.locator(".lane .u-over").first().click({ position: { x: 40, y: 40 } });
    for (let i = 0; i < 6; i++) await page.click("[data-view=in]");
    await page.waitForFunction((texts) => document.querySelector("#readings tbody td:nth-child(4)")?.innerText !== texts, "0.00");
    await settled();
    assert.deepEqual([await at(1), await at(2)], [a, b], "outside of the view");
    await page.click("[data-view=all]");
    await settled();
    const compared = () => page.locator("#readings tbody").last().innerText();
    const ratio = await compared();
    await page.selectOption("#compare-by", "difference");
    await page.waitForFunction((before) => document.querySelector("#readings tbody:last-child")?.innerText !== before, ratio);
    assert.match(await compared(), /rpm/);
    await page.locator("li", { has: page.locator("button", { hasText: words }) }).first().locator("a.back").click();
    await page.waitForURL(/\/job\/[0-9a-f]+#f\d+$/);
    assert.deepEqual(page.complaints, []);
  } finally { await service.remove(); }
});
