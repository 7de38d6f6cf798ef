// Hands on a keyboard and on nothing else: Tab to get there, Enter or Space to do
// it, letters to write.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";

const FARTHEST = 150; // presses of Tab; more than any screen of the demo garden has stops
const THOUGHT_MS = 600; // no one presses sooner what has just appeared

const hasFocus = (locator) => locator.evaluate((element) => document.activeElement === element);

/** Goes to a thing by the Tab key. */
export async function tabTo(page, locator) {
  const one = locator.first();
  await one.waitFor({ state: "attached", ...patience });
  for (let presses = 0; presses < FARTHEST; presses++) {
    if (await hasFocus(one)) return;
    await page.keyboard.press("Tab");
  }
  assert.fail(`the Tab key does not come to ${locator} in ${FARTHEST} presses`);
}

/** Goes to a thing and presses a key on it. */
export async function pressOn(page, locator, key = "Enter") {
  await locator.first().waitFor({ state: "attached", ...patience });
  await pause(THOUGHT_MS);
  await tabTo(page, locator);
  await page.keyboard.press(key);
}

/** Goes to a field, writes, and goes on, which keeps it. */
export async function writeIn(page, locator, text) {
  await tabTo(page, locator);
  await page.keyboard.type(text);
  await page.keyboard.press("Tab");
}
