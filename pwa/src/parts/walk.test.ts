import { describe, expect, it } from "vitest";
import type { Bed, Planting } from "../words/records";
import { byBed, nextStop, stopsOf } from "./walk";

const planting = (id: string, bed?: string): Planting => ({ id, ref: `planting/${id}`, ...(bed ? { bed } : {}) });
const bed = (id: string | undefined): Bed | null => (id ? { id, ref: `bed/${id}`, name: id } : null);
const stops = stopsOf([planting("a", "wall"), planting("b", "wall"), planting("c", "pond"), planting("d")], bed);

describe("a round", () => {
  it("counts stops within their bed", () => expect(stops.map(({ place, inBed }) => `${place}/${inBed}`)).toEqual(["1/2", "2/2", "1/1", "1/1"]));
  it("goes on in walking order, across beds", () => expect(nextStop(stops, "b", () => true)?.planting.id).toBe("c"));
  it("passes what is not wanted", () => expect(nextStop(stops, "a", ({ planting: { id } }) => id === "d")?.planting.id).toBe("d"));
  it("ends", () => expect(nextStop(stops, "d", () => true)).toBeNull());
  it("keeps those without a bed together", () => expect(byBed(stops).map((group) => group.bed?.name ?? "")).toEqual(["wall", "pond", ""]));
});
