// A thumb on the glass: it touches places on the screen, and scrolls to what is not
// on it. Touches are counted as the page itself felt them.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";

const THOUGHT_MS = 600; // no one touches a thing sooner after it has appeared; within 450 ms it counts as a wet finger's

/** In the page: passes on every touch that ended. */
function feel() {
  addEventListener("pointerup", ({ pointerType, isTrusted }) => pointerType === "touch" && isTrusted && globalThis.touched(), { capture: true });
}

/** Whether the middle of a thing is on the screen with nothing over it. */
function inReach(element) {
  const { x, y, width, height } = element.getBoundingClientRect();
  const top = document.elementFromPoint(x + width / 2, y + height / 2);
  return top !== null && (element.contains(top) || top.contains(element));
}

export class Thumb {
  touches = 0;
  /** How often what was to be touched was not on the screen as it stood. */
  scrolls = 0;

  /** Begins to count what pages of a browser feel. */
  async watch(context) {
    await context.exposeFunction("touched", () => void this.touches++);
    await context.addInitScript(feel);
  }

  /** Touches the middle of a thing. */
  async touch(page, locator) {
    await locator.waitFor({ state: "visible", ...patience });
    await pause(THOUGHT_MS);
    if (!(await locator.evaluate(inReach))) await this.#scrollTo(locator);
    const { x, y, width, height } = await locator.boundingBox();
    await page.touchscreen.tap(x + width / 2, y + height / 2);
  }

  async #scrollTo(locator) {
    this.scrolls++;
    await locator.evaluate((element) => element.scrollIntoView({ block: "center" }));
    assert.ok(await locator.evaluate(inReach), `${locator} can be scrolled to where nothing covers it`);
  }
}
