import { describe, expect, it } from "vitest";
import { fullDate, lastBed, partialDate, positive, whole } from "./planting-form";

describe("partialDate", () => {
  it.each(["2012", "2012-04", "2012-04-11", "2014-07-11"])("takes %s", (text) => expect(partialDate(` ${text} `, "2014-07-11")).toBe(text));
  it.each(["", "12", "2012-13", "2013-02-29", "2012-4-1", "April 2012", "2014-07-12", "2015"])("does not guess at %j", (text) =>
    expect(partialDate(text, "2014-07-11")).toBeNull());
});

it.each([["5", 5], ["2,5", 2.5], ["0", null], ["-3", null], ["", null], ["a", null], [null, null]])("positive(%j) is %j", (text, value) =>
  expect(positive(text)).toBe(value));

it.each([["2014-07-01", "2014-07-01"], ["2014-07", null], ["2014-07-12", null], ["", null]])("fullDate(%j) is %j", (text, day) =>
  expect(fullDate(text, "2014-07-11")).toBe(day));

it.each([["0", 0], [" 12 ", 12], ["-1", null], ["1.5", null], ["100001", null], ["", null]])("whole(%j) is %j", (text, value) => expect(whole(text)).toBe(value));

describe("lastBed", () => {
  const older = { id: "01920000-0000-7000-8000-000000000001", bed: "wall" };
  const newer = { id: "01930000-0000-7000-8000-000000000001", bed: "wet" };
  it("is the bed of what was entered last", () => expect(lastBed([older, newer, { id: "zinnia", bed: "north" }])).toBe("wet"));
  it("is that of the last planted where nothing was entered on a phone", () =>
    expect(lastBed([{ id: "zinnia", bed: "north", planted: "2024-05" }, { id: "aster", bed: "south", planted: "2019" }, { id: "oak", bed: "wall" }])).toBe("north"));
  it("is none where nothing is planted, or the last went into none", () => expect([lastBed([]), lastBed([older, { id: newer.id }])]).toEqual(["", ""]));
});

it("takes no number above what the record does", () => expect([positive("2000", 2000), positive("2001", 2000)]).toEqual([2000, null]));
