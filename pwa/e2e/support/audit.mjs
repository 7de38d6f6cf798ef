// What every screen is held to by axe.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const axe = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");

/** WCAG 2.2 AA and axe's best practices. */
export const everything = { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] };
/** What another light may change: 4.5:1 for text (WCAG 2.2, 1.4.3). */
export const colours = { type: "rule", values: ["color-contrast", "link-in-text-block"] };
/** In full sun 7:1 (1.4.6). */
export const sunColours = { type: "rule", values: ["color-contrast-enhanced", "link-in-text-block"] };

const GROWTHS = 20; // more often no page of ours grows with its window

/** Makes the window as high as the page, also where that makes the page grow. */
export async function unroll(page) {
  const drawnLength = () => page.evaluate(() => new Promise((resolve) =>
    requestAnimationFrame(() => requestAnimationFrame(() => resolve(document.documentElement.scrollHeight)))));
  for (let length = await drawnLength(), growths = 0; length > page.viewportSize().height; length = await drawnLength()) {
    if (++growths > GROWTHS) throw new Error(`${page.url()} grows with its window, to ${length}`);
    await page.setViewportSize({ width: page.viewportSize().width, height: length });
  }
}

/** Runs axe over the whole length of the page, so that nothing hides under the dock; gives a line for each finding. */
export async function audit(page, runOnly = everything) {
  const size = page.viewportSize();
  await unroll(page);
  if (!(await page.evaluate(() => Boolean(globalThis.axe)))) await page.evaluate(axe);
  const { violations } = await page.evaluate((runOnly) => globalThis.axe.run(document, { runOnly }), runOnly);
  await page.setViewportSize(size);
  return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.slice(0, 3).map(({ html }) => html.slice(0, 160)).join(" | ")}`);
}
