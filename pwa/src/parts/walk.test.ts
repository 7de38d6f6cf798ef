import { describe, expect, it } from "vitest";
import type { Bed, Planting } from "../words/records";
import { byBed, nextStop, stopsOf } from "./walk";

const planting = (id: string, bed?: string): Planting => ({ id, ref: `planting/${id}`, ...(bed ? { bed } : {}) });
const bed = (id: string | undefined): Bed | null => (id ? { id, ref: `bed/${id}`, name: id } : null);
const stops = stopsOf([planting("a", "wall"), planting("b", "wall"), planting("c", "pond"), planting("d")], bed);

describe("the way through a garden", () => {
  const at = (id: string, bed: string, spot: Partial<Planting>): Planting => ({ ...planting(id, bed), ...spot });
  const order = (plantings: readonly Planting[]) => stopsOf(plantings, bed).map(({ planting: { id } }) => id).join("");

  it("begins a bed where the last one ended, whatever its west", () =>
    expect(order([at("a", "wall", { at: [0, 0] }), at("b", "wall", { at: [9, 0] }), at("c", "pond", { at: [0, 3] }), at("d", "pond", { at: [9, 3] })])).toBe("abdc"));
  it("does not cross a deep bed again and again", () =>
    expect(order([at("a", "wall", { at: [0, 0] }), at("b", "wall", { at: [1, 4] }), at("c", "wall", { at: [2, 0] }), at("d", "wall", { at: [2, 4] })])).toBe("acdb"));
  it("stands before the middle of an area", () =>
    expect(order([at("a", "wall", { at: [0, 0] }), at("b", "wall", { at: [3, 0] }), at("c", "wall", { area: [[0, 1], [2, 1], [2, -1], [0, -1]] })])).toBe("acb"));
  it("puts what has no place after what has, in the order it came", () =>
    expect(order([planting("x", "wall"), at("b", "wall", { at: [3, 0] }), planting("a", "wall"), at("c", "wall", { at: [1, 0] })])).toBe("cbxa"));
  it("passes what is lifted into store", () => expect(order([planting("a", "wall"), at("b", "wall", { stored: true })])).toBe("a"));
  it("goes on from the last place known where a bed has none", () =>
    expect(order([at("a", "wall", { at: [9, 0] }), planting("n", "pond"), at("b", "path", { at: [0, 0] }), at("c", "path", { at: [8, 0] })])).toBe("ancb"));
});

describe("a round", () => {
  it("counts stops within their bed", () => expect(stops.map(({ place, inBed }) => `${place}/${inBed}`)).toEqual(["1/2", "2/2", "1/1", "1/1"]));
  it("goes on in walking order, across beds", () => expect(nextStop(stops, "b", () => true)?.planting.id).toBe("c"));
  it("passes what is not wanted", () => expect(nextStop(stops, "a", ({ planting: { id } }) => id === "d")?.planting.id).toBe("d"));
  it("ends", () => expect(nextStop(stops, "d", () => true)).toBeNull());
  it("keeps those without a bed together", () => expect(byBed(stops).map((group) => group.bed?.name ?? "")).toEqual(["wall", "pond", ""]));
});
