// What is noted in a bed can be noted by the keyboard alone: Tab, Enter, Space and
// letters. No mouse or finger is touched in this file.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { deskSize, patience, Phone } from "./support/browser.mjs";
import { late } from "./support/demo.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { pressOn, writeIn } from "./support/keys.mjs";
import { openDemo, savedRows } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const picture = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 0.5, bytes: 100_000 });

let server, phone, page;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address, { size: deskSize });
  page = await openDemo(phone);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });
const at = (path) => page.waitForURL((url) => (typeof path === "string" ? url.pathname === path : path.test(url.pathname)), patience);

/** By the bar to a section. */
async function section(name, path) {
  await pressOn(page, page.getByRole("navigation", { name: "Screens" }).getByRole("link", { name }));
  await at(path);
}

test("what stands on every screen can be skipped", async () => {
  await pressOn(page, page.locator("a.skip"));
  assert.equal(await page.evaluate(() => document.activeElement.id), "main");
});

test("a photograph is taken from a file, and its stage, height and note are kept", async () => {
  await section("Today", "/");
  const camera = page.locator('input[type="file"][capture]').first();
  const chooser = page.waitForEvent("filechooser", patience);
  await pressOn(page, camera);
  await (await chooser).setFiles({ name: "plant.jpg", mimeType: "image/jpeg", buffer: picture });
  await at(/^\/entry\//);
  await pressOn(page, button("full"), "Space");
  await savedRows(page, 1);
  assert.equal(await button("full").getAttribute("aria-pressed"), "true");
  await writeIn(page, page.getByRole("textbox", { name: /^Height in (?!flower)/ }), "90");
  await savedRows(page, 2);
  await writeIn(page, page.getByRole("textbox", { name: "Note" }), "By keys alone.");
  await savedRows(page, 3);
});

test("whose it is can be said", async () => {
  const whose = page.locator(".whose button");
  await pressOn(page, whose);
  await page.getByRole("button", { name: "Not this one" }).waitFor(visible);
  await pressOn(page, button("Done"));
});

test("what was saved is taken back", async () => {
  await page.goto(`${phone.origin}/round/${late.id}`);
  await pressOn(page, button("bud"), "Space");
  await savedRows(page, 1);
  await pressOn(page, button(/undo/i));
  await page.waitForFunction(() => ![...document.querySelectorAll("button")].some((one) => one.textContent.trim() === "bud" && one.ariaPressed === "true"), null, patience);
});
