// What every screen is held to: axe's rules for WCAG 2.2 AA and its best practices.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const axe = readFileSync(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const rules = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** Makes the window as high as the page, also where that makes the page grow. */
export async function unroll(page) {
  const drawnLength = () => page.evaluate(() => new Promise((resolve) =>
    requestAnimationFrame(() => requestAnimationFrame(() => resolve(document.documentElement.scrollHeight)))));
  for (let length = await drawnLength(); length > page.viewportSize().height; length = await drawnLength()) {
    await page.setViewportSize({ width: page.viewportSize().width, height: length });
  }
}

/** Runs axe over the whole length of the page, so that nothing hides under the dock; gives a line for each finding. */
export async function audit(page) {
  const size = page.viewportSize();
  await unroll(page);
  await page.evaluate(axe);
  const { violations } = await page.evaluate((runOnly) => globalThis.axe.run(document, { runOnly }), rules);
  await page.setViewportSize(size);
  return violations.map(({ id, help, nodes }) => `${id}: ${help}: ${nodes.slice(0, 3).map(({ html }) => html.slice(0, 160)).join(" | ")}`);
}
