// Makes the pictures that phones want from the one drawing, public/icon.svg:
//
//   node src/marks/make-icons.mjs
//
// Run it after the drawing has changed and commit what it wrote.

import { readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const publicFolder = new URL("../../public/", import.meta.url);
const icons = [
  { file: "icon-180.png", size: 180, inset: 0 },
  { file: "icon-192.png", size: 192, inset: 0 },
  { file: "icon-512.png", size: 512, inset: 0 },
  // A maskable icon keeps what matters in the middle four fifths (W3C Web Application Manifest, "Icon masks and safe zone").
  { file: "icon-maskable-512.png", size: 512, inset: 0.1 },
];

const drawing = await readFile(new URL("icon.svg", publicFolder), "utf8");
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
for (const { file, size, inset } of icons) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  const side = Math.round(size * (1 - 2 * inset));
  await page.setContent(`<body style="margin:0;display:grid;place-items:center;height:100vh;background:#fbf8f1">${drawing.replace("<svg", `<svg width="${side}" height="${side}"`)}</body>`);
  await writeFile(fileURLToPath(new URL(file, publicFolder)), await page.screenshot());
  await page.close();
}
await browser.close();
