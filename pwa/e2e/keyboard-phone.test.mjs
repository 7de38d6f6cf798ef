// What waits on a phone, and how the phone is set, by the keyboard alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { deskSize, patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { Keys } from "./support/keys.mjs";
import { go, join, keptForOffline, see, seeHeading, typeHeight, writeNote } from "./support/people.mjs";
import { outgrow } from "./support/refused.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };

let server, phone, plantings, page, keys;

before(async () => {
  server = await (await Server.make()).start();
  let keeper;
  ({ keeper, plantings } = await plantedGarden(server));
  phone = new Phone(server.address, { size: deskSize });
  page = await join(phone, await keeper.invite("keeper"), "desk", "Cleo");
  keys = new Keys(page);
  await keptForOffline(page);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

const button = (name) => page.getByRole("button", { name, exact: typeof name === "string" });
const pressed = (row, word) => page.getByRole("group", { name: row }).getByRole("button", { name: word, exact: true });

/** A height is refused; then, with no signal, a note waits. */
async function refusedAndWaiting() {
  await go(page, `/round/${plantings[0]}`);
  await phone.context.route("**/sync", outgrow);
  await typeHeight(page, 90);
  await page.getByText("1 entry was not taken").first().waitFor(visible);
  await phone.context.unroute("**/sync", outgrow);
  await phone.context.setOffline(true);
  await go(page, `/round/${plantings[1]}`);
  await writeNote(page, "Blackfly on the south side.");
  await see(page, /^saved \d/);
}

test("what was refused is given up, taken up again, and what waits saved to a file", async (t) => {
  await refusedAndWaiting();
  await keys.within(45, async () => {
    await keys.on(page.locator("a.waits"));
    await keys.arrive("/sending");
    await seeHeading(page, "Not taken");
    await keys.on(button("Give it up"));
    const taken = button(/^undo/);
    await taken.waitFor(visible);
    await button("Give it up").waitFor({ state: "detached", ...patience });
    await keys.on(taken);
    await button("Give it up").waitFor(visible);
    const coming = page.waitForEvent("download", patience);
    await keys.on(button("Save to a file"));
    assert.match((await coming).suggestedFilename(), /^haulm-unsent-.*\.zip$/);
    await page.locator("a[download]").waitFor(visible);
    assert.equal(await page.evaluate(() => document.activeElement.textContent.trim()), "Save to a file", "one stays where one pressed");
  }, (words) => t.diagnostic(words));
  await phone.context.setOffline(false);
});

test("contrast, measures and language are chosen", async (t) => {
  await keys.within(37, async () => {
    await keys.section("Today", "/");
    await keys.on(page.getByRole("link", { name: "Settings" }));
    await keys.arrive("/settings");
    await keys.on(pressed("Contrast", "full sun"), "Space");
    assert.equal(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor), "rgb(255, 255, 255)");
    await keys.choose(page.getByLabel("Measures"), "imp");
    await see(page, /^saved \d/);
    await keys.on(page.getByRole("button", { name: "Français", exact: true }));
    await page.locator("main h1").filter({ hasText: "Réglages" }).waitFor(visible);
    assert.equal(await page.getByLabel("Mesures").inputValue(), "imperial");
  }, (words) => t.diagnostic(words));
  phone.behaved();
});
