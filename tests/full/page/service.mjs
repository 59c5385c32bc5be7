// The program as a user starts it, and a browser beside it.
import { spawn, execFileSync } from "node:child_process";
import { mkdtempSync, mkdirSync, readFileSync, writeFileSync, readdirSync, rmSync, copyFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

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
        const found = /The page is at (\S+) Open it within a minute by (.+)\n/.exec(this.log);
        if (found) resolve(found);
      });
      this.child.on("exit", () => reject(new Error(`serve ended: ${this.log}`)));
    });
    this.address = said[1].replace(/\.$/, "");
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

/** Opens an address; a page that reloads itself at that moment gets in the way once. */
export const go = (page, address) => page.goto(address).catch(() => page.goto(address));

/** Drops files onto an element, as a person does from the desktop. */
export const drop = async (page, selector, files) => {
  // A page that has just been opened may still be reloading because a job has changed.
  await page.waitForTimeout(1_500);
  const data = await page.evaluateHandle((files) => {
    const transfer = new DataTransfer();
    for (const { name, bytes } of files) transfer.items.add(new File([Uint8Array.from(atob(bytes), (c) => c.charCodeAt(0))], name));
    return transfer;
  }, files.map((f) => ({ name: f.split("/").pop(), bytes: readFileSync(f).toString("base64") })));
  await page.dispatchEvent(selector, "drop", { dataTransfer: data });
};

/** A page on a job of the inbox that has its report. */
export const enterJob = async (service, name) => {
  const page = await enter(service);
  await page.locator("a.job", { hasText: name }).click({ timeout: 120_000 });
  await measured(page);
  return page;
};

/** Waits until a job has its report; pages reload by themselves. */
export const measured = (page) => page.locator("form.sign, p.signed").first().waitFor({ timeout: 120_000 });
