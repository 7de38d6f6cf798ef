// The server dies by kill -9 between any two steps of a day, and in the middle of
// one. Whatever it had acknowledged by then, a device that is new to the garden
// gets from it afterwards, byte for byte.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Acknowledged } from "./support/acknowledged.mjs";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { Outsider, sha256 } from "./support/outsider.mjs";
import { allSent, choose, go, join, keptForOffline, photograph, see, setHeight, signalReturns, writeNote } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const taken = { taken: "2026:06:02 09:15:00", offset: "+01:00", lat: 52.2, lon: 0.1, accuracyM: 5 };
const picture = jpeg({ ...taken, bytes: 8 << 20 });
const sha = sha256(picture);

const acknowledged = new Acknowledged();
let server, phone, page, keeper, plantings, comers = 0;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper, plantings } = await plantedGarden(server));
  phone = new Phone(server.address);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** Holds what a newcomer gets against all that was acknowledged so far. */
async function nothingIsLost() {
  const newcomer = await Outsider.join(server, await keeper.invite("viewer"), `Comer ${++comers}`, "another phone");
  const records = await newcomer.pull();
  for (const [ref, fields] of acknowledged.records) {
    for (const [field, value] of fields) assert.deepEqual(records.get(ref)?.fields[field] ?? null, value, `${ref} ${field}`);
  }
  for (const name of acknowledged.originals) assert.equal(sha256(await newcomer.media(name)), name);
  for (const preview of acknowledged.previews) {
    const [name, width] = preview.split("/");
    assert.ok((await newcomer.media(name, width)).length > 100, `preview ${preview}`);
  }
  return records;
}

/** Kills the server and starts it again; the phone stays without a signal, so that it does not run ahead. */
async function crash() {
  await server.kill();
  await acknowledged.settled();
  await phone.context.setOffline(true);
  await server.start();
}

/** With a signal again, crashes the server as soon as the phone has sent, or heard, what `when` looks for. */
async function killedAt(event, when, act = async () => {}) {
  const struck = phone.context.waitForEvent(event, { predicate: when, ...patience });
  await signal();
  await act();
  await struck;
  await crash();
}

async function signal() {
  await phone.context.setOffline(false);
  await signalReturns(page);
}

const isSync = (one) => one.url().endsWith("/sync");
const ofRequest = (one) => (one.request ? one.request() : one);
const sends = (method, part) => (one) => ofRequest(one).method() === method && one.url().includes(part);
const pushes = (one) => isSync(one) && (ofRequest(one).postDataJSON()?.changes ?? []).length > 0;

test("kill -9 of the server loses nothing that it acknowledged", async (t) => {
  await t.test("after a phone has joined", async () => {
    page = await join(phone, await keeper.invite("keeper"), "kitchen phone", "Bo", (context) => acknowledged.watch(context));
    await keptForOffline(page);
    await crash();
    await nothingIsLost();
    await page.reload();
    await page.locator("main h1").waitFor(patience);
    await signal(); // the crash may have come before the garden did
    await go(page, "/plants");
    await see(page, "Long border");
  });

  await t.test("after a note was acknowledged", async () => {
    await go(page, `/round/${plantings[0]}`);
    await killedAt("response", pushes, () => writeNote(page, "Buds as big as a thumb."));
    const records = await nothingIsLost();
    assert.ok([...records.values()].some(({ fields }) => fields.note === "Buds as big as a thumb."));
  });

  await t.test("while a stage is on its way", async () => {
    await killedAt("request", pushes, () => choose(page, "bud"));
    await nothingIsLost();
    await signal();
    await allSent(page);
    const records = await nothingIsLost();
    assert.ok([...records.values()].some(({ fields }) => fields.note === "Buds as big as a thumb." && fields.stage !== undefined), "note and stage are one entry");
  });

  await t.test("after the first preview of a photograph", async () => {
    await go(page, `/planting/${plantings[1]}`);
    await killedAt("response", sends("PUT", "/preview/"), () => photograph(page, picture));
    await nothingIsLost();
  });

  await t.test("in the middle of a photograph, twice", async () => {
    const inTheMiddle = (past) => (one) => sends("PATCH", sha)(one) && Number(one.headers()["upload-offset"]) >= past;
    await killedAt("request", inTheMiddle(1 << 20));
    await nothingIsLost();
    await killedAt("request", inTheMiddle(2 << 20));
    assert.equal(acknowledged.originals.size, 0, "the picture was not whole yet");
    await nothingIsLost();
  });

  await t.test("as soon as the photograph was acknowledged whole", async () => {
    const whole = (one) => sends("PATCH", sha)(one) && one.headers()["upload-complete"] === "?1";
    await killedAt("response", whole);
    assert.ok(acknowledged.originals.has(sha));
    await nothingIsLost();
  });

  await t.test("and after a last height all of it is there, and phone and server agree", async () => {
    await go(page, `/round/${plantings[2]}`);
    await killedAt("response", pushes, () => setHeight(page, 61));
    await signal();
    await allSent(page);
    const records = await nothingIsLost();
    const seen = [...records.values()].filter(({ record }) => record.startsWith("observation/")).map(({ fields }) => fields);
    assert.deepEqual(seen.map(({ planting }) => planting).sort(), plantings);
    assert.deepEqual(seen.find(({ photos }) => photos)?.photos, [sha]);
    assert.equal(acknowledged.previews.size, 2);
    t.diagnostic(`${acknowledged.records.size} records, ${acknowledged.previews.size} previews and ${acknowledged.originals.size} original outlived 7 kills`);
    phone.behaved();
  });
});
