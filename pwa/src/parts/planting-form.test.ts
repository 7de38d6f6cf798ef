import { describe, expect, it } from "vitest";
import { badDepth, cameTyped, depthTyped, fullDate, lastBed, partialDate, positive, priceTyped, whole } from "./planting-form";

describe("partialDate", () => {
  it.each(["2012", "2012-04", "2012-04-11", "2014-07-11"])("takes %s", (text) => expect(partialDate(` ${text} `, "2014-07-11")).toBe(text));
  it.each(["", "12", "2012-13", "2013-02-29", "2012-4-1", "April", "April 12", "Ap 2012", "August 2014", "2014-07-12", "2015"])("does not guess at %j", (text) =>
    expect(partialDate(text, "2014-07-11", "en-GB")).toBeNull());
  it.each([
    ["May 2012", "en-GB", "2012-05"], ["2012 may", "en-GB", "2012-05"], ["Sept. 2013", "en-GB", "2013-09"], ["sep 2013", "en-US", "2013-09"], ["December, 2013", "en-GB", "2013-12"],
    ["mai 2012", "fr", "2012-05"], ["Août 2013", "fr", "2013-08"], ["aout 2013", "fr", "2013-08"], ["2013 févr.", "fr", "2013-02"], ["juil. 2013", "fr", "2013-07"], ["juin 2013", "fr", "2013-06"],
  ])("takes the month of %j in %s", (text, locale, month) => expect(partialDate(text, "2014-07-11", locale)).toBe(month));
  it("does not guess between two months, nor in another language", () =>
    expect([partialDate("jui 2013", "2014-07-11", "fr"), partialDate("juillet 2013", "2014-07-11", "en-GB")]).toEqual([null, null]));
});

it.each([["£12.50", 12.5], ["12,50 €", 12.5], ["12,50\u00a0€", 12.5], ["$12", 12], ["1 250", 1250], ["0", 0], ["-5", null], ["£", null], ["", null], ["twelve", null]])("priceTyped(%j) is %j", (text, price) =>
  expect(priceTyped(text)).toBe(price));

it.each([["-5", "metric", -5], ["−5", "metric", -5], ["0", "metric", 0], ["2,5", "metric", 2.5], ["2", "imperial", 5.1], ["-51", "metric", null], ["201", "metric", null], ["deep", "metric", null]] as const)(
  "depthTyped(%j) in a %s garden is %j", (text, units, cm) => expect(depthTyped(text, units)).toBe(cm));

it("names as bounds of a depth only what it takes", () => {
  expect(badDepth("metric")).toContain("−50 to 200, in cm");
  expect(badDepth("imperial")).toContain("−19 to 78, in inches");
});

describe("cameTyped", () => {
  const form = (values: Readonly<Record<string, string>>): FormData => Object.entries(values).reduce((data, [name, value]) => (data.set(name, value), data), new FormData());
  it("reads what was typed and leaves out what was not", () =>
    expect(cameTyped(form({ form: "pot", pot: "2,5", height: "", depth: "-2", amendments: "grit, leaf mould", supplier: "", price: "£6.50" }), "metric")).toEqual({
      set: { form: "pot", potL: 2.5, depthCm: -2, amendments: ["grit", "leaf mould"], price: 6.5 }, wrong: {},
    }));
  it("says at each field what cannot be read there", () => {
    const { wrong } = cameTyped(form({ form: "pot", pot: "0", height: "12", depth: "deep", price: "dear" }), "metric");
    expect(Object.keys(wrong)).toEqual(["pot", "depth", "price"]);
    expect(wrong["price"]).toMatch(/price/u);
  });
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
