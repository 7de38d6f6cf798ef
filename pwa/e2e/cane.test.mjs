// A height from a photograph with a cane in it, by finger and by keys, without a signal.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { caneJpeg, canePoints, tapPoints } from "./support/cane.mjs";
import { go, keptForOffline, openDemo, photograph, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const CANE_CM = 120, PLANT_CM = 160;

let server, phone, page;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address);
  page = await openDemo(phone);
  await keptForOffline(page);
  await phone.context.setOffline(true);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

const result = (page) => page.locator(".height strong");
const heightIn = (text) => Number(/(\d+) cm/.exec(text)?.[1] ?? Number.NaN);

test("four taps in a photograph tell the height with its error, and one keeps it", async () => {
  await go(page, "/planting/delphinium");
  await photograph(page, await caneJpeg(page));
  const entry = new URL(page.url()).pathname;
  await page.getByRole("link", { name: "Measure by a cane in the photograph" }).click();
  await page.getByLabel(/^Length of the cane/).fill(String(CANE_CM));
  await page.getByLabel(/^Length of the cane/).blur();
  await page.getByRole("application").waitFor(visible);
  await tapPoints(page, Object.values(canePoints));
  await result(page).waitFor(visible);
  const text = await result(page).textContent();
  assert.ok(Math.abs(heightIn(text) - PLANT_CM) <= 2, text);
  assert.match(text, /give or take \d+ cm/);
  await see(page, "The cane counts as standing beside the plant");
  await page.getByRole("button", { name: /^Keep \d+ cm/ }).click();
  await see(page, /^saved \d/);
  await page.getByRole("button", { name: "Done" }).click();
  await page.waitForURL(new RegExp(entry), patience);
  assert.equal(await page.getByRole("textbox", { name: /^Height in (?!flower)/ }).inputValue(), String(heightIn(text)));
});

test("a point is nudged under the glass and by keys; the cane is remembered; the height is taken back", async () => {
  const kept = await page.getByRole("textbox", { name: /^Height in (?!flower)/ }).inputValue();
  await page.getByRole("link", { name: "Measure by a cane in the photograph" }).click();
  assert.equal(await page.getByLabel(/^Length of the cane/).inputValue(), String(CANE_CM));
  const sheet = page.getByRole("application");
  await sheet.waitFor(visible);
  // By keys alone: each point begins in the middle and is walked to its place.
  for (const [name, [x, y]] of Object.entries(canePoints)) {
    await page.getByRole("button", { name, exact: true }).focus();
    await page.keyboard.press("Enter");
    const box = await sheet.boundingBox();
    await sheet.focus();
    const walk = async (ahead, back, pixels) => {
      for (let i = Math.round(Math.abs(pixels) / 10); i > 0; i--) await page.keyboard.press(`Shift+${pixels > 0 ? ahead : back}`);
    };
    await page.keyboard.press("ArrowRight");
    await walk("ArrowRight", "ArrowLeft", (x - 0.5) * box.width);
    await walk("ArrowDown", "ArrowUp", (y - 0.5) * box.height);
  }
  await result(page).waitFor(visible);
  const before = await result(page).textContent();
  assert.ok(Math.abs(heightIn(before) - PLANT_CM) <= 12, before);
  for (let i = 0; i < 12; i++) await page.getByRole("button", { name: "Up a little" }).click();
  await page.waitForFunction((old) => document.querySelector(".height strong")?.textContent !== old, before, patience);
  const higher = await result(page).textContent();
  assert.ok(heightIn(higher) > heightIn(before), `${higher} after ${before}`);
  await page.waitForTimeout(600);
  await page.getByRole("button", { name: /^Keep \d+ cm/ }).click();
  await see(page, /^saved \d/);
  await page.getByRole("button", { name: /^undo/ }).click();
  await page.getByRole("button", { name: "Done" }).click();
  const field = page.getByRole("textbox", { name: /^Height in (?!flower)/ });
  await field.waitFor(visible);
  assert.equal(await field.inputValue(), kept);
  phone.behaved();
});

test("points that tell nothing are answered in a sentence", async () => {
  await page.getByRole("link", { name: "Measure by a cane in the photograph" }).click();
  await page.getByRole("application").waitFor(visible);
  await tapPoints(page, [[0.3, 0.8], [0.3, 0.3], [0.6, 0.3], [0.6, 0.8]]); // the plant upside down
  await see(page, "These points tell no height");
});
