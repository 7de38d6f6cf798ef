import { describe, expect, it } from "vitest";
import type { Observation } from "../words/records";
import { countBefore, inFlower, lengthBefore, seenNotUp, upThisYear } from "./history";

const look = (id: string, seen: string, fields: Partial<Observation> = {}): Observation => ({ id, ref: `observation/${id}`, seen, ...fields });
const looks = [
  look("c", "2014-07-04T10:00:00+00:00", { heightCm: 80 }),
  look("b", "2014-06-20T10:00:00+00:00", { heightCm: 76, up: "in-leaf" }),
  look("a", "2013-06-20T10:00:00+00:00", { heightCm: 60, up: "up" }),
];

describe("lengthBefore", () => {
  it("is the newest", () => expect(lengthBefore(looks, "heightCm", undefined)).toEqual({ cm: 80, day: "2014-07-04" }));
  it("is not the look's own", () => expect(lengthBefore(looks, "heightCm", "c")).toEqual({ cm: 76, day: "2014-06-20" }));
  it("is nothing when that was not measured", () => expect(lengthBefore(looks, "spreadCm", undefined)).toBeNull());
});

it("a count before is the last that another look took", () => {
  const counted = [look("b", "2014-07-04T10:00:00+00:00", { countAlive: 4 }), look("a", "2014-06-20T10:00:00+00:00", { countAlive: 5 })];
  expect([countBefore(counted, "countAlive", undefined), countBefore(counted, "countAlive", "b"), countBefore(counted, "countInFlower", undefined)]).toEqual([4, 5, null]);
});

describe("inFlower", () => {
  const open = look("b", "2014-07-04T10:00:00+00:00", { stage: 65 });
  it("is what the look says", () => {
    expect(inFlower(open, [], "2014-07-11")).toBe(true);
    expect(inFlower(look("c", "2014-07-11T10:00:00+00:00", { notInFlower: true }), [open], "2014-07-11")).toBe(false);
    expect(inFlower(look("c", "2014-07-11T10:00:00+00:00", { stage: 55 }), [open], "2014-07-11")).toBe(false);
  });
  it("is what was seen shortly before, where the look says nothing of it", () => {
    expect(inFlower(null, [open], "2014-07-11")).toBe(true);
    expect(inFlower(null, [open], "2014-09-11")).toBe(false);
    expect(inFlower(null, [look("a", "2014-07-04T10:00:00+00:00", { stage: 69 })], "2014-07-11")).toBe(false);
  });
});

describe("seenNotUp", () => {
  const notUp = look("b", "2014-03-04T10:00:00+00:00", { up: "not-up" });
  it("holds until it is seen up, or another year comes", () => {
    expect(seenNotUp([notUp], "2014-03-11", undefined)).toBe(true);
    expect(seenNotUp([look("c", "2014-03-20T10:00:00+00:00", { up: "up" }), notUp], "2014-03-21", undefined)).toBe(false);
    expect(seenNotUp([notUp], "2015-03-11", undefined)).toBe(false);
  });
  it("does not count the look itself, so that nothing moves under the thumb", () => expect(seenNotUp([notUp], "2014-03-11", "b")).toBe(false));
});

describe("upThisYear", () => {
  it("counts this year's looks only", () => {
    expect(upThisYear(looks, "2014-07-11", undefined)).toBe(true);
    expect(upThisYear(looks, "2015-03-11", undefined)).toBe(false);
  });
  it("does not count the look itself, so that its words stay in reach", () => expect(upThisYear([looks[0]!], "2014-07-11", "c")).toBe(false));
});
