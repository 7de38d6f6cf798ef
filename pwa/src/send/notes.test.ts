import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { GardenDatabase } from "../store/database";
import { Store } from "../store/store";
import type { TroubleCode } from "../words/trouble";
import { newId } from "../words/uuid";
import { FakeServer, json } from "./fake-server";
import { Notes } from "./notes";
import { Server } from "./server";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
const rose = "planting/rose" as const;
let fake: FakeServer;
let store: Store;
let notes: Notes;

function phone(): [Store, Notes] {
  const store = new Store(newId(now()), now);
  return [store, new Notes(store, new Server("g", fake.fetch, now))];
}

beforeEach(() => {
  fake = new FakeServer();
  [store, notes] = phone();
});
afterEach(() => store.destroy());

const write = (count: number) => store.write([{ ref: rose, set: { count } }]);
const fieldsOf = async (from = store) => (await from.shown([rose]))[0]?.fields;
const codeOf = (thrown: { trouble: { code: TroubleCode } }) => thrown.trouble.code;

/** Runs until it succeeds, as the loop would, and tells how many tries it took. */
async function insist(limit = 200): Promise<number> {
  for (let tries = 1; tries <= limit; tries++) {
    if (await notes.run().then(() => true, () => false)) return tries;
  }
  throw new Error("never went through");
}

describe("notes", () => {
  it("go to the server, and come to another phone", async () => {
    await write(3);
    await notes.run();
    const [other, otherNotes] = phone();
    await otherNotes.run();
    expect([await fieldsOf(other), await store.waiting()]).toEqual([{ count: 3 }, []]);
    expect(await other.meta("digest")).toBe(await store.meta("digest"));
    expect(await store.meta("agreed")).toBeDefined();
    await other.destroy();
  });

  it("go in batches of 500, in order, and the feed is read to its end", async () => {
    fake.pageSize = 100;
    await store.write(Array.from({ length: 1100 }, (_, i) => ({ ref: `observation/${i}` as const, set: { stage: i % 99 } })));
    await notes.run();
    expect([fake.records.size, await store.waiting()]).toEqual([1100, []]);
    expect((await store.shownOf(["observation"])).length).toBe(1100);
    expect([...fake.outcomes.values()].map(({ at }) => at)).toEqual([...fake.outcomes.values()].map(({ at }) => at).sort());
  });

  it("are applied once although every other answer is lost", async () => {
    let request = 0;
    fake.interfere = () => (request++ % 2 === 0 ? "after" : null);
    await write(1);
    await write(2);
    expect(await insist()).toBeGreaterThan(1);
    expect([fake.seq, await fieldsOf(), await store.waiting()]).toEqual([2, { count: 2 }, []]);
  });

  it("survive cuts anywhere, and both sides agree in the end", async () => {
    let request = 0;
    fake.pageSize = 7;
    for (let i = 0; i < 40; i++) fake.put(`bed/${i}`, { order: i });
    fake.interfere = () => (["before", null, "after", null, null] as const)[request++ % 5]!;
    await store.write(Array.from({ length: 30 }, (_, i) => ({ ref: `observation/${i}` as const, set: { stage: i } })));
    await insist();
    expect([fake.records.size, (await store.shownOf(["bed", "observation"])).length, fake.seq]).toEqual([70, 70, 70]);
  });

  it.each([
    [401, "shut-out"], [403, "not-allowed"], [404, "not-found"], [429, "too-often"], [500, "server-failed"], [503, "server-failed"],
  ] as const)("stay on the phone when the server says %i", async (status, code) => {
    fake.interfere = () => json({ code: "x", why: "Because." }, status);
    await write(1);
    const thrown = await notes.run().catch((error) => error);
    expect([codeOf(thrown), thrown.trouble.detail, (await store.waiting()).length]).toEqual([code, "Because.", 1]);
  });

  it.each([
    ["a sign-in page", () => new Response("<html>Welcome to the café</html>", { headers: { "Content-Type": "text/html" } })],
    ["broken JSON", () => new Response("{", { headers: { "Content-Type": "application/json" } })],
    ["JSON of someone else's", () => json({ ok: true })],
    ["an answer that passes over what was sent", () => json({ applied: [], refused: [], records: [], cursor: "a.9", more: false, now: "" })],
    ["records that are none", () => json({ records: [null], cursor: "a.9", now: "" })],
  ])("stay on the phone when the answer is %s", async (_, answer) => {
    fake.interfere = answer;
    await write(1);
    expect(codeOf(await notes.run().catch((error) => error))).toBe("not-haulm");
    expect([await store.meta("cursor"), (await store.waiting()).length]).toEqual([undefined, 1]);
  });

  it("stay on the phone when nothing answers", async () => {
    fake.interfere = () => "before";
    await write(1);
    expect(codeOf(await notes.run().catch((error) => error))).toBe("no-answer");
  });

  it("that are refused are kept with the reason and hold up nothing", async () => {
    fake.judge = (change) => ((change.set?.["count"] as number) < 0 ? "count -1 is below 0" : null);
    await write(-1);
    await write(5);
    await notes.run();
    expect([fake.records.get(rose)?.fields, (await store.refused()).map(({ why }) => why)]).toEqual([{ count: 5 }, ["count -1 is below 0"]]);
  });

  it("that make a request unreadable or too large are found, put aside, and hold up nothing", async () => {
    const plain = fake.fetch;
    const picky = new Notes(store, new Server("g", async (input, init) => {
      if (String(init?.body).includes("poison")) return json({ code: "too_large", why: "Too large." }, 413);
      return plain(input, init);
    }, now));
    for (let i = 0; i < 20; i++) await store.write([{ ref: `observation/${i}`, set: { note: i === 13 ? "poison" : "fine" } }]);
    await picky.run();
    expect([fake.records.size, (await store.refused()).map(({ ref, code }) => [ref, code])]).toEqual([19, [["observation/13", "too-large"]]]);
  });

  it("start the feed again after a loss, and give back what was lost, others' included", async () => {
    fake.put("bed/kept", { order: 1 });
    await write(1);
    fake.put("bed/theirs", { order: 7 });
    await notes.run();
    const [kept, theirs] = [fake.records.get("bed/kept")!, fake.records.get("bed/theirs")!];
    [fake.epoch, fake.fork, fake.seq] = ["b", kept.seq, kept.seq];
    fake.records.clear();
    fake.outcomes.clear();
    fake.records.set("bed/kept", kept);
    await write(2);
    await notes.run();
    expect(fake.records.get("bed/theirs")).toMatchObject({ fields: theirs.fields, at: theirs.at });
    expect([fake.records.get(rose)?.fields, await fieldsOf(), fake.records.size]).toEqual([{ count: 2 }, { count: 2 }, 3]);
    expect((await store.marks()).map(({ ref }) => ref).sort()).toEqual([...fake.records.keys()].sort());
  });
});

describe("a refusal with 409", () => {
  const conflict = (said: object) => () => json(said, 409);

  it.each([
    ["is none of Haulm's", { message: "conflict" }],
    ["comes again and again", { code: "other_epoch", why: "restored", fork: 0 }],
  ])("leaves what is held alone when it %s", async (_, said) => {
    fake.put("bed/theirs", { order: 7 });
    await notes.run();
    fake.interfere = conflict(said);
    await expect(notes.run()).rejects.toMatchObject({ trouble: { code: "not-haulm" } });
    await expect(notes.run()).rejects.toMatchObject({ trouble: { code: "not-haulm" } });
    expect((await store.shown(["bed/theirs"]))[0]?.fields).toEqual({ order: 7 });
    expect(fake.requests.filter((request) => request.endsWith("/sync")).length).toBeLessThan(8);
    fake.interfere = () => null;
    await notes.run();
    expect(await store.waiting()).toEqual([]);
  });
});

describe("agreement", () => {
  it("is mended where phone and server differ, and only there", async () => {
    for (let i = 0; i < 20; i++) fake.put(`bed/${i}`, { order: i });
    await notes.run();
    const [held] = await store.marks();
    await store.forget([held!]);
    fake.records.delete("bed/7");
    fake.put("bed/new", { order: 99 });
    fake.requests.length = 0;
    await notes.run();
    const refs = (await store.marks()).map(({ ref }) => ref).sort();
    expect(refs).toEqual([...fake.records.keys()].sort());
    expect(fake.requests.filter((request) => request.includes("sums/")).length).toBeLessThanOrEqual(2);
  });

  it("finds a record that the phone lost, when the app is opened again", async () => {
    fake.put("bed/a", { order: 1 });
    fake.put("bed/b", { order: 2 });
    await notes.run();
    const beside = new GardenDatabase(store.garden);
    await beside.records.delete("bed/a");
    beside.close();
    await new Notes(store, new Server("g", fake.fetch, now)).run();
    expect((await store.shown(["bed/a"]))[0]?.fields).toEqual({ order: 1 });
  });
});
