import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { newId } from "../words/uuid";
import { isFull } from "../words/trouble";
import { bytesKey, type HeldPhoto, type Version } from "./held";
import { Store } from "./store";

const hour = 3_600_000;
let nowMs = 0;
let store: Store;

beforeEach(() => {
  nowMs = Date.parse("2026-06-02T09:15:00.000Z");
  store = new Store(newId(nowMs), () => nowMs);
});
afterEach(async () => {
  vi.restoreAllMocks();
  await store.destroy();
});

const bytes = (length: number) => new ArrayBuffer(length);

/** A picture taken here, with an original of 1,000 bytes and previews of 300 and 100. */
async function photograph(sha: string, done: 0 | 1): Promise<void> {
  const photo: HeldPhoto = {
    sha, ref: `observation/${sha}`, type: "image/jpeg", size: 1000, made: "2026-06-02T09:15:00+00:00",
    previews: [320, 1600], sentPreviews: [320, 1600], sent: 0, done,
  };
  const row = (version: Version, length: number) => ({ key: bytesKey(sha, version), type: "image/jpeg", bytes: bytes(length) });
  await store.write([], [{ photo, bytes: [row("original", 1000), row(1600, 300), row(320, 100)] }]);
}

async function here(...shas: string[]): Promise<string[]> {
  const versions = shas.flatMap((sha) => (["original", 1600, 320] as const).map((version) => [sha, version] as const));
  const held = await Promise.all(versions.map(([sha, version]) => store.bytesOf(sha, version)));
  return versions.flatMap(([sha, version], i) => (held[i] ? [`${sha}/${version}`] : []));
}

describe("room", () => {
  it("is made of what the server has: originals, then the larger previews, and last those of lists", async () => {
    await photograph("a", 1);
    await photograph("b", 1);
    expect(await store.letGo(1500)).toBe(2000);
    expect(await here("a", "b")).toEqual(["a/1600", "a/320", "b/1600", "b/320"]);
    await store.letGo(601);
    expect(await here("a", "b")).toEqual(["b/320"]);
  });

  it("is never made of what is unsent", async () => {
    await photograph("unsent", 0);
    await photograph("sent", 1);
    expect(await store.letGo(1e9)).toBe(1400);
    expect(await here("unsent", "sent")).toEqual(["unsent/original", "unsent/1600", "unsent/320"]);
  });

  it("is never made of an original whose time and place are still to be read", async () => {
    await photograph("a", 1);
    const ref = "observation/a" as const;
    const unsettled = { sha: "a", ref, given: null, keptMs: nowMs, fileMs: nowMs, here: null, last: null };
    const photo: HeldPhoto = { sha: "a", ref, type: "image/jpeg", size: 1000, made: "", previews: [], sentPreviews: [], sent: 0, done: 0 };
    await store.write([], [{ photo, bytes: [], unsettled }]);
    await store.letGo(1e9);
    expect(await here("a")).toEqual(["a/original"]);
  });

  it("is made of what was longest not shown", async () => {
    for (const sha of ["a", "b", "c"]) await photograph(sha, 1);
    await store.noteShown(new Map([["a/original", 1000]]));
    nowMs += hour * 2;
    await store.noteShown(new Map([["b/original", 1000]]));
    await store.letGo(1500);
    expect(await here("a", "b", "c").then((rows) => rows.filter((row) => row.endsWith("original")))).toEqual(["b/original"]);
    expect(await store.taken()).toEqual({ originals: 1000, previews: 1200 });
  });

  it("counts an original that was fetched as shown, and keeps it out of the way of nothing unsent", async () => {
    await photograph("a", 1);
    await store.keepOriginal("fetched", "image/jpeg", bytes(700));
    await store.letGo(1);
    expect(await here("a", "fetched")).toEqual(["a/1600", "a/320", "fetched/original"]);
    await store.letGo(1);
    expect(await here("fetched")).toEqual([]);
  });
});

describe("a full phone", () => {
  /** The browser takes no more bytes until something was let go. */
  function fill(): void {
    const { put, delete: remove } = IDBObjectStore.prototype;
    let full = true;
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, value, key) {
      if (full && this.name === "bytes") throw new DOMException("no room", "QuotaExceededError");
      return put.call(this, value, key);
    });
    vi.spyOn(IDBObjectStore.prototype, "delete").mockImplementation(function (this: IDBObjectStore, key) {
      if (this.name === "bytes") full = false;
      return remove.call(this, key);
    });
  }

  it("lets go of what may go and keeps the new picture", async () => {
    await photograph("old", 1);
    fill();
    await photograph("new", 0);
    expect(await here("new")).toHaveLength(3);
    expect(await here("old")).toEqual([]);
  });

  it("says that there is no room when nothing may go, and loses nothing", async () => {
    await photograph("unsent", 0);
    fill();
    const failed = await photograph("new", 0).catch((error: Error) => error);
    expect(isFull(failed)).toBe(true);
    expect(await here("unsent")).toHaveLength(3);
    expect((await store.unsentPhotos()).map(({ sha }) => sha)).toEqual(["unsent"]);
  });
});
