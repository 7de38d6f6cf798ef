// The first quarter of an hour: from an empty server through all four steps, with
// no signal once the phone has joined.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { patience, Phone } from "./support/browser.mjs";
import { choose, go, join, keptForOffline, savedRows, see, signalReturns, allSent } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const hidden = { state: "hidden", ...patience };
const place = { latitude: 52.2053, longitude: 0.1218, accuracy: 12 };
const kinds = ["iris-sibirica", "alchemilla-mollis", "digitalis-purpurea"];
/** The plantings made of them. */
const kept = [];

let server, phone, page;

before(async () => {
  server = await (await Server.make()).start();
  phone = new Phone(server.address, { permissions: ["geolocation"], geolocation: place });
  page = await join(phone, server.joinLink, "kitchen phone", "Ada");
});
after(async () => {
  await phone?.remove();
  await server?.remove();
});

const steps = () => page.locator("ol.ledger > li");
const done = () => steps().filter({ hasText: "done" }).count();
const next = () => page.locator('[aria-current="step"] h3').textContent();

async function today() {
  await page.getByRole("link", { name: "Today" }).click();
  await steps().first().waitFor(visible);
}

test("an empty garden leads, and the camera stays at the thumb", async () => {
  await see(page, "First steps");
  await keptForOffline(page);
  await phone.context.setOffline(true);
  assert.deepEqual([await next(), await done()], ["Name and place the garden", 0]);
  assert.equal(await page.locator('input[type="file"][capture]').count(), 1);
  assert.deepEqual(await audit(page), []);
});

test("put away, it is out of the way and taken back", async () => {
  await page.getByRole("button", { name: "Put these steps away" }).click();
  await see(page, "The first steps are put away.");
  await see(page, "An empty garden");
  await page.getByRole("button", { name: "undo" }).click();
  await see(page, "First steps");
  await page.getByRole("button", { name: "Put these steps away" }).click();
  await page.getByRole("link", { name: "Settings" }).click();
  await page.getByRole("button", { name: "Show the first steps again" }).click();
  await page.getByText("First steps, 0 of 4 done").waitFor(visible);
});

test("the garden is named and placed where its keeper stands", async () => {
  await today();
  await page.getByRole("link", { name: "Name and place it" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Quince Yard");
  await page.getByLabel("Name", { exact: true }).blur();
  await page.getByRole("button", { name: "Take this phone’s position" }).click();
  await page.getByText("First steps, 1 of 4 done. Next: A bed").waitFor(visible);
  await today();
  await see(page, "Quince Yard");
  assert.deepEqual([await next(), await done()], ["A bed", 1]);
});

test("a bed is made by its name, its size and its soil", async () => {
  await page.getByRole("link", { name: "Make a bed" }).click();
  const field = page.getByLabel("A new bed, by its name");
  await field.waitFor(visible);
  await page.waitForFunction((element) => element.getBoundingClientRect().top < innerHeight, await field.elementHandle(), patience);
  await field.fill("Long border");
  await page.getByLabel("Length in m").fill("6");
  await page.getByLabel("Width in m").fill("2");
  await page.getByRole("combobox", { name: /^Soil/ }).selectOption("loam");
  await page.getByRole("button", { name: "Add it" }).click();
  await page.getByText("First steps, 2 of 4 done. Next: Three plantings").waitFor(visible);
  await today();
  assert.deepEqual([await next(), await done()], ["Three plantings", 2]);
});

test("three plantings, a few taps each", async () => {
  for (const kind of kinds) {
    await go(page, `/plants/add/${kind}`);
    await page.getByRole("button", { name: "Keep this planting" }).click();
    await page.waitForURL(/\/planting\//, patience);
    kept.push(new URL(page.url()).pathname.split("/").pop());
  }
  await today();
  assert.deepEqual([await next(), await done()], ["The first round", 3]);
  await see(page, "0 of 3 so far");
});

test("the app is closed and opened again, and the first round is where it was left", async () => {
  await phone.quit();
  page = await phone.open("/", (context) => context.setOffline(true));
  await steps().first().waitFor(visible);
  await page.getByRole("link", { name: "Begin the round" }).click();
  await page.getByRole("heading", { level: 1, name: "The round" }).waitFor(visible);
  for (const planting of kept) {
    await go(page, `/round/${planting}`);
    await choose(page, "not in flower");
    await savedRows(page, 1);
  }
  await go(page, "/");
  await steps().first().waitFor(hidden);
  assert.equal(await page.getByText("First steps").count(), 0, "gone when done");
});

test("with a signal all of it goes to the garden", async () => {
  await phone.context.setOffline(false);
  await signalReturns(page);
  await allSent(page);
  phone.behaved();
});
