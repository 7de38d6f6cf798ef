import { describe, expect, it } from "vitest";
import type { Observation } from "../words/records";
import { heightBefore, upThisYear } from "./history";

const look = (id: string, seen: string, fields: Partial<Observation> = {}): Observation => ({ id, ref: `observation/${id}`, seen, ...fields });
const looks = [
  look("c", "2014-07-04T10:00:00+00:00", { heightCm: 80 }),
  look("b", "2014-06-20T10:00:00+00:00", { heightCm: 76, up: "in-leaf" }),
  look("a", "2013-06-20T10:00:00+00:00", { heightCm: 60, up: "up" }),
];

describe("heightBefore", () => {
  it("is the newest", () => expect(heightBefore(looks, undefined)).toEqual({ cm: 80, day: "2014-07-04" }));
  it("is not the look's own", () => expect(heightBefore(looks, "c")).toEqual({ cm: 76, day: "2014-06-20" }));
  it("is nothing when nothing was measured", () => expect(heightBefore([look("a", "2014-06-20T10:00:00+00:00")], undefined)).toBeNull());
});

describe("upThisYear", () => {
  it("counts this year's looks only", () => {
    expect(upThisYear(looks, "2014-07-11", undefined)).toBe(true);
    expect(upThisYear(looks, "2015-03-11", undefined)).toBe(false);
  });
  it("does not count the look itself, so that its words stay in reach", () => expect(upThisYear([looks[0]!], "2014-07-11", "c")).toBe(false));
});
