// Plants by the keyboard alone: found, planted, moved, divided, each taken back.
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
const here = () => new URL(page.url()).pathname;

async function search(words) {
  await keys.section("Plants", "/plants");
  await keys.write(page.getByRole("searchbox"), words);
}

/** Comes to another planting's page. */
async function another(from) {
  await page.waitForURL((url) => url.pathname !== from && /^\/planting\/[^/]+$/.test(url.pathname), patience);
  await keys.arrive(/^\/planting\//);
  return here();
}

test("a planting is searched for and opened", (t) =>
  keys.within(11, async () => {
    await search("sea holly");
    await keys.on(page.getByRole("listitem").getByRole("link", { name: /^Eryngium/ }));
    await keys.arrive("/planting/sea-holly");
  }, (words) => t.diagnostic(words)));

test("it is moved to another bed, and the move taken back", async (t) => {
  let from;
  await keys.within(24, async () => {
    from = here();
    await keys.on(link("Move it"));
    await keys.arrive(`${from}/move`);
    await keys.write(page.getByLabel("Or a new bed, by its name"), "Gravel");
    await keys.on(button("Move it"));
    await another(from);
    await see(page, /Gravel/);
  }, (words) => t.diagnostic(words));
  await keys.within(5, async () => {
    await keys.on(button("undo"));
    await keys.arrive(from);
    await page.getByText(/It was moved/).waitFor({ state: "detached", ...patience });
  }, (words) => t.diagnostic(words));
});

test("it is divided: three pieces, one stays", (t) =>
  keys.within(28, async () => {
    const from = here();
    await keys.on(link("Divide it"));
    await keys.arrive(`${from}/divide`);
    await keys.write(page.getByLabel("How many pieces"), "3");
    await keys.on(button("Divide it"));
    await keys.arrive(from);
    await see(page, /divided, 3 pieces planted/);
  }, (words) => t.diagnostic(words)));

test("a kind found by search is planted in a bed, two of it", (t) =>
  keys.within(28, async () => {
    await search("echinasea");
    await keys.on(page.getByRole("listitem").filter({ hasText: "Echinacea purpurea" }).getByRole("link", { name: /^plant it here/ }));
    await keys.arrive("/plants/add/echinacea-purpurea");
    await keys.choose(page.getByRole("combobox", { name: "Bed" }), "Long");
    const fewer = button(/one fewer: How many plants/), more = button(/one more: How many plants/);
    for (const one of [more, fewer, more]) {
      await keys.on(one);
      assert.ok(await one.evaluate((element) => element === document.activeElement), "one stays where one pressed, at the least number too");
    }
    await keys.on(button("Keep this planting"));
    await another("");
    await see(page, /Long border · 2 plants/);
    phone.behaved();
  }, (words) => t.diagnostic(words)));
