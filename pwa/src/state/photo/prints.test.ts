import "fake-indexeddb/auto";
import { createHash, randomBytes } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Server } from "../../send/server";
import { GardenDatabase } from "../../store/database";
import { bytesKey } from "../../store/held";
import { Store } from "../../store/store";
import { newId } from "../../words/uuid";
import { reserveBytes } from "../room";
import { Prints } from "./prints";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
const picture = randomBytes(200_000);
const sha = createHash("sha256").update(picture).digest("hex");
let store: Store;
let asked: string[];
let answer: (signal: AbortSignal) => Promise<Response>;
let prints: Prints;

beforeEach(() => {
  asked = [];
  answer = async () => new Response(picture, { headers: { "Content-Type": "image/jpeg", "Content-Length": String(picture.length) } });
  const fetcher = (async (path: string, init: RequestInit) => (asked.push(path), answer(init.signal!))) as typeof fetch;
  store = new Store(newId(now()), now);
  prints = new Prints(store, new Server("g", fetcher, now));
});
afterEach(async () => {
  prints.leave();
  vi.unstubAllGlobals();
  await store.destroy();
});

/** The browser says that so many bytes are left. */
function left(bytes: number): void {
  vi.stubGlobal("navigator", { storage: { estimate: async () => ({ usage: 0, quota: bytes }) } });
}

/** When a small preview was last shown, by the store's own note. */
async function noted(name: string): Promise<number> {
  const db = new GardenDatabase(store.garden);
  const row = await db.kept.get(bytesKey(name, 320));
  db.close();
  return row!.shown;
}

const kept = async () => (await store.bytesOf(sha, "original"))?.bytes.byteLength ?? null;

describe("an original", () => {
  it("comes from the server once, telling how far it is, and is kept", async () => {
    const heard: number[][] = [];
    const blob = await prints.original(sha, { told: (done, all) => heard.push([done, all]) });
    expect(Buffer.from(await blob.arrayBuffer()).equals(picture)).toBe(true);
    expect([blob.type, heard.at(-1)]).toEqual(["image/jpeg", [picture.length, picture.length]]);
    await prints.original(sha, {});
    expect(asked).toEqual([`/api/v1/gardens/g/media/${sha}`]);
  });

  it("is shown and not kept when there is no room for it", async () => {
    left(reserveBytes);
    expect((await prints.original(sha, {})).size).toBe(picture.length);
    expect(await kept()).toBe(null);
  });

  it("has older ones let go for it", async () => {
    await store.keepOriginal("older", "image/jpeg", new ArrayBuffer(300_000));
    left(reserveBytes);
    await prints.original(sha, {});
    expect([await kept(), await store.bytesOf("older", "original")]).toEqual([picture.length, undefined]);
  });

  it("can be given up while it comes", async () => {
    const giving = new AbortController();
    answer = (signal) => new Promise((_, reject) => {
      signal.addEventListener("abort", () => reject(new DOMException("", "AbortError")));
      giving.abort(new Error("given up"));
    });
    const coming = prints.original(sha, { signal: giving.signal });
    await expect(coming).rejects.toThrow("given up");
    expect(await kept()).toBe(null);
  });

  it.each([
    ["is not what its name says", async () => new Response("<html>sign in</html>"), "not-haulm"],
    ["is gone", async () => new Response(null, { status: 404 }), "not-found"],
    ["cannot be reached", async () => { throw new TypeError("network"); }, "no-answer"],
  ])("is told in a code when it %s", async (_, said, code) => {
    answer = said;
    await expect(prints.original(sha, {})).rejects.toMatchObject({ trouble: { code } });
    expect(await kept()).toBe(null);
  });
});

describe("a picture that was looked at", () => {
  it("is the last of its kind to go", async () => {
    const preview = (name: string) => store.keepPreview(name, 320, "image/jpeg", new ArrayBuffer(10));
    for (const name of ["a", "b"]) await preview(name);
    vi.useFakeTimers({ toFake: ["setTimeout"] });
    await prints.urls.get("a", 320);
    await vi.advanceTimersByTimeAsync(2_000); // notes are gathered so long
    vi.useRealTimers();
    await vi.waitFor(async () => expect(await noted("a")).toBeGreaterThan(0));
    await store.letGo(1);
    expect([(await store.bytesOf("a", 320))?.key, await store.bytesOf("b", 320)]).toEqual([bytesKey("a", 320), undefined]);
  });
});
