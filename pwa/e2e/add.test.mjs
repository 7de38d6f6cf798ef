// Adding plants with no signal: from a kind found by search in under six taps, and
// one that no catalogue has, by what its label says; each with one undo.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { until } from "./support/outsider.mjs";
import { allSent, go, join, keptForOffline, see, signalReturns } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const BETWEEN_TAPS_MS = 600; // a second tap sooner counts as a wet finger's
const MOST_TAPS = 5;

let server, keeper, phone, page;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper } = await plantedGarden(server, 2));
  phone = new Phone(server.address);
  page = await join(phone, await keeper.invite("keeper"), "kitchen phone", "Bo");
  await keptForOffline(page);
  await phone.context.setOffline(true);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

async function tap(target) {
  await target.waitFor(visible);
  await pause(BETWEEN_TAPS_MS);
  await target.tap();
}

const here = () => decodeURIComponent(/\/planting\/([^/]+)$/.exec(new URL(page.url()).pathname)?.[1] ?? "");

async function arrived() {
  await page.waitForURL(/\/planting\/[^/]+$/, patience);
  return here();
}

const plantings = async () => [...(await keeper.pull()).values()].filter(({ record, gone }) => record.startsWith("planting/") && !gone);

let found, own;

test("a kind found by search is planted in under six taps, with all that can be known taken for granted", async (t) => {
  await go(page, "/");
  const taps = [
    () => page.getByRole("link", { name: "Plants", exact: true }),
    () => page.getByRole("searchbox"),
    () => page.getByRole("listitem").filter({ hasText: "Echinacea purpurea" }).getByRole("link"),
    () => page.getByRole("button", { name: "Keep this planting" }),
  ];
  for (const [at, target] of taps.entries()) {
    await tap(target());
    if (at === 1) await page.keyboard.type("echinasea");
  }
  found = await arrived();
  assert.ok(taps.length <= MOST_TAPS, `${taps.length} taps`);
  t.diagnostic(`${taps.length} taps, and typing`);
  await see(page, /planted \d/);
});

test("one undo takes it back, and it can be planted again with more said about it", async () => {
  await tap(page.getByRole("button", { name: "undo" }).first());
  await page.waitForURL(/\/plants$/, patience);
  await go(page, "/plants/add/echinacea-purpurea");
  await page.getByLabel("Or a new bed, by its name").fill("Gravel");
  await page.getByRole("button", { name: "one more: How many plants" }).tap();
  await page.getByLabel("Planted when").selectOption({ label: "a year or month" });
  await page.getByRole("textbox", { name: "a year or month" }).fill("2025-09");
  await tap(page.getByText("How it was planted", { exact: true }));
  await page.getByLabel("How it came").selectOption({ label: "in a pot" });
  await page.getByLabel("Pot in litres").fill("2.5");
  await page.getByLabel("Depth in cm").fill("0");
  await page.getByLabel(/^Mixed into the soil/).fill("leaf mould, grit");
  await page.getByLabel("Price").fill("6,50");
  await tap(page.getByRole("button", { name: "Keep this planting" }));
  found = await arrived();
  await see(page, /planted September 2025 from a 2.5 litre pot/);
  await see(page, "Gravel · 2 plants");
});

test("what no catalogue has becomes a kind of one's own from its label, and is found by its name", async () => {
  await go(page, "/plants");
  await page.getByRole("searchbox").fill("salvia 'teasel bank'");
  await tap(page.getByRole("link", { name: /^Plant “salvia 'teasel bank'”/ }));
  await see(page, "It is written:");
  await tap(page.getByText("What the label says", { exact: true }));
  await page.getByLabel("Common names").fill("bank sage");
  await page.locator("input[name=heightCm]").fill("60-90 cm");
  await page.getByLabel(/^Hardiness/).fill("very");
  await page.getByLabel("In flower from").selectOption({ label: "June" });
  await page.locator("select[name=to]").selectOption({ label: "September" });
  await page.getByLabel("Light").selectOption({ label: "full sun" });
  await tap(page.getByRole("button", { name: "Keep this planting" }));
  await see(page, "That hardiness cannot be read.");
  await page.getByLabel(/^Hardiness/).fill("H5");
  await tap(page.getByRole("button", { name: "Keep this planting" }));
  own = await arrived();
  await see(page, "60 to 90 cm tall");
  await see(page, "June to September");
  await see(page, "hardy to −15 °C");
  await go(page, "/plants");
  await page.getByRole("searchbox").fill("teesel");
  await page.getByRole("link", { name: /Teasel bank/i }).first().waitFor(visible);
});

test("a value of the kind is changed afterwards, and taken back", async () => {
  await go(page, `/planting/${own}`);
  await tap(page.getByRole("link", { name: "Change what is expected" }));
  const height = page.getByLabel("Height", { exact: true });
  await height.fill("1.2 m");
  await height.blur();
  await see(page, /^saved \d/);
  await tap(page.getByRole("button", { name: "undo Height" }));
  await page.waitForFunction(() => [...document.querySelectorAll("input")].some((input) => input.value === "60–90"), null, patience);
});

test("the server has the plantings and the kind, and nothing that was taken back", async () => {
  await phone.context.setOffline(false);
  await signalReturns(page);
  await allSent(page);
  const all = await until(async () => ((await plantings()).length === 4 ? keeper.pull() : null), "four plantings on the server");
  const [first, second] = [found, own].map((id) => all.get(`planting/${id}`).fields);
  assert.deepEqual([first.count, first.planted, first.form, first.potL, first.depthCm, first.amendments, first.price], [2, "2025-09", "pot", 2.5, 0, ["leaf mould", "grit"], 6.5]);
  assert.equal(all.get(`bed/${first.bed}`).fields.name, "Gravel");
  const { name, common, heightCm, minWinterC, sunHours, bloom } = all.get(`kind/${second.kind}`).fields;
  assert.deepEqual({ name, common, heightCm, minWinterC, sunHours, bloom }, {
    name: "Salvia ‘teasel bank’", common: ["bank sage"], heightCm: [60, 90], minWinterC: -15, sunHours: [6, 12], bloom: [{ from: "06-01", to: "09-30", needs: "" }],
  });
  assert.equal(second.bed, first.bed, "the bed last used");
  phone.behaved();
});
