// A phone that is a version behind its server, or ahead of it.
import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { bytesKey, type HeldPhoto } from "../store/held";
import type { FeedRecord } from "../store/feed";
import { Store } from "../store/store";
import { Shelf } from "../state/shelf.svelte";
import type { Ref } from "../words/records";
import { newId } from "../words/uuid";
import { FakeServer, json } from "./fake-server";
import { Notes } from "./notes";
import { Pictures } from "./pictures";
import { Server } from "./server";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
const rose: Ref = "planting/rose";
const sundial = "sundial/s" as Ref; // a kind of some later version
let fake: FakeServer;
let store: Store;
let server: Server;
let notes: Notes;

beforeEach(() => {
  fake = new FakeServer();
  store = new Store(newId(now()), now);
  server = new Server("g", fake.fetch, now);
  notes = new Notes(store, server);
});
afterEach(() => store.destroy());

const agreed = async () => (await store.meta("digest")) === (await digestThere());

/** What the server says that its records add up to. */
async function digestThere(): Promise<string | undefined> {
  return (await server.sync((await store.meta("cursor"))!, [])).digest;
}

describe("a phone behind its server", () => {
  it("keeps fields that it does not know, and leaves them when it writes others", async () => {
    fake.put(rose, { label: "by the gate", grafted: { onto: "laxa" } });
    await notes.run();
    await store.write([{ ref: rose, set: { label: "by the shed" } }]);
    await notes.run();
    expect(fake.records.get(rose)!.fields).toEqual({ label: "by the shed", grafted: { onto: "laxa" } });
    expect((await store.shown([rose]))[0]!.fields).toEqual({ label: "by the shed", grafted: { onto: "laxa" } });
    expect(await agreed()).toBe(true);
  });

  it("keeps kinds that it does not know, counts them in what it agrees on, and shows the rest", async () => {
    fake.put(sundial, { face: "brass" });
    fake.put(rose, { label: "by the gate" });
    await notes.run();
    expect(await agreed()).toBe(true);
    expect((await store.shown([sundial]))[0]!.fields).toEqual({ face: "brass" });
    const shelf = new Shelf();
    const refs = [sundial, rose];
    shelf.put(refs, await store.shown(refs));
    expect(shelf.one("planting", "rose")?.label).toBe("by the gate");
    expect(shelf.one("sundial" as "planting", "s")).toBe(null);
  });

  it("passes over what an answer says besides", async () => {
    fake.put(rose, { label: "by the gate" });
    const { fetch } = fake;
    server = new Server("g", async (input, init) => {
      const said = (await (await fetch(input, init)).json()) as { records: FeedRecord[] };
      return json({ ...said, hints: ["try the new screen"], records: said.records.map((record) => ({ ...record, heat: 3 })), quota: { left: 1 } });
    }, now);
    await new Notes(store, server).run();
    expect((await store.shown([rose]))[0]!.fields).toEqual({ label: "by the gate" });
    expect(await store.meta("agreed")).toBeDefined();
  });

  it("puts aside what the server refuses by a code that it does not know, with the server's sentence", async () => {
    fake.judge = () => "A rule of next year's.";
    await store.write([{ ref: rose, set: { label: "x" } }]);
    await notes.run();
    expect((await store.refused()).map(({ why }) => why)).toEqual(["A rule of next year's."]);
  });
});

describe("a phone ahead of its server", () => {
  const lacking = (part: string) => (request: Request) =>
    new URL(request.url).pathname.includes(part) ? json({ code: "no_such_address", why: "there is nothing at this address" }, 404) : null;

  it("goes on sending and reading where there are no sums to compare", async () => {
    fake.interfere = (request) => lacking("/sums")(request);
    fake.put(rose, { label: "by the gate" });
    await notes.run();
    await store.forget(await store.marks()); // lost on this phone: now the two differ
    await store.write([{ ref: "bed/b", set: { name: "Long" } }]);
    await notes.run();
    expect([await store.waiting(), fake.records.get("bed/b")!.fields]).toEqual([[], { name: "Long" }]);
  });

  it("sends originals where previews cannot be sent", async () => {
    fake.interfere = (request) => (request.method === "PUT" ? lacking("/preview/")(request) : null);
    const bytes = new Uint8Array([1, 2, 3]);
    const { createHash } = await import("node:crypto");
    const sha = createHash("sha256").update(bytes).digest("hex");
    const photo: HeldPhoto = { sha, ref: "observation/o", type: "image/jpeg", size: 3, made: "", previews: [320], sentPreviews: [], sent: 0, done: 0 };
    const rows = (["original", 320] as const).map((version) => ({ key: bytesKey(sha, version), type: "image/jpeg", bytes: bytes.buffer }));
    await store.write([], [{ photo, bytes: rows }]);
    await new Pictures(store, server, { notesFirst: async () => undefined, linkAllows: async () => true }).run();
    expect([await store.unsentPhotos(), fake.files.get(sha)!.complete]).toEqual([[], true]);
  });
});
