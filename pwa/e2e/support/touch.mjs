// A thumb on the glass: it touches what is wholly on the screen as it stands, and
// does not scroll. Touches are counted as the page itself felt them.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";

const THOUGHT_MS = 600; // no one touches a thing sooner after it has appeared; within 450 ms it counts as a wet finger's

/** In the page: passes on every touch that ended. */
function feel() {
  addEventListener("pointerup", ({ pointerType, isTrusted }) => pointerType === "touch" && isTrusted && globalThis.touched(), { capture: true });
}

/** In the page: what of a thing a thumb cannot touch as the screen stands, or "". */
function outOfReach(element) {
  const { left, top, right, bottom } = element.getBoundingClientRect();
  if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight) {
    return `it stands from ${Math.round(top)} to ${Math.round(bottom)} of ${innerHeight} px down, and ${Math.round(left)} to ${Math.round(right)} of ${innerWidth} px across`;
  }
  const INSIDE_PX = 6; // of round corners
  for (const x of [left + INSIDE_PX, (left + right) / 2, right - INSIDE_PX]) {
    for (const y of [top + INSIDE_PX, (top + bottom) / 2, bottom - INSIDE_PX]) {
      const over = document.elementFromPoint(x, y);
      if (!over || !element.contains(over)) return `it is covered at ${Math.round(x)}, ${Math.round(y)} px by ${over?.outerHTML.slice(0, 120)}`;
    }
  }
  return "";
}

export class Thumb {
  touches = 0;

  /** Begins to count what pages of a browser feel. */
  async watch(context) {
    await context.exposeFunction("touched", () => void this.touches++);
    await context.addInitScript(feel);
  }

  /** Touches the middle of a thing, which must be wholly on the screen with nothing over it: nothing is scrolled. */
  async touch(page, locator) {
    await locator.waitFor({ state: "visible", ...patience });
    await pause(THOUGHT_MS);
    assert.equal(await page.evaluate(() => scrollY), 0, "nothing was scrolled");
    assert.equal(await locator.evaluate(outOfReach), "", `${locator} is in reach`);
    const { x, y, width, height } = await locator.boundingBox();
    await page.touchscreen.tap(x + width / 2, y + height / 2);
  }
}
