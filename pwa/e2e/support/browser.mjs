// A phone for the browser tests: Chromium with a store that outlives it, touch,
// and a watch over what it contacts and what the content policy forbids.
import assert from "node:assert/strict";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { chromium } from "playwright-core";

export const phoneSize = { width: 390, height: 844 };
export const deskSize = { width: 1280, height: 800 };

/** Long enough for a loaded machine; what is measured is printed, not asserted. */
export const patience = { timeout: 120_000 };

const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync"];

/** In the page: says aloud what the content policy forbade, also where the console would not. */
function reportViolations() {
  document.addEventListener("securitypolicyviolation", ({ violatedDirective, blockedURI }) =>
    console.error(`Content Security Policy: ${violatedDirective} forbids ${blockedURI}`));
}

/** The process of the browser that keeps its store in a folder: the first one, which the others belong to. */
function processOf(folder) {
  const commandOf = (id) => {
    try {
      return readFileSync(`/proc/${id}/cmdline`, "utf8").split("\0");
    } catch {
      return []; // it ended meanwhile
    }
  };
  const browsers = readdirSync("/proc").filter((name) => /^\d+$/.test(name)).map((id) => ({ id: Number(id), command: commandOf(id) }))
    .filter(({ command }) => command.includes(`--user-data-dir=${folder}`) && !command.some((flag) => flag.startsWith("--type=")));
  return browsers[0]?.id;
}

/** One person's phone: quit() and open() keep what is stored on it. */
export class Phone {
  context = null;
  /** Requests to any origin but the app's, violations of its content policy, and errors that nothing caught. */
  strays = [];

  constructor(origin, options = {}) {
    this.origin = origin;
    this.options = options;
    this.folder = mkdtempSync(path.join(tmpdir(), "haulm-phone-"));
  }

  /** Starts the browser; `prepare` gets its context before any page is loaded. */
  async open(route = "/", prepare = async () => {}) {
    const { size = phoneSize, colorScheme = "light", switches = [], ...rest } = this.options;
    const small = size.width < 600;
    this.context = await chromium.launchPersistentContext(this.folder, {
      executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", headless: true, args: [...flags, ...switches],
      viewport: size, hasTouch: small, isMobile: small, deviceScaleFactor: 1,
      colorScheme, locale: "en-GB", timezoneId: "Europe/London", ...rest,
    });
    this.context.setDefaultTimeout(patience.timeout);
    this.context.setDefaultNavigationTimeout(patience.timeout);
    this.context.on("request", (request) => this.#heed(request));
    await this.context.addInitScript(reportViolations);
    await prepare(this.context);
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.page.on("console", (message) => /content security policy/i.test(message.text()) && this.strays.push(message.text()));
    this.page.on("pageerror", (error) => this.strays.push(`${this.page.url()}: ${error.name} ${error.message} ${error.stack ?? ""}`));
    await this.page.goto(this.origin + route);
    return this.page;
  }

  #heed(request) {
    const { origin, protocol } = new URL(request.url());
    if (protocol.startsWith("http") && origin !== this.origin) this.strays.push(request.url());
  }

  /** Nothing but the app's own address was asked, its content policy held, and no error went uncaught. */
  behaved() {
    assert.deepEqual(this.strays, []);
  }

  async quit() {
    await this.context?.close();
    this.context = null;
  }

  /** The browser dies in the middle of what it does, as a phone's does when its battery ends. */
  async kill() {
    const ended = new Promise((resolve) => this.context.once("close", resolve));
    process.kill(processOf(this.folder), "SIGKILL");
    await ended;
    this.context = null;
  }

  async remove() {
    await this.quit();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** A phone of a server for as long as `use` takes, after which it is found to have behaved. */
export async function withPhone(server, options, use) {
  const phone = new Phone(server.address, options);
  try {
    await use(phone);
    phone.behaved();
  } finally {
    await phone.remove();
  }
}
