import { describe, expect, it } from "vitest";
import type { Planting, RecordKind, RefOf } from "../words/records";
import { divided, ended, lifted, moved, plantedAgain } from "./replant";

const clump: Planting = { id: "p", ref: "planting/p", kind: "iris-sibirica", identity: "confirmed", bed: "long", at: [1, 2], count: 5, planted: "2019", form: "pot", potL: 2, supplier: "a fair" };
const alone: Planting = { id: "q", ref: "planting/q", label: "Rosa ‘Gatepost Pink’" };
const day = "2026-10-03";

function shelf() {
  let made = 0;
  return { beds: [{ id: "long", ref: "bed/long", order: 4 } as const], newRef: <K extends RecordKind>(kind: K): RefOf<K> => `${kind}/new-${++made}` };
}

const to = (bed: string, newBed = "") => ({ bed, newBed });

describe("moving", () => {
  it("ends the old planting and begins a new one that knows where it came from", () => {
    expect(moved(shelf(), alone, { day, count: 1, spot: to("wet"), heightCm: 84 })).toEqual([
      { ref: "planting/new-1", set: { label: "Rosa ‘Gatepost Pink’", bed: "wet", count: 1, planted: day, heightCm: 84, from: { planting: "q", how: "moved" } } },
      { ref: "planting/q", set: { ended: day, endedHow: "moved" } },
    ]);
  });

  it("leaves those that stay", () => {
    const [there, here] = moved(shelf(), clump, { day, count: 2, spot: to("wet"), heightCm: null });
    expect([there!.set["count"], here]).toEqual([2, { ref: "planting/p", set: { count: 3 } }]);
  });

  it("takes what is the same plant along and nothing of how it was once planted", () => {
    const { set } = moved(shelf(), clump, { day, count: 5, spot: to(""), heightCm: null })[0]!;
    expect(set).toEqual({ kind: "iris-sibirica", identity: "confirmed", bed: null, count: 5, planted: day, heightCm: null, from: { planting: "p", how: "moved" } });
  });
});

describe("dividing", () => {
  it("keeps the old one, fewer, notes the work, and makes a planting of each group", () => {
    const drafts = divided(shelf(), clump, { day, stay: 3, groups: [{ count: 2, spot: to("wet") }, { count: 4, spot: to("", "Nursery row") }] });
    expect(drafts.map(({ ref, set }) => [ref.split("/")[0], set["count"] ?? set["what"] ?? set["name"], set["bed"]])).toEqual([
      ["planting", 3, undefined], ["work", "divide", undefined], ["planting", 2, "wet"], ["planting", 4, "new-1"], ["bed", "Nursery row", undefined],
    ]);
    expect(drafts[2]!.set).toMatchObject({ form: "division", planted: day, from: { planting: "p", how: "divided" } });
  });

  it("makes one bed of one new name, at the end of the round", () => {
    const drafts = divided(shelf(), clump, { day, stay: 1, groups: [{ count: 2, spot: to("", "Row") }, { count: 1, spot: to("", " Row ") }] });
    expect(drafts.filter(({ ref }) => ref.startsWith("bed/"))).toEqual([{ ref: "bed/new-1", set: { name: "Row", order: 5 } }]);
  });

  it("ends the old one where nothing stays", () => {
    expect(divided(shelf(), clump, { day, stay: 0, groups: [] })[0]).toEqual({ ref: "planting/p", set: { ended: day, endedHow: "divided" } });
  });
});

describe("lifting", () => {
  it("puts it in store, and back into the same bed without losing its place", () => {
    expect(lifted(shelf(), clump, day)).toEqual([{ ref: "planting/p", set: { stored: true } }, { ref: "work/new-1", set: { planting: "p", day, what: "lift" } }]);
    expect(plantedAgain(shelf(), clump, { day, spot: to("long") })[0]).toEqual({ ref: "planting/p", set: { stored: null } });
  });

  it("forgets its place in another bed", () => {
    expect(plantedAgain(shelf(), clump, { day, spot: to("wet") })[0]!.set).toEqual({ stored: null, bed: "wet", at: null, area: null });
  });
});

describe("ending", () => {
  it("says when, how and, where it is known, why", () => {
    expect(ended(alone, { day, how: "died", why: "wet" })).toEqual([{ ref: "planting/q", set: { ended: day, endedHow: "died", endedWhy: "wet" } }]);
    expect(ended({ ...alone, stored: true }, { day, how: "given-away", why: " " })[0]!.set).toEqual({ ended: day, endedHow: "given-away", endedWhy: null, stored: null });
  });
});
