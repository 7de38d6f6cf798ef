import "fake-indexeddb/auto";
import Dexie from "dexie";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Ref } from "../words/records";
import { newId } from "../words/uuid";
import { GardenDatabase } from "./database";
import type { Answer, FeedRecord } from "./feed";
import { bytesKey, type HeldPhoto } from "./held";
import type { News } from "./news";
import { Store } from "./store";
import type { Picture } from "./writing";

let store: Store;
let clock = Date.parse("2026-06-02T09:15:00.000Z");
const now = () => clock;
const [rose, iris] = ["planting/rose", "planting/iris"] as const;

beforeEach(() => {
  clock = Date.parse("2026-06-02T09:15:00.000Z");
  store = new Store(newId(clock), now);
});
afterEach(() => store.destroy());

const stamp = (n: number) => `2026-06-02T09:15:00.000Z-${n.toString(16).padStart(4, "0")}-others`;
const fromFeed = (seq: number, fields: Record<string, unknown>, record: FeedRecord["record"] = rose): FeedRecord => ({
  record, seq, fields, at: Object.fromEntries(Object.keys(fields).map((name) => [name, stamp(seq)])),
});
const answer = (parts: Partial<Answer>): Answer => ({
  applied: [], refused: [], records: [], cursor: "a.0", more: false, now: new Date(clock).toISOString(), heardMs: clock, ...parts,
});
const fieldsOf = async () => (await store.shown([rose]))[0]?.fields;

const picture = (sha: string, ref: Ref = rose): Picture => {
  const photo: HeldPhoto = {
    sha, ref, type: "image/jpeg", size: 3, made: "2026-06-02T09:15:00+00:00", previews: [], sentPreviews: [], sent: 0, done: 0,
  };
  return { photo, bytes: [{ key: bytesKey(sha, "original"), type: "image/jpeg", bytes: new Uint8Array([1, 2, 3]).buffer }] };
};

describe("reading piece by piece", () => {
  const pieces = async (size: number) => {
    const read = [];
    for await (const piece of store.shownPiecewise(["bed", "planting"], size)) read.push(piece);
    return read;
  };

  it.each([1, 2, 3, 100])("shows what reading all at once shows, %i records a piece", async (size) => {
    const named = ["bed/a", "bed/b", "observation/o", "planting/a", "planting/b", "planting/c"] as const;
    await store.settle(answer({ records: named.map((ref, i) => fromFeed(i + 1, { count: i }, ref)), cursor: "a.6" }));
    await store.write([{ ref: "planting/b", set: { count: 9 } }, { ref: "planting/new", set: { count: 7 } }, { ref: "work/w", set: {} }]);
    await store.write([{ ref: "bed/a", set: {}, gone: true }]);
    const read = await pieces(size);
    const last = new Map(read.flat().map((shown) => [shown.ref, shown]));
    const whole = await store.shownOf(["bed", "planting"]);
    expect(last).toEqual(new Map(whole.map((shown) => [shown.ref, shown])));
    expect(Math.max(...read.slice(0, -1).map(({ length }) => length))).toBeLessThanOrEqual(size);
  });
});

describe("writing", () => {
  it("keeps changes in order, each stamped after the last, and shows them at once", async () => {
    await store.write([{ ref: rose, set: { count: 1 } }]);
    await store.write([{ ref: rose, set: { count: 2, label: "by the wall" } }]);
    const waiting = await store.waiting();
    expect(waiting.map((change) => change.set)).toEqual([{ count: 1 }, { count: 2, label: "by the wall" }]);
    expect(waiting[0]!.at < waiting[1]!.at).toBe(true);
    expect(await fieldsOf()).toEqual({ count: 2, label: "by the wall" });
  });

  it("survives the store being closed and opened", async () => {
    await store.write([{ ref: rose, set: { count: 1 } }]);
    const [before] = await store.waiting();
    store.close();
    store = new Store(store.garden, () => 0);
    expect(await fieldsOf()).toEqual({ count: 1 });
    const { changes } = await store.write([{ ref: rose, set: { count: 2 } }]);
    expect(changes[0]!.at > before!.at).toBe(true);
  });

  it("opens the connection anew when the browser dropped it", async () => {
    await store.write([{ ref: rose, set: { count: 1 } }]);
    for (const db of (Dexie as unknown as { connections: Dexie[] }).connections) db.close({ disableAutoOpen: true });
    await store.write([{ ref: rose, set: { count: 2 } }]);
    expect(await fieldsOf()).toEqual({ count: 2 });
  });

  it("writes once although it never heard that the first try was on disk", async () => {
    const whole = GardenDatabase.prototype.transaction as (...args: unknown[]) => Promise<unknown>;
    const spy = vi.spyOn(GardenDatabase.prototype, "transaction") as unknown as { mockImplementationOnce(once: typeof whole): void };
    spy.mockImplementationOnce(async function (this: GardenDatabase, ...args: unknown[]) {
      await whole.apply(this, args);
      throw Object.assign(new Error("connection lost"), { name: "UnknownError" });
    });
    await store.write([{ ref: rose, set: { count: 1 } }]);
    expect((await store.waiting()).length).toBe(1);
  });

  it("keeps picture and change together or not at all", async () => {
    const broken = { ...picture("b"), bytes: [{ key: undefined as unknown as string, type: "", bytes: new ArrayBuffer(0) }] };
    await expect(store.write([{ ref: rose, set: { photos: ["b"] } }], [broken])).rejects.toThrow();
    expect([await store.waiting(), await store.unsentPhotos()]).toEqual([[], []]);
    await store.write([{ ref: rose, set: { photos: ["a"] } }], [picture("a")]);
    expect((await store.waiting()).length + (await store.unsentPhotos()).length).toBe(2);
  });

  it("tells what changed, and then that it is to be sent", async () => {
    const heard: News[] = [];
    store.listen((news) => heard.push(news));
    await store.write([{ ref: rose, set: { count: 1 } }]);
    expect(heard).toEqual([{ refs: [rose], photos: false }]);
    await vi.waitFor(() => expect(heard.slice(1)).toEqual([{ sending: true, wake: true }]));
  });

  it("gives what each record shows afterwards, as the store shows it", async () => {
    const written = await store.write([{ ref: rose, set: { count: 1 } }, { ref: rose, set: { note: "by the gate" } }]);
    expect(written.after).toEqual(await store.shown([rose, rose]));
    expect(written.before.map((shown) => shown?.fields ?? null)).toEqual([null, { count: 1 }]);
    expect(await store.takeBack(written)).toEqual([null, null]);
  });
});

describe("undo", () => {
  it("deletes what was never given to the line, with its picture", async () => {
    const written = await store.write([{ ref: rose, set: { photos: ["a"] } }], [picture("a")]);
    await store.takeBack(written);
    expect([await store.waiting(), await store.unsentPhotos(), await store.bytesOf("a", "original")]).toEqual([[], [], undefined]);
    expect(await store.shown([rose])).toEqual([null]);
  });

  it("leaves a picture alone that an earlier entry brought, and how far it has gone", async () => {
    await store.write([{ ref: rose, set: { photos: ["a"] } }], [picture("a")]);
    await store.progress("a", { sent: 2, sentPreviews: [320] });
    const again = await store.write([{ ref: iris, set: { photos: ["a"] } }], [picture("a", iris)]);
    expect(await store.unsentPhotos()).toMatchObject([{ sha: "a", sent: 2, sentPreviews: [320] }]);
    await store.takeBack(again);
    expect((await store.bytesOf("a", "original"))?.bytes.byteLength).toBe(3);
    expect(await store.unsentPhotos()).toMatchObject([{ sha: "a", ref: rose, sent: 2 }]);
  });

  it("leaves a picture to the entry that also speaks of it, and drops it with the last", async () => {
    const first = await store.write([{ ref: rose, set: { photos: ["a"] } }], [picture("a")]);
    const again = await store.write([{ ref: iris, set: { photos: ["a"] } }], [picture("a", iris)]);
    await store.takeBack(first);
    expect(await store.unsentPhotos()).toMatchObject([{ sha: "a", ref: iris }]);
    expect(await store.bytesOf("a", "original")).toBeDefined();
    await store.takeBack(again);
    expect([await store.unsentPhotos(), await store.bytesOf("a", "original")]).toEqual([[], undefined]);
  });

  it("sends a picture no second time that the server has", async () => {
    await store.write([{ ref: rose, set: { photos: ["a"] } }], [picture("a")]);
    await store.progress("a", { sent: 3, done: 1 });
    await store.write([{ ref: iris, set: { photos: ["a"] } }], [picture("a", iris)]);
    expect([await store.unsentPhotos(), await store.bytesOf("a", "original")]).toEqual([[], undefined]);
  });

  it("writes the former values when the server may have the change", async () => {
    await store.settle(answer({ records: [fromFeed(4, { count: 1 })], cursor: "a.4" }));
    const written = await store.write([{ ref: rose, set: { count: 2, label: "new" } }]);
    await store.take(500, 1e6);
    await store.takeBack(written);
    expect(await fieldsOf()).toEqual({ count: 1 });
    expect((await store.waiting()).map((change) => change.set)).toEqual([{ count: 2, label: "new" }, { count: 1, label: null }]);
  });

  it("takes a new record away when the server may have it", async () => {
    const written = await store.write([{ ref: rose, set: { count: 2 } }]);
    await store.take(500, 1e6);
    await store.takeBack(written);
    expect((await store.shown([rose]))[0]).toMatchObject({ gone: true });
  });

  it("leaves alone what was written since", async () => {
    await store.settle(answer({ records: [fromFeed(4, { count: 1, label: "old" })], cursor: "a.4" }));
    const written = await store.write([{ ref: rose, set: { count: 2, label: "mine" } }]);
    await store.write([{ ref: rose, set: { label: "later" } }]);
    await store.takeBack(written);
    expect(await fieldsOf()).toEqual({ count: 1, label: "later" });
  });

  it("writes nothing where all of it was written on since, and nothing for a draft that says nothing", async () => {
    await store.settle(answer({ records: [fromFeed(4, { label: "old" })], cursor: "a.4" }));
    const written = await store.write([{ ref: rose, set: { label: "mine" } }]);
    await store.write([{ ref: rose, set: { label: "later" } }, { ref: iris, set: {} }]);
    await store.take(500, 1e6);
    await store.takeBack(written);
    expect([await fieldsOf(), (await store.waiting()).map((change) => change.set)]).toEqual([{ label: "later" }, [{ label: "mine" }, { label: "later" }]]);
  });

  it("begins a picture anew that was given up or failed, and keeps who speaks of it", async () => {
    for (const [sha, end] of [["a", () => store.giveUp("a", true)], ["b", () => store.progress("b", { failed: { code: "too-large" } })]] as const) {
      await store.write([{ ref: rose, set: { photos: [sha] } }], [picture(sha)]);
      await end();
      await store.letGo(1e9);
      await store.write([{ ref: iris, set: { photos: [sha] } }], [picture(sha, iris)]);
      const begun = (await store.unsentPhotos()).find((photo) => photo.sha === sha);
      expect([begun?.givenUp, begun?.failed, begun?.ref, begun?.also]).toEqual([undefined, undefined, iris, [rose]]);
      expect((await store.bytesOf(sha, "original"))?.bytes.byteLength).toBe(3);
    }
  });

  it("brings back a record that was taken away", async () => {
    await store.settle(answer({ records: [fromFeed(4, { count: 1 })], cursor: "a.4" }));
    const written = await store.write([{ ref: rose, set: {}, gone: true }]);
    await store.take(500, 1e6);
    expect((await store.shown([rose]))[0]).toMatchObject({ gone: true });
    await store.takeBack(written);
    expect((await store.shown([rose]))[0]).toMatchObject({ gone: false, fields: { count: 1 } });
  });
});

describe("a store of version 1", () => {
  it("is taken over with all that it held", async () => {
    const garden = newId(clock);
    const old = new Dexie(`haulm-${garden}`);
    old.version(1).stores({ records: "ref, kind, epoch", changes: "++order, &id, ref", refused: "id, ref", photos: "sha, ref", bytes: "key", meta: "" });
    const { photo, bytes } = picture("a");
    await old.table("photos").bulkPut([{ ...photo, done: false }, { ...photo, sha: "b", done: true }]);
    await old.table("bytes").bulkPut([...bytes, { ...bytes[0], key: "b/320" }]);
    await old.table("changes").add({ id: newId(clock), ref: rose, base: 0, at: stamp(1), set: { photos: ["a", "b"] }, made: photo.made, tried: false });
    await old.table("meta").put("a.4", "cursor");
    old.close();

    const taken = new Store(garden, now);
    expect(await taken.unsentPhotos()).toEqual([{ ...photo, done: 0 }]);
    expect([(await taken.bytesOf("a", "original"))!.bytes.byteLength, await taken.meta("cursor")]).toEqual([3, "a.4"]);
    expect((await taken.shown([rose]))[0]!.fields).toEqual({ photos: ["a", "b"] });
    await taken.write([{ ref: rose, set: { count: 1 } }]);
    expect((await taken.waiting()).map(({ set }) => set)).toEqual([{ photos: ["a", "b"] }, { count: 1 }]);
    const beside = new GardenDatabase(garden);
    expect(await beside.kept.toArray()).toEqual([{ key: "a/original", size: null, shown: 0 }, { key: "b/320", size: null, shown: 0 }]);
    beside.close();
    await taken.destroy();
  });
});

describe("an answer", () => {
  it("leaves a sent change on top until the cursor has passed it", async () => {
    await store.settle(answer({ records: [fromFeed(4, { count: 1 })], cursor: "a.4" }));
    const { changes } = await store.write([{ ref: rose, set: { count: 2 } }]);
    const applied = [{ id: changes[0]!.id, seq: 9, at: changes[0]!.at }];
    await store.settle(answer({ applied, cursor: "a.6", more: true }));
    expect([await fieldsOf(), (await store.waiting()).length]).toEqual([{ count: 2 }, 0]);
    await store.settle(answer({ records: [fromFeed(9, { count: 7 })], cursor: "a.9" }));
    expect(await fieldsOf()).toEqual({ count: 7 });
    const beside = new GardenDatabase(store.garden);
    expect(await beside.changes.count()).toBe(0);
    beside.close();
  });

  it("puts a refused change aside with its reason, and mends it under a new id", async () => {
    const { changes } = await store.write([{ ref: rose, set: { count: -1 } }]);
    const id = changes[0]!.id;
    await store.settle(answer({ refused: [{ id, code: "invalid_count", why: "count -1 is below 0" }] }));
    expect([(await store.waiting()).length, (await store.refused())[0]]).toMatchObject([0, { id, why: "count -1 is below 0" }]);
    await store.mend(id, { count: 1 });
    const [mended] = await store.waiting();
    expect([mended!.id === id, mended!.set, await store.refused()]).toEqual([false, { count: 1 }, []]);
  });

  it("bases a change on the sequence that was seen", async () => {
    await store.settle(answer({ records: [fromFeed(4, { count: 1 })], cursor: "a.4" }));
    expect((await store.write([{ ref: rose, set: { count: 2 } }])).changes[0]!.base).toBe(4);
  });

  it("moves the clock past every stamp seen, and learns the offset", async () => {
    clock = 0;
    await store.settle(answer({ records: [fromFeed(4, { count: 1 })], cursor: "a.4", now: "1970-01-01T00:01:00.000Z" }));
    const { changes } = await store.write([{ ref: rose, set: { count: 2 } }]);
    expect(changes[0]!.at.slice(0, 29)).toBe("2026-06-02T09:15:00.000Z-0005");
    expect((await store.meta("clock"))!.offsetMs).toBe(60_000);
  });

  it("keeps the digest in step whatever the order, tombstones apart", async () => {
    const [a, b] = [fromFeed(1, { count: 1 }), fromFeed(2, { name: "x" }, "bed/b")];
    await store.settle(answer({ records: [a], cursor: "a.1" }));
    const ofA = await store.meta("digest");
    await store.settle(answer({ records: [b], cursor: "a.2" }));
    const ofBoth = await store.meta("digest");
    await store.settle(answer({ records: [{ ...b, seq: 3, gone: true }], cursor: "a.3" }));
    expect([await store.meta("digest"), ofBoth === ofA]).toEqual([ofA, false]);
  });
});

describe("another life of the garden", () => {
  const begin = async () => {
    await store.settle(answer({ records: [fromFeed(2, { name: "x" }, "bed/b"), fromFeed(4, { count: 1, label: "old" })], cursor: "a.4" }));
    const { changes } = await store.write([{ ref: rose, set: { count: 2 } }]);
    await store.settle(answer({ applied: [{ id: changes[0]!.id, seq: 6, at: changes[0]!.at }], cursor: "a.4" }));
    await store.beginAgain(3);
    return changes[0]!;
  };

  it("starts the feed again and goes on showing what is held", async () => {
    await begin();
    expect([await store.meta("cursor"), await fieldsOf()]).toEqual(["", { count: 2, label: "old" }]);
    await store.settle(answer({ records: [fromFeed(1, { count: 0 })], cursor: "b.1" }));
    expect(await fieldsOf()).toEqual({ count: 2, label: "old" });
  });

  it("offers what changed after the fork under the stamps it had, then what is unsent", async () => {
    const own = await begin();
    expect((await store.waiting()).map(({ ref, set, at, base }) => ({ ref, set, at, base }))).toEqual([
      { ref: rose, set: { count: 1, label: "old" }, at: stamp(4), base: 3 },
      { ref: rose, set: { count: 2 }, at: own.at, base: 3 },
    ]);
  });

  it("keeps quiet about a refused offer, and forgets what nobody has any more", async () => {
    await begin();
    const [offer, own] = await store.waiting();
    const refused = [{ id: offer!.id, code: "role_helper", why: "A helper may not." }];
    await store.settle(answer({ refused, applied: [{ id: own!.id, seq: 1, at: own!.at }], records: [fromFeed(1, { count: 2 })], cursor: "b.1" }));
    await store.dropOrphans();
    expect([await store.refused(), await fieldsOf(), (await store.marks()).map(({ ref }) => ref)]).toEqual([[], { count: 2 }, [rose]]);
  });
});
