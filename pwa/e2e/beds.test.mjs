// Beds by name, size and soil: made, changed, put in order and taken back, by a
// keeper, and what the server then has of them.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { test } from "node:test";
import { patience, Phone, phoneSize } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { allSent, go, join, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const BETWEEN_TAPS_MS = 600; // a second tap within 450 ms counts as a wet finger's

async function withKeeper(use) {
  const server = await (await Server.make()).start();
  const phone = new Phone(server.address, { size: phoneSize });
  try {
    const { keeper } = await plantedGarden(server, 1);
    const page = await join(phone, await keeper.invite("keeper"), "kitchen phone", "Bo");
    await go(page, "/garden");
    await see(page, "Long border", page.locator("ol.ledger")); // the garden has come: a bed made before it would stand before it
    await use(page, keeper);
    phone.behaved();
  } finally {
    await phone.remove();
    await server.remove();
  }
}

async function make(page, { name, long = "", wide = "", soil }) {
  await page.getByLabel("A new bed, by its name").fill(name);
  await page.locator("form").getByLabel(/^Length in/).fill(long);
  await page.locator("form").getByLabel(/^Width in/).fill(wide);
  if (soil) await page.locator("form").getByLabel("Soil").selectOption({ label: soil });
  await page.getByRole("button", { name: "Add it" }).click();
}

const round = (page) => page.locator("ol.ledger li strong").allTextContents();

async function bedOf(keeper, name) {
  for (let tries = 0; tries < 100; tries++) {
    const found = [...(await keeper.pull()).values()].find(({ record, fields }) => record.startsWith("bed/") && fields?.name === name && !fields.gone);
    if (found) return found.fields;
    await pause(100);
  }
  throw new Error(`the server never heard of ${name}`);
}

test("beds made by name, size and soil stand on the plan beside each other, and nonsense is told and not kept", () =>
  withKeeper(async (page, keeper) => {
    await make(page, { name: "Hot border", long: "9,5", wide: "two" });
    await see(page, /^Give both, each as a number/);
    assert.deepEqual(await round(page), ["Long border"]);
    await make(page, { name: "Hot border", long: "9,5", wide: "2", soil: "sandy loam" });
    await see(page, "9.5 m × 2 m · sandy loam");
    await make(page, { name: "Pond edge", long: "4 m", wide: "80 cm" });
    await see(page, "4 m × 0.8 m");
    await go(page, "/plan");
    await page.locator(".pane path.bed").nth(1).waitFor(visible);
    const [a, b] = await page.locator(".pane path.bed").evaluateAll((paths) => paths.map((path) => path.getBoundingClientRect().toJSON()));
    assert.ok(a.right < b.left || b.right < a.left || a.bottom < b.top || b.bottom < a.top, `two beds lie over each other: ${JSON.stringify([a, b])}`);
    await see(page, "Not drawn: it has no length and width yet.");
    await allSent(page);
    assert.equal((await bedOf(keeper, "Hot border")).soil, "sandy loam");
    assert.deepEqual((await bedOf(keeper, "Hot border")).outline, [[0, 0], [9.5, 0], [9.5, 2], [0, 2]]);
  }));

test("a bed's size, soil, pH, drainage and watering are changed on its screen, each with its undo", () =>
  withKeeper(async (page, keeper) => {
    await go(page, "/bed/long");
    await page.getByLabel("Length in m").fill("6");
    await page.getByLabel("Length in m").blur();
    assert.equal(await page.getByRole("alert").filter({ hasText: /Give both/ }).count(), 0, "the width is still to come");
    await page.getByLabel("Width in m").fill("500");
    await page.getByLabel("Width in m").blur();
    await see(page, /^Give both/);
    await page.getByLabel("Width in m").fill("2.5");
    await page.getByLabel("Width in m").blur();
    await see(page, /^saved \d/);
    await page.getByLabel("Soil", { exact: true }).selectOption({ label: "clay loam" });
    await see(page, "Wet, sticky, with some grit; the ribbon holds to 4 cm.");
    await page.getByLabel("pH", { exact: true }).fill("66");
    await page.getByLabel("pH", { exact: true }).blur();
    await see(page, /^A soil’s pH lies between 3 and 10/);
    await page.getByLabel("pH", { exact: true }).fill("6.6");
    await page.getByLabel("pH", { exact: true }).blur();
    await page.getByLabel("Drainage", { exact: true }).selectOption({ label: "slow: still there the next day" });
    await page.getByLabel("Watering", { exact: true }).selectOption({ label: "by hand, or by rain alone" });
    await page.getByRole("button", { name: "undo Watering" }).waitFor(visible);
    await allSent(page);
    const { outline, soil, ph, drainage, irrigated } = await bedOf(keeper, "Long border");
    assert.deepEqual({ outline, soil, ph, drainage, irrigated }, { outline: [[0, 0], [6, 0], [6, 2.5], [0, 2.5]], soil: "clay loam", ph: 6.6, drainage: "slow", irrigated: false });
    await go(page, "/bed/long");
    await page.getByLabel("Soil", { exact: true }).selectOption({ label: "sand" });
    await page.getByRole("button", { name: "undo Soil" }).click();
    await page.waitForFunction(() => [...document.querySelectorAll("select")].some((select) => select.value === "clay loam"), null, patience);
  }));

test("the round's order changes by one tap either way, and comes back", () =>
  withKeeper(async (page) => {
    for (const name of ["Second", "Third"]) {
      await make(page, { name });
      await page.locator("ol.ledger").getByText(name).waitFor(visible);
    }
    await pause(BETWEEN_TAPS_MS);
    await page.getByRole("button", { name: "Third: one place earlier" }).click();
    await page.waitForFunction(() => document.querySelectorAll("ol.ledger strong")[1].textContent === "Third", null, patience);
    await pause(BETWEEN_TAPS_MS);
    await page.getByRole("button", { name: "Long border: one place later" }).click();
    await page.waitForFunction(() => document.querySelectorAll("ol.ledger strong")[0].textContent === "Third", null, patience);
    assert.deepEqual(await round(page), ["Third", "Long border", "Second"]);
    await page.getByRole("button", { name: "undo Beds" }).click();
    await page.waitForFunction(() => document.querySelectorAll("ol.ledger strong")[0].textContent === "Long border", null, patience);
  }));

test("a bed that holds nothing is taken away and brought back; one that holds plants cannot be", () =>
  withKeeper(async (page) => {
    await make(page, { name: "Mistake" });
    await page.locator("ol.ledger").getByText("Mistake").click();
    await page.getByRole("button", { name: "Take this bed away" }).click();
    await see(page, "Taken away", page.locator("h1"));
    await page.getByRole("button", { name: /^undo/ }).click();
    await see(page, "Mistake", page.locator("h1"));
    await go(page, "/bed/long");
    await see(page, "Iris germanica");
    assert.equal(await page.getByRole("button", { name: "Take this bed away" }).count(), 0);
  }));
