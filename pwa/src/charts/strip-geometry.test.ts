import { describe, expect, it } from "vitest";
import type { Strip } from "../almanac/answers";
import { closeAxis, placeStrip, yearAxis } from "./strip-geometry";

const strip: Strip = {
  year: 2014, flush: 0, verdict: "late", colours: ["#5a4fa0"],
  expected: [150, 172], openBand: [144, 156], certain: [160, 170], possible: [155, 176], looks: [140, 155, 400],
};

describe("placeStrip", () => {
  const placed = placeStrip(strip, [100, 200], 180);

  it("puts days where they belong", () => expect(placed.expected).toEqual({ from: 0.5, to: 0.72 }));
  it("keeps opening and lasting apart", () => expect(placed.opens).toEqual({ from: 0.44, to: 0.56 }));
  it("rules possible flower only beside certain flower", () =>
    expect(placed.possible).toEqual([{ from: 0.55, to: 0.6 }, { from: 0.7, to: 0.76 }]));
  it("leaves out looks beyond the axis", () => expect(placed.looks).toHaveLength(2));
  it("leaves out a today beyond the axis", () => expect(placeStrip(strip, [100, 200], 250).now).toBeNull());
  it("cuts at the edge what runs over it", () => expect(placeStrip(strip, [160, 200], null).expected).toEqual({ from: 0, to: 0.3 }));
  it("draws nothing for what is not known", () =>
    expect(placeStrip({ ...strip, certain: null, possible: null, expected: null }, [100, 200], null)).toMatchObject({ expected: null, certain: null, possible: [] }));
});

describe("axes", () => {
  it("is the year", () => expect(yearAxis([strip])).toEqual([1, 366]));
  it("is never cut at New Year", () => expect(yearAxis([{ ...strip, expected: [-20, 30] }])).toEqual([-20, 366]));
  it("holds the window and today", () => {
    const [from, to] = closeAxis(strip, 220);
    expect(from).toBeLessThan(144);
    expect(to).toBeGreaterThan(220);
  });
});
