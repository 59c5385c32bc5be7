// The program as a user starts it, and a browser beside it.
import { spawn, execFileSync } from "node:child_process";
import { mkdtempSync, mkdirSync, readFileSync, writeFileSync, readdirSync, rmSync, copyFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

/** Longest time of a test, and of one wait in it, ms: far above what a loaded machine needs. */
export const LONGEST = 900_000;
const PATIENCE = 240_000;

export const program = process.env.BAYBRIEF;

/** Files of the invented job, made once. */
let made;
export const jobFiles = () => {
  if (!made) {
    const folder = mkdtempSync(join(tmpdir(), "page-demo-"));
    execFileSync(program, ["demo", "--out", folder], { stdio: "ignore" });
    const inbox = join(folder, "inbox", "demo-dual-dry-clutch");
    made = readdirSync(inbox).map((name) => join(inbox, name));
  }
  return made;
};

/** Settings: the example's, with a language, and persons where they are wanted. */
const settings = (folder, { language = "en", persons = [], hosts = [] }) => {
  let text = readFileSync(process.env.SHOP, "utf8").replace('language = "en"', `language = "${language}"`);
  text = text.replace("hosts = []", `hosts = ${JSON.stringify(hosts)}`);
  const named = persons.map((p) => `[[page.person]]\nname = "${p.name}"\nrole = "${p.role}"\n`).join("\n");
  text = text.replace("# ---- prices", `${named}\n# ---- prices`);
  const shop = join(folder, "shop.toml");
  writeFileSync(shop, text);
  for (const p of persons) execFileSync(program, ["pin", p.name, "--shop", shop], { input: `${p.pin}\n`, stdio: ["pipe", "ignore", "inherit"] });
  return shop;
};

export class Service {
  constructor(options = {}) {
    this.folder = mkdtempSync(join(tmpdir(), "page-"));
    mkdirSync(join(this.folder, "inbox"));
    this.out = options.out || join(this.folder, "out");
    this.shop = settings(this.folder, options);
    this.env = { ...process.env, PATH: `${join(this.folder, "bin")}:${process.env.PATH}`, ...options.env };
  }

  async start(port = 0) {
    const args = ["serve", join(this.folder, "inbox"), "--out", this.out, "--shop", this.shop, "--no-browser", "--port", String(port)];
    this.child = spawn(program, args, { stdio: ["ignore", "ignore", "pipe"], env: this.env });
    this.log = "";
    const said = await new Promise((resolve, reject) => {
      this.child.stderr.on("data", (bytes) => {
        this.log += bytes;
        const found = /(http:\/\/127\.0\.0\.1:\d+\/).*?(\/.*open-page\.html)/.exec(this.log);
        if (found) resolve(found);
      });
      this.child.on("exit", () => reject(new Error(`serve ended: ${this.log}`)));
    });
    this.address = said[1];
    this.entry = said[2];
    this.port = Number(new URL(this.address).port);
    return this;
  }

  async stop(signal = "SIGTERM") {
    const ended = new Promise((resolve) => this.child.once("exit", resolve));
    this.child.kill(signal);
    await ended;
  }

  async remove() {
    if (this.child.exitCode === null && this.child.signalCode === null) await this.stop("SIGKILL");
    rmSync(this.folder, { recursive: true, force: true });
  }

  /** Puts the invented job into the inbox. */
  addToInbox(name) {
    const folder = join(this.folder, "inbox", name);
    mkdirSync(folder);
    for (const file of jobFiles()) copyFileSync(file, join(folder, file.split("/").pop()));
  }

  has(path) { return existsSync(join(this.out, path)); }
  read(path) { return readFileSync(join(this.out, path), "utf8"); }
}

export const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox"] });

/** A browser context that is in a session. */
export const enter = async (service, options = {}) => {
  const context = await browser.newContext({ acceptDownloads: true, ...options });
  context.setDefaultTimeout(PATIENCE);
  const page = await context.newPage();
  page.complaints = [];
  page.on("console", (m) => { if (m.type() === "error") page.complaints.push(m.text()); });
  page.on("pageerror", (e) => page.complaints.push(String(e)));
  page.foreign = [];
  page.on("request", (r) => { if (/^https?:/.test(r.url()) && !r.url().startsWith(service.address)) page.foreign.push(r.url()); });
  await page.goto(`file://${service.entry}`);
  await page.waitForURL(service.address);
  return page;
};

/** Opens an address; a page that reloads itself at that moment gets in the way. */
export const go = (page, address) => until(`${address} is open`, () => page.goto(address).then(() => true, () => false));

/** Waits until something is so; what never is ends with its name. */
export const until = async (what, condition) => {
  for (const end = Date.now() + PATIENCE; Date.now() < end;) {
    if (await condition()) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`never: ${what}`);
};

/** Files that were added at the page, of all jobs. */
const added = (service) => {
  const folder = join(service.out, ".baybrief", "added");
  const files = existsSync(folder) ? readdirSync(folder, { recursive: true, withFileTypes: true }) : [];
  return files.filter((f) => f.isFile() && !f.name.startsWith(".")).length;
};

/** Drops files onto an element, as a person does from the desktop. A page that reloads itself at that moment, because a
 * job has changed, cuts it off: it is done again, as a person would. */
export const drop = async (service, page, selector, files) => {
  const wanted = added(service) + files.length;
  const data = files.map((f) => ({ name: f.split("/").pop(), bytes: readFileSync(f).toString("base64") }));
  const dropped = () => page.evaluate(([selector, files]) => {
    window.isDropped = true;
    const transfer = new DataTransfer();
    for (const { name, bytes } of files) transfer.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    document.querySelector(selector).dispatchEvent(new DragEvent("drop", { dataTransfer: transfer, bubbles: true, cancelable: true }));
  }, [selector, data]);
  const isThere = () => added(service) >= wanted;
  await until("the files are added", async () => {
    const before = page.url();
    await dropped().catch(() => {});
    await until("the drop is over", async () => isThere() || page.url() !== before || !await page.evaluate(() => window.isDropped).catch(() => false));
    return isThere() || page.url() !== before;
  });
};

/** A page on a job of the inbox that has its report. */
export const enterJob = async (service, name) => {
  const page = await enter(service);
  await page.locator("a.job", { hasText: name }).click();
  await measured(page);
  return page;
};

/** Waits until a job has its report; pages reload by themselves. */
export const measured = (page) => page.locator("form.sign, p.signed").first().waitFor();
