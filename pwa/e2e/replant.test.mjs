// What happens to plants over the years, each one act with one undo, with no
// signal, and the same on the server afterwards: added, moved, divided, lifted,
// planted again, died.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { setTimeout as pause } from "node:timers/promises";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { until } from "./support/outsider.mjs";
import { allSent, go, join, keptForOffline, see, signalReturns, typeHeight } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const BETWEEN_TAPS_MS = 600; // a second tap sooner counts as a wet finger's
const [iris, hellebore, dahlia] = ["planting-1", "planting-2", "planting-3"];

let server, keeper, phone, page;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper } = await plantedGarden(server, 3));
  await keeper.write(["bed/wet", { name: "Wet bed", order: 2 }], [`planting/${iris}`, { count: 5 }], [`planting/${dahlia}`, { kind: "dahlia-bishop-of-llandaff" }]);
  phone = new Phone(server.address);
  page = await join(phone, await keeper.invite("keeper"), "kitchen phone", "Bo");
  await go(page, `/planting/${iris}`);
  await see(page, "Long border");
  await keptForOffline(page);
  await phone.context.setOffline(true);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** Presses a button of a form some time after the form came, as people do. */
async function press(name) {
  const button = page.getByRole("button", { name, exact: true });
  await button.waitFor(visible);
  await pause(BETWEEN_TAPS_MS);
  await button.click();
}

async function open(planting, act) {
  await go(page, `/planting/${planting}`);
  await page.getByRole("link", { name: act, exact: true }).click();
}

const here = () => decodeURIComponent(/\/planting\/([^/]+)$/.exec(new URL(page.url()).pathname)?.[1] ?? "");

/** Waits for another planting's page and gives its id. */
async function arrived(from) {
  await page.waitForFunction((id) => /^\/planting\/[^/]+$/.test(location.pathname) && !location.pathname.endsWith(`/${id}`), from, patience);
  return here();
}

const line = () => page.locator("ol.ledger li").allInnerTexts().then((texts) => texts.map((text) => text.replace(/\s+/g, " ").trim()));

let moved, piece;

test("with no signal", async (t) => {
  await t.test("a plant is moved to another bed with the height that it has", async () => {
    await go(page, `/round/${hellebore}`);
    await typeHeight(page, 84);
    await see(page, /^saved \d/);
    await open(hellebore, "Move it");
    await page.getByRole("combobox", { name: "Bed" }).selectOption({ label: "Wet bed" });
    assert.equal(await page.getByLabel(/^Height when moved/).inputValue(), "84");
    await press("Move it");
    moved = await arrived(hellebore);
    await see(page, /Wet bed/);
    assert.match((await line()).join("\n"), /planted in Long border[\s\S]*moved to Wet bed this planting/);
    await page.locator("ol.ledger a").first().click();
    await see(page, /It was moved, /);
  });

  await t.test("one undo takes the whole move back, and it can be done again", async () => {
    await go(page, `/planting/${moved}`);
    await page.getByRole("button", { name: "undo" }).first().click();
    await page.waitForURL(new RegExp(`/planting/${hellebore}$`), patience);
    await page.getByText(/It was moved/).waitFor({ state: "detached", ...patience });
    assert.deepEqual(await line(), []);
    await open(hellebore, "Move it");
    await page.getByRole("combobox", { name: "Bed" }).selectOption({ label: "Wet bed" });
    await press("Move it");
    moved = await arrived(hellebore);
  });

  await t.test("a clump is divided: three stay, two go to a new bed", async () => {
    await open(iris, "Divide it");
    await page.getByLabel("How many stay where it is").fill("3");
    await page.getByLabel("How many pieces").fill("2");
    await page.getByLabel("Or a new bed, by its name").fill("Nursery row");
    await press("Divide it");
    await see(page, /divided, 2 pieces planted/);
    assert.match((await line()).join("\n"), /planted in Long border this planting[\s\S]*divided, 2 pieces to Nursery row/);
    await see(page, "3 plants");
    await page.locator("ol.ledger a").first().click();
    piece = await arrived(iris);
    await see(page, /Nursery row · 2 plants/);
  });

  await t.test("a dahlia is lifted into store and planted again", async () => {
    await open(dahlia, "Lift it into store");
    await press("Lift it");
    await see(page, /In store since/);
    await go(page, "/plants");
    await page.getByRole("heading", { name: "In store" }).waitFor(visible);
    await open(dahlia, "Plant it again");
    await press("Plant it");
    await page.getByText(/In store since/).waitFor({ state: "detached", ...patience });
    await page.getByRole("link", { name: "Lift it into store" }).waitFor(visible);
  });

  await t.test("a piece dies of wet, and one undo brings it back", async () => {
    for (const last of [false, true]) {
      await open(piece, "It died or is gone");
      await page.getByRole("radio", { name: "wet feet" }).check();
      await press("Keep");
      await see(page, "Likely: wet feet.");
      if (last) break;
      await page.getByRole("button", { name: "undo" }).first().click();
      await page.getByText("Likely: wet feet.").waitFor({ state: "detached", ...patience });
    }
  });

  await t.test("all of it is there after the browser was quit", async () => {
    await phone.quit();
    page = await phone.open(`/planting/${piece}`, (context) => context.setOffline(true));
    await see(page, "Likely: wet feet.");
  });
});

test("the server has the same once there is a signal", async () => {
  await phone.context.setOffline(false);
  await signalReturns(page);
  await allSent(page);
  const records = await until(async () => {
    const all = await keeper.pull();
    return all.get(`planting/${piece}`)?.fields.ended ? all : null;
  }, "the server has what was done");
  const of = (id) => records.get(`planting/${id}`).fields;
  const works = (id) => [...records.values()].filter(({ record, fields }) => record.startsWith("work/") && fields.planting === id).map(({ fields }) => fields.what);
  assert.equal(of(hellebore).endedHow, "moved");
  assert.deepEqual(of(moved).from, { planting: hellebore, how: "moved" });
  assert.deepEqual([of(moved).bed, of(moved).heightCm, of(moved).planted], ["wet", 84, of(hellebore).ended]);
  assert.deepEqual([of(iris).count, of(iris).ended, works(iris)], [3, undefined, ["divide"]]);
  assert.deepEqual([of(piece).from, of(piece).count, of(piece).form], [{ planting: iris, how: "divided" }, 2, "division"]);
  assert.equal(records.get(`bed/${of(piece).bed}`).fields.name, "Nursery row");
  assert.deepEqual([of(dahlia).stored ?? null, works(dahlia).sort()], [null, ["lift", "plant"]]);
  assert.deepEqual([of(piece).endedHow, of(piece).endedWhy], ["died", "wet"]);
  assert.equal([...records.values()].filter(({ record, gone }) => record.startsWith("planting/") && !gone).length, 5, "nothing that was undone is left");
  phone.behaved();
});
