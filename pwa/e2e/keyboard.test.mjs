// What is noted in a bed can be noted by the keyboard alone: Tab, Enter, Space and
// letters. No mouse or finger is touched in this file.
import assert from "node:assert/strict";
import { test } from "node:test";
import { patience } from "./support/browser.mjs";
import { late } from "./support/demo.mjs";
import { demoAtDesk } from "./support/desk.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { savedRows, see } from "./support/people.mjs";

const visible = { state: "visible", ...patience };
const taken = { taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, bytes: 100_000 };
const sure = jpeg({ ...taken, accuracyM: 0.5 });
const unsure = jpeg({ ...taken, accuracyM: 6 }); // between many plants

let phone, page, keys;

demoAtDesk((desk) => ({ phone, page, keys } = desk));

const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });

/** Photographs from Today. */
async function photograph(buffer) {
  await keys.section("Today", "/");
  const chooser = page.waitForEvent("filechooser", patience);
  await keys.on(page.locator('input[type="file"][capture]'));
  await (await chooser).setFiles({ name: "plant.jpg", mimeType: "image/jpeg", buffer });
  await keys.arrive(/^\/entry\//);
}

test("what stands on every screen can be skipped", async () => {
  await keys.on(page.locator("a.skip"));
  assert.equal(await page.evaluate(() => document.activeElement.id), "main");
});

test("a photograph that waits in the tray is given to a planting, by its name too", (t) =>
  keys.within(59, async () => {
    await photograph(unsure);
    await keys.on(button("Done"));
    await keys.arrive("/");
    await keys.on(page.getByRole("link", { name: /^1 photograph waits/ }));
    await keys.arrive("/tray");
    await keys.on(page.locator(".whose li button"));
    await button("Not this one").waitFor(visible);
    await keys.on(button("Not this one"));
    await keys.on(button("Another planting"));
    await keys.write(page.getByRole("searchbox"), "sea holly");
    await keys.on(page.locator(".whose li button", { hasText: "Eryngium" }));
    await see(page, /^saved \d/);
    await page.locator("article h2", { hasText: "Eryngium" }).waitFor(visible);
  }, (words) => t.diagnostic(words)));

test("a photograph is taken from a file, and its stage, height and note are kept", (t) =>
  keys.within(50, async () => {
    await photograph(sure);
    await keys.on(button("full"), "Space");
    await savedRows(page, 1);
    assert.equal(await button("full").getAttribute("aria-pressed"), "true");
    await keys.write(page.getByRole("textbox", { name: /^Height in (?!flower)/ }), "90");
    await savedRows(page, 2);
    await keys.write(page.getByRole("textbox", { name: "Note" }), "By keys alone.");
    await savedRows(page, 3);
  }, (words) => t.diagnostic(words)));

test("what was saved is taken back", (t) =>
  keys.within(41, async () => {
    await keys.on(button("undo Note"));
    await page.waitForFunction(() => document.querySelector("textarea").value === "", null, patience);
    await keys.on(button("Done"));
    await keys.arrive(/^\/(planting\/.+)?$/);
    phone.behaved();
  }, (words) => t.diagnostic(words)));
