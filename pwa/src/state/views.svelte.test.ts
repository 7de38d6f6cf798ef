import { flushSync } from "svelte";
import { describe, expect, it } from "vitest";
import type { Shown } from "../store/overlay";
import type { Ref } from "../words/records";
import { Shelf } from "./shelf.svelte";
import { Views } from "./views.svelte";

const shown = (ref: Ref, fields: Record<string, unknown>): Shown => ({ ref, fields, at: {}, also: {}, gone: false, unsent: false });

/** What a component would have shown, each time anew. */
function watch<T>(read: () => T): T[] {
  const seen: T[] = [];
  $effect.root(() => {
    $effect(() => void seen.push(read()));
  });
  flushSync();
  return seen;
}

function put(shelf: Shelf, ...records: Shown[]): void {
  shelf.put(records.map(({ ref }) => ref), records);
  flushSync();
}

describe("a screen", () => {
  it("that was drawn while the garden was empty follows as records arrive", () => {
    const shelf = new Shelf();
    const views = new Views(shelf, () => Date.parse("2026-11-24T12:00:00Z"));
    const days = watch(() => views.today);
    const plantings = watch(() => views.plantings.map(({ id }) => id));
    const looks = watch(() => shelf.observations("cat").length);
    put(shelf, shown("garden/g", { clock: "2015-07-10" }), shown("planting/cat", {}));
    put(shelf, shown("observation/1", { planting: "cat", seen: "2015-07-09T09:00:00Z" }));
    expect([days, plantings, looks]).toEqual([["2026-11-24", "2015-07-10"], [[], ["cat"]], [0, 1]]);
  });

  it("of one planting is not drawn again for another's entry", () => {
    const shelf = new Shelf();
    put(shelf, shown("observation/1", { planting: "cat", seen: "2015-07-09T09:00:00Z" }));
    const looks = watch(() => shelf.observations("cat").length);
    put(shelf, shown("observation/2", { planting: "rose", seen: "2015-07-09T09:00:00Z" }));
    expect(looks).toEqual([1]);
  });

  it("follows an entry that is moved from one planting to another", () => {
    const shelf = new Shelf();
    put(shelf, shown("observation/1", { planting: "cat", seen: "2015-07-09T09:00:00Z" }));
    const looks = watch(() => [shelf.observations("cat").length, shelf.observations("rose").length]);
    put(shelf, shown("observation/1", { planting: "rose", seen: "2015-07-09T09:00:00Z" }));
    expect(looks.at(-1)).toEqual([0, 1]);
  });
});
