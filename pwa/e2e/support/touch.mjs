// A thumb on the glass: touches at places on the screen that are in reach, without
// scrolling to them, and the count of them as the page itself felt them.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";

const THOUGHT_MS = 600; // no one touches a thing sooner after it has appeared; within 450 ms it counts as a wet finger's

/** In the page: passes on every touch that ended. */
function feel() {
  addEventListener("pointerup", ({ pointerType, isTrusted }) => pointerType === "touch" && isTrusted && globalThis.touched(), { capture: true });
}

export class Thumb {
  touches = 0;

  /** Begins to count what pages of a browser feel. */
  async watch(context) {
    await context.exposeFunction("touched", () => void this.touches++);
    await context.addInitScript(feel);
  }

  /** Touches the middle of what must be on the screen as it is. */
  async touch(page, locator) {
    await locator.waitFor({ state: "visible", ...patience });
    await pause(THOUGHT_MS);
    const { x, y, width, height } = await locator.boundingBox();
    const at = { x: x + width / 2, y: y + height / 2 };
    const there = await locator.evaluate((element, { x, y }) => {
      const top = document.elementFromPoint(x, y);
      return top !== null && (element.contains(top) || top.contains(element));
    }, at);
    assert.ok(there, `${locator} is on the screen and nothing covers it`);
    await page.touchscreen.tap(at.x, at.y);
  }
}
