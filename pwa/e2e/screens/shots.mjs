// Pictures of every screen over the garden in memory, in every scheme and both
// sizes, each held to axe, to the content policy, to no sideways scrolling at
// 200 % and to asking nothing of anyone but its own origin.
//
//   node e2e/screens/shots.mjs [FOLDER] [WORD …]   (words choose screens, sizes and schemes by name)

import { createReadStream, existsSync } from "node:fs";
import { mkdir, readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";
import { build } from "vite";

const here = fileURLToPath(new URL(".", import.meta.url));
const built = join(here, "../../test-results/screens");
const [folder = join(here, "../../../shots/screens"), ...words] = process.argv.slice(2);
const chromiumPath = process.env.CHROMIUM ?? "/usr/bin/chromium";

const screens = [
  { name: "today", path: "/" },
  { name: "today-refused", path: "/", state: "refused" },
  { name: "today-empty", path: "/", state: "empty" },
  { name: "today-no-almanac", path: "/", state: "no-almanac" },
  { name: "round", path: "/round" },
  { name: "stop", path: "/round/iris", act: async (page) => {
    await page.waitForTimeout(600);
    await page.getByRole("button", { name: "first", exact: true }).click();
    await page.getByRole("button", { name: "Taller" }).click();
    await page.getByRole("button", { name: "good", exact: true }).click();
  } },
  { name: "stop-not-up", path: "/round/aconite" },
  { name: "stop-viewer", path: "/round/iris", state: "viewer" },
  { name: "plants", path: "/plants" },
  { name: "search", path: "/plants", act: (page) => page.getByRole("searchbox").fill("iris") },
  { name: "add-planting", path: "/plants/add/iris-reticulata" },
  { name: "add-labelled", path: "/plants/add?label=Geranium%20%27Rozanne%27" },
  { name: "mend-planting", path: "/planting/hydrangea/change", act: (page) => page.getByRole("searchbox").fill("iris") },
  { name: "garden", path: "/garden", act: (page) => page.getByRole("button", { name: "Take this phone’s position" }).click() },
  { name: "planting", path: "/planting/hydrangea", act: (page) => page.getByText("the numbers as a table").first().click() },
  { name: "planting-iris", path: "/planting/iris" },
  { name: "planting-poison", path: "/planting/aconite" },
  { name: "entry", path: "/entry/seed-6" },
  { name: "entry-untied", path: "/entry/seed-10" },
  { name: "tray", path: "/tray" },
  { name: "sending", path: "/sending" },
  { name: "sending-refused", path: "/sending", state: "refused" },
  { name: "household", path: "/household", act: (page) => page.getByRole("button", { name: "Make an invitation" }).click() },
  { name: "about", path: "/about" },
  { name: "join", path: "/join", state: "outside" },
  { name: "lost", path: "/nowhere" },
];

const sizes = { phone: { width: 390, height: 844 }, desk: { width: 1280, height: 800 } };
const schemes = { light: { colorScheme: "light" }, dark: { colorScheme: "dark" }, sun: { colorScheme: "light", sun: true } };

/** Those that a word names, or all where none is named. */
function chosen(names) {
  const named = names.filter((name) => words.some((word) => name === word || name.startsWith(`${word}-`)));
  return named.length > 0 ? named : names;
}

const faults = [];
await build({ configFile: join(here, "vite.config.ts"), logLevel: "warn" });
const server = await serve();
const origin = `http://localhost:${server.address().port}`;
const axe = await readFile(fileURLToPath(import.meta.resolve("axe-core/axe.min.js")), "utf8");
const browser = await chromium.launch({
  executablePath: chromiumPath,
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
});
await mkdir(folder, { recursive: true });
const wanted = chosen(screens.map(({ name }) => name)).map((name) => screens.find((screen) => screen.name === name));
for (const size of chosen(Object.keys(sizes))) {
  for (const scheme of chosen(Object.keys(schemes))) {
    for (const screen of wanted) await shoot(screen, size, sizes[size], scheme, schemes[scheme]);
  }
}
for (const screen of wanted) await reflow(screen);
await browser.close();
server.close();
for (const fault of faults) console.error(fault);
console.log(`${wanted.length} screens, ${faults.length} faults, pictures in ${folder}`);
process.exitCode = faults.length ? 1 : 0;

async function opened({ path, state = "inside", act }, viewport, { colorScheme, sun }, label) {
  const context = await browser.newContext({ viewport, colorScheme, locale: "en-GB", deviceScaleFactor: viewport.width < 600 ? 1.5 : 1, bypassCSP: false });
  const page = await context.newPage();
  page.on("console", (message) => message.type() === "error" && faults.push(`${label}: console: ${message.text()}`));
  page.on("pageerror", (error) => faults.push(`${label}: ${error.message}`));
  page.on("request", (request) => !request.url().startsWith(origin) && !/^(blob|data):/.test(request.url()) && faults.push(`${label}: asked ${request.url()}`));
  await page.addInitScript(({ state, sun }) => {
    sessionStorage.setItem("state", state);
    if (sun) localStorage.setItem("haulm.contrast", "sun");
  }, { state, sun });
  await page.goto(origin + path, { waitUntil: "networkidle" });
  await page.locator("h1").first().waitFor();
  await act?.(page);
  await page.waitForTimeout(150);
  return { context, page };
}

async function shoot(screen, size, viewport, scheme, options) {
  const label = `${screen.name} ${size} ${scheme}`;
  const { context, page } = await opened(screen, viewport, options, label);
  await page.screenshot({ path: join(folder, `${screen.name}-${size}-${scheme}.png`) });
  // With the whole page in view, nothing is judged as hidden under the dock.
  await page.setViewportSize({ width: viewport.width, height: await page.evaluate(() => document.documentElement.scrollHeight) });
  await page.screenshot({ path: join(folder, `${screen.name}-${size}-${scheme}-whole.png`) });
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  for (const { id, help, nodes } of violations) faults.push(`${label}: axe ${id}: ${help}: ${nodes.slice(0, 3).map(({ html }) => html.slice(0, 140)).join(" | ")}`);
  if (size === "phone") for (const small of await smallTargets(page)) faults.push(`${label}: target ${small}`);
  await context.close();
}

/** Buttons, links and fields lower than a thumb needs; 44 px is allowed to what stands in a line of text. */
function smallTargets(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll("button, a[href], input:not([type=file]):not([type=radio]):not([type=checkbox]), select, textarea, summary, label.snap, label.choice")]
      .filter((element) => element.getClientRects().length && !element.closest(".away, p, .skip") && !element.classList.contains("skip"))
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ element, box }) => box.height < (element.matches(".text-button, summary, .waits, .change, h1 a") ? 28 : 56) - 0.5)
      .map(({ element, box }) => `${Math.round(box.width)}×${Math.round(box.height)} ${element.outerHTML.slice(0, 90)}`));
}

/** 200 % zoom of a phone 390 px wide leaves 195 px. */
async function reflow(screen) {
  const label = `${screen.name} at 200 %`;
  const { context, page } = await opened(screen, { width: 195, height: 422 }, schemes.light, label);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  if (over > 0) {
    const wide = await page.evaluate(() => [...document.querySelectorAll("main *, .dock *")].filter((element) => element.getBoundingClientRect().right > innerWidth + 1 && !element.closest(".scroll, svg")).slice(0, 3).map((element) => element.outerHTML.slice(0, 120)));
    faults.push(`${label}: ${over} px too wide: ${wide.join(" | ")}`);
  }
  await page.screenshot({ path: join(folder, `${screen.name}-zoom.png`), fullPage: true });
  await context.close();
}

function serve() {
  const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".woff2": "font/woff2", ".json": "application/json", ".png": "image/png" };
  const listening = createServer((request, response) => {
    const path = new URL(request.url, "http://localhost").pathname;
    const file = path === "/catalogue.json" ? join(here, "../../../garden/catalogue.json") : join(built, path);
    const found = extname(path) && existsSync(file) ? file : join(built, "index.html");
    response.setHeader("Content-Type", types[extname(found)] ?? "application/octet-stream");
    createReadStream(found).pipe(response);
  });
  return new Promise((resolve) => listening.listen(0, "localhost", () => resolve(listening)));
}
