import { describe, expect, it } from "vitest";
import type { Planting } from "../words/records";
import { before, lineOf, samePlant } from "./descent";

const plantings: Record<string, Planting> = {};
function plant(id: string, fields: Partial<Planting>): void {
  plantings[id] = { id, ref: `planting/${id}`, ...fields };
}
plant("bought", { bed: "steps", planted: "2019", ended: "2022-03-01", endedHow: "moved" });
plant("moved", { bed: "long", planted: "2022-03-01", from: { planting: "bought", how: "moved" }, count: 3 });
plant("piece", { bed: "wet", planted: "2024-09-20", from: { planting: "moved", how: "divided" }, count: 2 });
plant("moved-piece", { bed: "long", planted: "2026-03-01", from: { planting: "piece", how: "moved" } });
plant("ring-1", { from: { planting: "ring-2", how: "moved" } });
plant("ring-2", { from: { planting: "ring-1", how: "moved" } });
plant("lost", { from: { planting: "not-here", how: "divided" } });

const book = {
  planting: (id: string | undefined) => plantings[id ?? ""] ?? null,
  cameOf: (id: string) => Object.values(plantings).filter(({ from }) => from?.planting === id),
  bed: (id: string | undefined) => (id ? { id, ref: `bed/${id}` as const, name: { steps: "North steps", long: "Long border", wet: "Wet bed" }[id] ?? id } : null),
};
const ids = (list: readonly Planting[]) => list.map(({ id }) => id);

describe("the line of a planting", () => {
  it("goes from where it was planted to what came of it", () => {
    expect(lineOf(book, plantings["moved"]!).map(({ planting, words, here }) => [planting.id, words, here])).toEqual([
      ["bought", "planted in North steps", false], ["moved", "moved to Long border", true], ["piece", "divided, 2 pieces to Wet bed", false],
    ]);
    expect(ids(before(book, plantings["moved-piece"]!))).toEqual(["bought", "moved", "piece"]);
  });

  it("is empty for one that came of nothing and of which nothing came", () => {
    plant("alone", {});
    expect([lineOf(book, plantings["alone"]!), lineOf(book, plantings["lost"]!)]).toEqual([[], []]);
  });

  it("ends where two say that they came of each other", () => expect(ids(before(book, plantings["ring-1"]!))).toEqual(["ring-2"]));
});

it("the same plant is what was moved, not what was divided off", () => {
  expect(ids(samePlant(book, plantings["moved"]!))).toEqual(["bought", "moved"]);
  expect(ids(samePlant(book, plantings["moved-piece"]!))).toEqual(["piece", "moved-piece"]);
});
