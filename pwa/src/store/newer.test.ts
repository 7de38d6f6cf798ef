import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { troubleOf } from "../words/trouble";
import { newId } from "../words/uuid";
import { Store } from "./store";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
let name: string;
let old: Store;

/** Lays the store out anew as an app of next year would. */
function update(): Promise<void> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(`haulm-${name}`, 990);
    request.onupgradeneeded = () => void request.result.createObjectStore("sundials", { keyPath: "id" });
    request.onsuccess = () => (request.result.close(), resolve());
    request.onerror = () => reject(request.error);
  });
}

const codeOf = (work: Promise<unknown>) => work.then(() => null, (thrown) => troubleOf(thrown).code);

beforeEach(() => {
  name = newId(now());
  old = new Store(name, now);
});
afterEach(() => old.destroy());

describe("a store that a newer app has laid out", () => {
  it("is left alone by an older one, which says so", async () => {
    await old.write([{ ref: "bed/b", set: { name: "Long" } }]);
    old.close();
    await update();
    old = new Store(name, now);
    expect(await codeOf(old.waiting())).toBe("store-newer");
    expect(await codeOf(old.write([{ ref: "bed/b", set: { name: "Short" } }]))).toBe("store-newer");
  });

  it("is left alone by a page that was open when it changed, and holds what that had written", async () => {
    await old.write([{ ref: "bed/b", set: { name: "Long" } }]);
    await update();
    expect(await codeOf(old.write([{ ref: "bed/b", set: { name: "Short" } }]))).toBe("store-newer");
    const there = await new Promise<{ set: unknown }[]>((resolve, reject) => {
      const request = indexedDB.open(`haulm-${name}`);
      request.onerror = () => reject(request.error);
      request.onsuccess = () => {
        const all = request.result.transaction("changes").objectStore("changes").getAll();
        all.onsuccess = () => (request.result.close(), resolve(all.result));
      };
    });
    expect(there.map(({ set }) => set)).toEqual([{ name: "Long" }]);
  });
});
