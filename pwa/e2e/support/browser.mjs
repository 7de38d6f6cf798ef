// A phone for the browser tests: Chromium with a store that outlives it, touch,
// and a watch over what it contacts and what the content policy forbids.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { chromium } from "playwright-core";

export const phoneSize = { width: 390, height: 844 };
export const deskSize = { width: 1280, height: 800 };

const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
  "--disable-component-update", "--disable-sync"];

/** One person's phone: quit() and open() keep what is stored on it. */
export class Phone {
  context = null;
  /** Requests to any origin but the app's, and violations of its content policy. */
  strays = [];

  constructor(origin, options = {}) {
    this.origin = origin;
    this.options = options;
    this.folder = mkdtempSync(path.join(tmpdir(), "haulm-phone-"));
  }

  async open(route = "/") {
    const { size = phoneSize, colorScheme = "light", ...rest } = this.options;
    this.context = await chromium.launchPersistentContext(this.folder, {
      executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", headless: true, args: flags,
      viewport: size, hasTouch: size.width < 600, isMobile: size.width < 600, deviceScaleFactor: 1,
      colorScheme, locale: "en-GB", timezoneId: "Europe/London", ...rest,
    });
    this.context.on("request", (request) => {
      const { origin, protocol } = new URL(request.url());
      if (protocol.startsWith("http") && origin !== this.origin) this.strays.push(request.url());
    });
    this.page = this.context.pages()[0] ?? (await this.context.newPage());
    this.page.on("console", (message) => {
      if (/content security policy/i.test(message.text())) this.strays.push(message.text());
    });
    await this.page.goto(this.origin + route);
    return this.page;
  }

  async quit() {
    await this.context?.close();
    this.context = null;
  }

  async remove() {
    await this.quit();
    rmSync(this.folder, { recursive: true, force: true });
  }
}
