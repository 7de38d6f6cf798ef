// Hands on a keyboard and on nothing else: Tab to get there, forwards or back as it
// stands on the screen; Enter, Space or an arrow to do it; letters to write. On the
// way one sees at every press where one is.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";
import { focusIn } from "./focus.mjs";

const FARTHEST = 150; // presses of Tab; more than any screen of the demo garden has stops
const THOUGHT_MS = 600; // no one presses sooner what has just appeared

/** In the page: where a thing stands from what has the focus. */
function aim(element) {
  const now = document.activeElement;
  if (now === element) return "here";
  return now.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_PRECEDING && !element.contains(now) ? "before" : "after";
}

export class Keys {
  /** Of Tab, Enter, Space and arrows: letters are what there is to say. */
  presses = 0;

  constructor(page) {
    this.page = page;
  }

  async press(key) {
    this.presses++;
    await this.page.keyboard.press(key);
  }

  /** Goes to a thing by the Tab key. */
  async to(locator) {
    const one = locator.first();
    await one.waitFor({ state: "attached", ...patience });
    for (let presses = 0; presses < FARTHEST; presses++) {
      const where = await one.evaluate(aim);
      if (where === "here") return;
      await this.press(where === "before" ? "Shift+Tab" : "Tab");
      assert.equal(await this.page.evaluate(focusIn), "");
    }
    assert.fail(`the Tab key does not come to ${locator} in ${FARTHEST} presses`);
  }

  /** Goes to a thing and presses a key on it. */
  async on(locator, key = "Enter") {
    await locator.first().waitFor({ state: "attached", ...patience });
    await pause(THOUGHT_MS);
    await this.to(locator);
    await this.press(key);
  }

  /** Goes to a field, writes over what it holds, and goes on, which keeps it. */
  async write(locator, text) {
    await this.to(locator);
    await this.page.keyboard.press("Control+A");
    await this.page.keyboard.type(text);
    await this.press("Tab");
  }

  /** Goes to a list and chooses by the first letters of an option. */
  async choose(locator, letters) {
    await this.to(locator);
    await this.page.keyboard.type(letters);
  }

  /** Comes to a screen, whose heading has the focus then. */
  async arrive(path) {
    await this.page.waitForURL((url) => (typeof path === "string" ? url.pathname === path : path.test(url.pathname)), patience);
    await this.page.waitForFunction(() => document.activeElement?.matches("main h1"), null, patience);
  }

  /** By the bar to a section. */
  async section(name, path) {
    await this.on(this.page.getByRole("navigation", { name: "Screens" }).getByRole("link", { name, exact: true }));
    await this.arrive(path);
  }

  /** Does something, for which no one should have to press more than so many keys. */
  async within(most, doing, told = () => {}) {
    const before = this.presses;
    await doing();
    const took = this.presses - before;
    told(`${took} presses, of ${most} at most`);
    assert.ok(took <= most, `${took} presses`);
  }
}
