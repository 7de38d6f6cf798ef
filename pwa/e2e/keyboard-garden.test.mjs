// The garden and what becomes of its plants by the keyboard alone: a bed made and
// put elsewhere in the round, a plant that died, letters of a label, an invitation.
import assert from "node:assert/strict";
import { test } from "node:test";
import { patience } from "./support/browser.mjs";
import { demoAtDesk } from "./support/desk.mjs";
import { see } from "./support/people.mjs";

const visible = { state: "visible", ...patience };

let phone, page, keys;

demoAtDesk((desk) => ({ phone, page, keys } = desk));

const link = (name) => page.getByRole("link", { name, exact: typeof name === "string" });
const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });
const beds = () => page.locator("ol.ledger li strong").allTextContents();

async function fromToday(name, path) {
  await keys.section("Today", "/");
  await keys.on(link(name));
  await keys.arrive(path);
}

test("a bed is made, goes one place earlier and later in the round, and back", (t) =>
  keys.within(95, async () => {
    await fromToday("The garden", "/garden");
    await keys.write(page.getByLabel("A new bed, by its name"), "Gravel");
    await keys.on(button("Add it"));
    await page.locator("ol.ledger").getByText("Gravel").waitFor(visible);
    const last = (await beds()).length - 1;
    for (const [way, at] of [["earlier", last - 1], ["later", last]]) {
      const one = button(`Gravel: one place ${way}`);
      await keys.on(one);
      await page.waitForFunction((at) => document.querySelectorAll("ol.ledger li strong")[at].textContent === "Gravel", at, patience);
      await page.waitForFunction((element) => element === document.activeElement, await one.elementHandle(), patience);
    }
    await keys.on(button("undo Beds"));
    await page.waitForFunction((at) => document.querySelectorAll("ol.ledger li strong")[at].textContent === "Gravel", last - 1, patience);
  }, (words) => t.diagnostic(words)));

test("a plant is said to have died, with why, and comes back", (t) =>
  keys.within(40, async () => {
    await keys.section("Plants", "/plants");
    await keys.write(page.getByRole("searchbox"), "sea holly");
    await keys.on(page.getByRole("listitem").getByRole("link", { name: /^Eryngium/ }));
    await keys.arrive("/planting/sea-holly");
    await keys.on(link("It died or is gone"));
    await keys.arrive("/planting/sea-holly/end");
    await keys.to(page.getByRole("radio", { name: "cold" })); // the first of its group is the stop, arrows go on from there
    await keys.press("ArrowRight");
    assert.ok(await page.getByRole("radio", { name: "wet feet" }).isChecked());
    await keys.on(button("Keep"));
    await keys.arrive("/planting/sea-holly");
    await see(page, /wet feet/);
    await keys.on(button("undo"));
    await link("It died or is gone").waitFor(visible);
  }, (words) => t.diagnostic(words)));

test("the letters of a label open its planting", async (t) => {
  await keys.section("Plants", "/plants");
  await keys.on(link("Labels to print"));
  await keys.arrive("/labels");
  const letters = await page.locator(".sheet li .code span").first().textContent();
  await keys.within(14, async () => {
    await fromToday("Read a label", "/scan");
    await keys.write(page.getByLabel("The letters under the code"), letters);
    await keys.on(button("Open"));
    await keys.arrive(/^\/planting\//);
  }, (words) => t.diagnostic(words));
});

test("an invitation is made", (t) =>
  keys.within(24, async () => {
    await fromToday("Household and phones", "/household");
    await keys.on(button("Make an invitation"));
    await page.locator(".code").waitFor(visible);
    assert.match(await page.locator(".link").textContent(), /\/join#/);
    phone.behaved();
  }, (words) => t.diagnostic(words)));
