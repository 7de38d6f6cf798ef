// Two phones of one household write apart and agree afterwards: no field is lost,
// a text that lost is kept and shown, and no clock wins by being wrong.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { until } from "./support/outsider.mjs";
import { allSent, choose, go, join, savedRows, see, setHeight, signalReturns, writeNote } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const MINUTE = 60_000;

let server, keeper, plantings;
const phones = [];

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper, plantings } = await plantedGarden(server, 5));
});

after(async () => {
  for (const phone of phones) await phone.remove();
  await server?.remove();
});

async function newPhone(device, name, prepare) {
  const phone = new Phone(server.address);
  phones.push(phone);
  const page = await join(phone, await keeper.invite("helper"), device, name, prepare);
  await go(page, `/planting/${plantings[0]}`);
  await see(page, "Long border");
  return { phone, page, offline: (on) => phone.context.setOffline(on) };
}

/** The one observation of a planting, as the server has it. */
function entryOf(planting, fits = () => true) {
  return until(async () => {
    const entries = [...(await keeper.pull()).values()].filter(({ record, fields }) => record.startsWith("observation/") && fields.planting === planting);
    return entries.length === 1 && fits(entries[0]) ? entries[0] : null;
  }, `the entry of ${planting} on the server`);
}

const addressOf = ({ record }) => `/entry/${record.split("/")[1]}`;

/** Shows an entry on a phone, once it is there. */
async function show(page, entry) {
  await go(page, "/plants");
  await until(async () => {
    await go(page, addressOf(entry));
    return page.getByRole("textbox", { name: "Note" }).isVisible();
  }, "the entry on the phone");
}

const noteOf = (page) => page.getByRole("textbox", { name: "Note" }).inputValue();
const alsoOf = (page) => page.locator(".also q").allTextContents();

let ines, bo;

test("what two phones write apart is all kept, and the text that lost is shown", async (t) => {
  ines = await newPhone("kitchen phone", "Ines");
  bo = await newPhone("shed phone", "Bo");
  await go(ines.page, `/round/${plantings[0]}`);
  await writeNote(ines.page, "First buds.");
  const entry = await entryOf(plantings[0]);
  await show(bo.page, entry);
  await show(ines.page, entry);

  await t.test("different fields and the same text, with no signal on either", async () => {
    await ines.offline(true);
    await bo.offline(true);
    await setHeight(ines.page, 74);
    await writeNote(ines.page, "First buds, and aphids under them.");
    await choose(bo.page, "bud");
    await writeNote(bo.page, "First buds, mildew on two leaves.");
    await savedRows(ines.page, 2);
    await savedRows(bo.page, 2);
  });

  await t.test("both phones agree on all of it", async () => {
    for (const one of [ines, bo]) {
      await one.offline(false);
      await signalReturns(one.page);
      await allSent(one.page);
    }
    const { fields, also } = await entryOf(plantings[0], (one) => one.also?.note);
    assert.equal(fields.heightCm, 74);
    assert.ok(fields.stage > 0);
    assert.equal(fields.note, "First buds, mildew on two leaves.", "the later one stands");
    assert.deepEqual(also.note.map(({ value }) => value), ["First buds, and aphids under them."]);
    for (const { page } of [ines, bo]) {
      await show(page, entry);
      await page.locator(".also q").waitFor(visible);
      assert.deepEqual(await alsoOf(page), ["First buds, and aphids under them."]);
      await see(page, page === ines.page ? /also written:/ : /also written by Ines:/);
      assert.equal(await noteOf(page), fields.note);
      assert.equal(await page.getByRole("textbox", { name: /^Height in (?!flower)/ }).inputValue(), "74");
      assert.equal(await page.getByRole("button", { name: "bud", exact: true }).getAttribute("aria-pressed"), "true");
    }
  });

  await t.test("writing the text again, having seen both, settles it on both", async () => {
    await writeNote(ines.page, "First buds; aphids, and mildew on two leaves.");
    await bo.page.locator(".also q").waitFor({ state: "detached", ...patience });
    assert.equal(await noteOf(bo.page), "First buds; aphids, and mildew on two leaves.");
    assert.deepEqual(await alsoOf(ines.page), []);
  });
});

test("ordinary edits one after the other never look like a conflict", async () => {
  await go(ines.page, `/round/${plantings[1]}`);
  await writeNote(ines.page, "Round 0.");
  const entry = await entryOf(plantings[1]);
  for (let round = 1; round <= 4; round++) {
    const { page } = round % 2 ? bo : ines;
    await show(page, entry);
    await page.waitForFunction((text) => document.querySelector("textarea")?.value === text, `Round ${round - 1}.`, patience);
    await writeNote(page, `Round ${round}.`);
    const { also } = await entryOf(plantings[1], ({ fields }) => fields.note === `Round ${round}.`);
    assert.equal(also, undefined, `round ${round}`);
  }
  for (const { page } of [ines, bo]) {
    await show(page, entry);
    assert.deepEqual(await alsoOf(page), []);
  }
});

/** In the page: a clock that shows another time and runs on from there. */
function setClock(shows) {
  const Real = globalThis.RealDate ?? Date;
  const shift = Date.parse(shows) - Real.now();
  globalThis.RealDate = Real;
  globalThis.Date = class extends Real {
    constructor(...parts) {
      super(...(parts.length ? parts : [Real.now() + shift]));
    }

    static now() {
      return Real.now() + shift;
    }
  };
}

for (const [year, planting] of [["2030", 2], ["1970", 3]]) {
  test(`a phone whose clock stands in ${year} works, and its clock wins nothing`, async () => {
    const id = plantings[planting];
    const odd = await newPhone(`phone of ${year}`, `Odd ${year}`, (context) => context.addInitScript(setClock, `${year}-06-02T09:00:00Z`));
    await go(odd.page, `/round/${id}`);
    await writeNote(odd.page, `Written in ${year}.`);
    const entry = await entryOf(id);
    const soon = new Date(Date.now() + 2 * MINUTE).toISOString();
    assert.ok(Object.values(entry.at).every((stamp) => stamp < soon), JSON.stringify(entry.at));

    await show(ines.page, entry);
    await writeNote(ines.page, "Seen, and written after it.");
    await entryOf(id, ({ fields, also }) => fields.note === "Seen, and written after it." && !also);

    await show(odd.page, entry);
    await odd.page.waitForFunction(() => document.querySelector("textarea")?.value === "Seen, and written after it.", null, patience);
    await writeNote(odd.page, "And again after that.");
    await entryOf(id, ({ fields, also }) => fields.note === "And again after that." && !also);
    odd.phone.behaved();
  });
}

test("a phone whose clock jumps to 2030 while it has no signal wins for a minute, not for years", async () => {
  const id = plantings[4];
  await go(bo.page, `/round/${id}`);
  await writeNote(bo.page, "Before the jump.");
  const entry = await entryOf(id);
  await bo.offline(true);
  await bo.page.evaluate(setClock, "2030-06-02T09:00:00Z");
  await show(bo.page, entry);
  await writeNote(bo.page, "With the clock of 2030.");
  await savedRows(bo.page, 1);
  await bo.offline(false);
  await signalReturns(bo.page);
  const { at } = await entryOf(id, ({ fields }) => fields.note === "With the clock of 2030.");
  assert.ok(at.note < new Date(Date.now() + 2 * MINUTE).toISOString(), at.note);

  await show(ines.page, entry);
  await ines.page.waitForFunction(() => document.querySelector("textarea")?.value === "With the clock of 2030.", null, patience);
  await writeNote(ines.page, "Written after it, by an honest clock.");
  await entryOf(id, ({ fields, also }) => fields.note === "Written after it, by an honest clock." && !also);
  for (const { phone } of [ines, bo]) phone.behaved();
});
