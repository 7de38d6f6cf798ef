import { describe, expect, it } from "vitest";
import { groundOf } from "../plan/sheet";
import type { Bed, Point } from "../words/records";
import { besideOthers, groundsBut, isRectangle, phTyped, rectangle, reordered, resized, sideText, sideTyped } from "./bed-form";

const bed = (id: string, order?: number, outline?: Point[]): Bed => ({ id, ref: `bed/${id}`, ...(order === undefined ? {} : { order }), ...(outline ? { outline } : {}) });

describe("sideTyped", () => {
  it.each([["9.4", 9.4], ["9,4 m", 9.4], [" 12 m ", 12], ["80 cm", 0.8], ["31 ft", 9.45], ["31 ft 6 in", 9.6], ["31' 6\"", 9.6], ["31′", 9.45]])("reads %s metric", (text, metres) => expect(sideTyped(text, "metric")).toBe(metres));
  it("takes a plain number as feet in an imperial garden", () => expect(sideTyped("10", "imperial")).toBe(3.05));
  it.each(["", "long", "0", "-3", "0.05", "401", "3 x 4"])("takes “%s” as none", (text) => expect(sideTyped(text, "metric")).toBeNull());
  it("writes a side as it is typed again", () => {
    expect(sideText(9.4, "metric")).toBe("9.4");
    expect(sideTyped(sideText(3.05, "imperial"), "imperial")).toBe(3.05);
  });
});

const meet = (a: Point[], b: Point[]): boolean => {
  const [p, q] = [groundOf(a), groundOf(b)];
  return p.west < q.east && q.west < p.east && p.south < q.north && q.south < p.north;
};

describe("a new bed", () => {
  it("is the first at the plan's origin", () => expect(besideOthers(4, 2, [])).toEqual([[0, 0], [4, 0], [4, 2], [0, 2]]));
  it("never overlaps another, twenty in a row, and the garden stays no long strip", () => {
    const all: Point[][] = [];
    for (let i = 0; i < 20; i++) all.push(besideOthers(2 + (i % 5), 1 + (i % 3), all.map(groundOf)));
    all.forEach((a, i) => all.slice(i + 1).forEach((b) => expect(meet(a, b)).toBe(false)));
    const { west, east, south, north } = groundOf(all.flat());
    expect(Math.max(east - west, north - south)).toBeLessThan(2.2 * Math.min(east - west, north - south));
  });
  it("keeps off structures too", () => {
    const house = [[-1, -1], [9, -1], [9, 7], [-1, 7]] as Point[];
    expect(meet(besideOthers(4, 2, groundsBut("", [], [{ id: "h", ref: "structure/h", outline: house }])), house)).toBe(false);
  });
});

describe("a bed of another size", () => {
  const upright = rectangle([1, 1], 1.4, 6);
  it("keeps its corner and the way it lies", () => expect(resized(upright, 7, 2, [], false)).toEqual(rectangle([1, 1], 2, 7)));
  it("goes beside the others where it would lie over one", () => {
    const other = rectangle([3, 1], 3, 3);
    expect(meet(resized(upright, 7, 4, [groundOf(other)], false), other)).toBe(false);
  });
  it("stays under the plants that have their places in it", () => expect(resized(upright, 7, 4, [groundOf(rectangle([3, 1], 3, 3))], true)).toEqual(rectangle([1, 1], 4, 7)));
  it("has a length and a width only where it is a rectangle", () => {
    expect(isRectangle(upright)).toBe(true);
    expect(isRectangle([[0, 0], [4, 0], [3, 2], [0, 2]])).toBe(false);
    expect(isRectangle([[0, 0], [4, 0], [4, 2], [2, 3], [0, 2]])).toBe(false);
  });
});

describe("the order of the round", () => {
  const after = (beds: Bed[], from: number, to: number): string => {
    const set = new Map(reordered(beds, from, to).map(({ ref, set: { order } }) => [ref as string, order as number]));
    return beds.map(({ id, ref, order }) => [id, set.get(ref) ?? order ?? Infinity] as const).sort((a, b) => a[1] - b[1]).map(([id]) => id).join("");
  };
  const beds = [bed("a", 1), bed("b", 2), bed("c", 5)];
  it.each([[2, 1, "acb"], [2, 0, "cab"], [0, 1, "bac"], [0, 2, "bca"], [1, 2, "acb"]] as const)("moves %i to %i: %s, writing one bed", (from, to, round) => {
    expect(after(beds, from, to)).toBe(round);
    expect(reordered(beds, from, to)).toHaveLength(1);
  });
  it("numbers all anew where two have the same or none has one", () => {
    expect(after([bed("a", 1), bed("b", 1), bed("c", 1)], 2, 1)).toBe("acb");
    expect(after([bed("a"), bed("b"), bed("c")], 0, 1)).toBe("bac");
  });
});

it("takes a pH that a soil can have", () => {
  expect(phTyped("6,5")).toBe(6.5);
  for (const text of ["2", "11", "65", "acid"]) expect(phTyped(text), text).toBeNull();
});
