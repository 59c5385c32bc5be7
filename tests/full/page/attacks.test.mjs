// What others try, and what goes wrong: foreign names, other pages, replays, cut uploads, a full disk, restarts.
import test, { after } from "node:test";
import assert from "node:assert/strict";
import { createServer } from "node:http";
import { execFileSync } from "node:child_process";
import { copyFileSync, mkdirSync, readdirSync, writeFileSync, existsSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { wav } from "./recordings.mjs";
import { LONGEST, Service, browser, drop, enter, enterJob, go, jobFiles, measured, until } from "./service.mjs";

after(() => browser.close());

const jobNames = (page) => page.locator("a.job .name").allInnerTexts();
const added = (service) => join(service.out, ".baybrief", "added");
test("a foreign name, another port, another host name and a used secret open nothing", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  const resolver = await chromium.launch({
    executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--host-resolver-rules=MAP evil.example 127.0.0.1"],
  });
  try {
    // A name that was bound to this machine: it is told what to open, by GET and by POST of its own page.
    const foreign = await (await resolver.newContext()).newPage();
    const answer = await foreign.goto(`http://evil.example:${service.port}/`);
    assert.equal(answer.status(), 421);
    assert.ok((await foreign.locator("main").innerText()).includes(service.address));
    const rebound = await foreign.evaluate(() => fetch("/new", { method: "POST", body: "name=x" }).then((r) => r.status));
    assert.equal(rebound, 421);

    const page = await enter(service);
    const replay = await (await browser.newContext()).newPage();
    await replay.goto(`file://${service.entry}`);
    await replay.waitForURL(/enter/);
    assert.match(await replay.locator("main").innerText(), /works once/);

    // Another port of this machine: the browser sends the cookie along.
    const server = createServer((request, response) => {
      response.setHeader("content-type", "text/html");
      response.end(request.url === "/none" ? "" : `<form id=f method=post action="${service.address}new"><input name=name value=R-evil></form><script>f.submit()</script>`);
    }).listen(0, "127.0.0.1");
    await until("the other page is served", () => server.listening);
    for (const host of ["127.0.0.1", "localhost"]) {
      const other = await page.context().newPage();
      await other.goto(`http://${host}:${server.address().port}/`);
      await other.waitForURL(/\/new/);
      assert.match(await other.locator("main").innerText(), /another page|one person/);
      await other.close();
    }
    // Nor may it read: by script, frame or picture.
    const other = await page.context().newPage();
    await other.goto(`http://127.0.0.1:${server.address().port}/none`);
    const read = await other.evaluate((a) => fetch(a, { credentials: "include" }).then((r) => r.text(), (e) => `refused ${e.name}`), service.address);
    assert.match(read, /refused/);
    server.close();
    await page.reload();
    assert.deepEqual(await jobNames(page), []);
    assert.ok(!existsSync(added(service)) || readdirSync(added(service)).length === 0);
  } finally { await resolver.close(); await service.remove(); }
});

test("names from outside stay text", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  try {
    const page = await enter(service);
    page.on("dialog", () => assert.fail("a script ran"));
    const names = ['<img src=x onerror=alert(1)>_a.csv', '"><script>alert(1)<&#47;script>_b.csv', "{{7*7}}${7*7}_d.csv"];
    for (const name of names) {
      const file = join(service.folder, name);
      writeFileSync(file, "time,value\n0,1\n1,2\n");
      await go(page, service.address);
      await drop(service, page, "[data-new]", [file]);
      await page.waitForURL(/\/job\//);
      assert.equal(await page.locator("h1").innerText(), name.split("_")[0]);
      await page.locator(".files strong").first().waitFor();
    }
    for (const name of ["../evil", "a/b", ".hidden", "", "\u202egnp.exe"]) {
      await go(page, service.address);
      const status = await page.evaluate(async (name) => {
        const body = new URLSearchParams({ token: document.body.dataset.token, name });
        return (await fetch("/new", { method: "POST", body })).status;
      }, name);
      assert.equal(status, 422, name);
    }
    assert.deepEqual(page.complaints.filter((c) => !c.includes("422")), []);
  } finally { await service.remove(); }
});

test("an upload that is cut, by the browser or by the service's end, leaves nothing, and works again", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  try {
    let page = await enter(service);
    await page.fill("#name", "R-1");
    await page.click("form.step button");
    await page.waitForURL(/\/job\//);
    const job = page.url();
    const long = join(service.folder, "long.wav");
    writeFileSync(long, Buffer.alloc(64 << 20));
    const left = () => readdirSync(join(added(service), "R-1"));
    const isWhole = () => left().some((n) => !n.startsWith("."));
    /** Begins to add the file at 2 MB a second; again where the page has reloaded itself at that moment. */
    const upload = async () => {
      const network = await page.context().newCDPSession(page);
      await network.send("Network.enable");
      const slow = { offline: false, latency: 0, downloadThroughput: -1, uploadThroughput: 2 << 20 };
      await network.send("Network.emulateNetworkConditions", slow);
      await until("the upload has begun", async () => {
        if (left().length > 0) return true;
        if (await page.locator("#added li").count() === 0) await page.setInputFiles("#files", long);
        return false;
      });
    };
    // Cut by the browser: the person leaves the page.
    await upload();
    await go(page, service.address);
    await until("nothing is left", () => left().length === 0);

    // Cut by the end of the service.
    await go(page, job);
    await upload();
    const { port } = service;
    await service.stop("SIGKILL");
    await page.locator("#added li.error").waitFor();
    await service.start(port);
    // What was half there is no recording, and the old session is over.
    assert.ok(!isWhole());
    await go(page, service.address);
    assert.match(await page.locator("main").innerText(), /one person at this machine/);
    page = await enter(service);
    await page.locator("a.job", { hasText: "R-1" }).click();
    await page.waitForURL(/\/job\//);
    await drop(service, page, "[data-add]", jobFiles());
    await measured(page);
  } finally { await service.remove(); }
});

test("a full disk is said, and nothing half is kept", { timeout: LONGEST }, async () => {
  const service = new Service();
  mkdirSync(service.out);
  execFileSync("mount", ["-t", "tmpfs", "-o", "size=48m", "tmpfs", service.out]);
  try {
    await service.start();
    const page = await enter(service);
    const file = join(service.folder, "long.wav");
    writeFileSync(file, Buffer.alloc(60 << 20));
    await page.fill("#name", "R-1");
    await page.click("form.step button");
    await page.waitForURL(/\/job\//);
    await page.setInputFiles("#files", file);
    await page.locator("#added li.error").waitFor();
    assert.match(await page.locator("#added li.error").innerText(), /disk is full/);
    assert.deepEqual(readdirSync(join(added(service), "R-1")), []);
  } finally {
    await service.stop("SIGKILL");
    execFileSync("umount", [service.out]);
    await service.remove();
  }
});

test("a report that has changed since it was seen is not signed", { timeout: LONGEST }, async () => {
  const service = new Service();
  service.addToInbox("R-1");
  await service.start();
  try {
    const page = await enterJob(service, "R-1");
    // Somebody types, so the page stays as it is and says so.
    await page.fill("#sign-by", "A. Person");
    writeFileSync(join(service.folder, "inbox", "R-1", "late.txt"), "P0700 Transmission control system\n");
    await until("the second report", () => service.has("R-1/rev-2/report.pdf"));
    await page.locator("#live", { hasText: "changed" }).waitFor();
    await page.click("form.sign button");
    // The newer report is shown with the reason, and the name is kept.
    assert.match(await page.locator("form.sign .error").innerText(), /newer report/);
    assert.equal(await page.inputValue("#sign-by"), "A. Person");
    await page.click("form.sign button");
    await page.locator("p.signed").waitFor();
  } finally { await service.remove(); }
});

test("a trace is not disturbed by another job", { timeout: LONGEST }, async () => {
  const service = new Service();
  service.addToInbox("R-1");
  await service.start();
  try {
    const trace = await enterJob(service, "R-1");
    await go(trace, `${trace.url().split("#")[0]}/trace/0`);
    const changes = () => trace.evaluate(() => Number(document.body.dataset.changes));
    const before = await changes();
    service.addToInbox("R-2");
    await until("the other job's report", () => service.has("R-2/report.pdf"));
    await until("the page has heard of it", async () => await changes() > before);
    assert.equal(await trace.locator("#live").innerText(), "");
  } finally { await service.remove(); }
});

test("seven tabs show a change at once; none stalls", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  try {
    const first = await enter(service);
    const tabs = [first];
    for (let i = 0; i < 6; i++) {
      const tab = await first.context().newPage();
      // A tab that waits for a connection never gets one.
      await tab.goto(service.address);
      tabs.push(tab);
    }
    const folder = join(service.folder, "inbox", "R-7");
    mkdirSync(folder);
    for (const file of jobFiles()) copyFileSync(file, join(folder, file.split("/").pop()));
    await Promise.all(tabs.map((t) => t.locator("a.job", { hasText: "R-7" }).waitFor()));
    const eighth = await first.context().newPage();
    await eighth.goto(service.address);
    await eighth.locator("a.job", { hasText: "R-7" }).waitFor();
  } finally { await service.remove(); }
});

test("progress of reading and measuring is shown; without shared workers the page polls", { timeout: LONGEST }, async () => {
  const service = await new Service().start();
  try {
    const page = await enter(service);
    const context = await browser.newContext({ storageState: await page.context().storageState() });
    await context.addInitScript(() => Reflect.deleteProperty(window, "SharedWorker"));
    const polling = await context.newPage();
    await polling.goto(service.address);
    // Kept as it changes: a step may be over before anybody looks.
    await page.evaluate(() => {
      const told = window.told = [];
      new MutationObserver(() => document.querySelectorAll("[data-progress]").forEach((e) => told.push(e.textContent)))
        .observe(document.body, { subtree: true, childList: true });
    });
    const folder = join(service.folder, "inbox", "R-8");
    mkdirSync(folder);
    writeFileSync(join(folder, "long.wav"), wav(24_000_000, 2));
    await Promise.all([page, polling].map((p) => p.locator("a.job", { hasText: "R-8" }).waitFor()));
    await until("a report", () => service.has("R-8/report.pdf"));
    const told = await page.evaluate(() => window.told.join(" / "));
    assert.match(told, /reading long\.wav, \d+ %|measuring: /);
    const isOver = (p) => p.locator("[data-progress]:not(:empty)").count().then((n) => n === 0);
    await until("the progress ends", async () => await isOver(page) && await isOver(polling));
  } finally { await service.remove(); }
});

test("another device enters by a code, once, and only behind the proxy's name", { timeout: LONGEST }, async () => {
  const service = await new Service({ hosts: ["bay.example"] }).start();
  try {
    const page = await enter(service);
    await page.click("header button");
    const code = await page.locator("p.code").innerText();
    const ask = (path, init = {}) => page.context().request.fetch(`${service.address.slice(0, -1)}${path}`, {
      ...init, headers: { Host: "bay.example", ...(init.headers || {}), Cookie: "" },
    });
    const shown = await ask("/");
    assert.equal(shown.status(), 401);
    assert.match(await shown.text(), /not admitted yet/);
    const enterBy = (given, origin) => ask("/enter", { method: "POST", form: { code: given }, headers: { Origin: origin } });
    assert.equal((await enterBy(code, "https://evil.example")).status(), 401);
    assert.equal((await enterBy("00000-00000", "https://bay.example")).status(), 401);
    const entered = await enterBy(code.toLowerCase(), "https://bay.example");
    assert.equal(entered.status(), 200);
    assert.match(entered.headers()["set-cookie"], /Secure/);
    assert.equal((await enterBy(code, "https://bay.example")).status(), 401);
  } finally { await service.remove(); }
});
