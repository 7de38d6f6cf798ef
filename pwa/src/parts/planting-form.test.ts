import { describe, expect, it } from "vitest";
import { partialDate, positive } from "./planting-form";

describe("partialDate", () => {
  it.each(["2012", "2012-04", "2012-04-11", "2014-07-11"])("takes %s", (text) => expect(partialDate(` ${text} `, "2014-07-11")).toBe(text));
  it.each(["", "12", "2012-13", "2013-02-29", "2012-4-1", "April 2012", "2014-07-12", "2015"])("does not guess at %j", (text) =>
    expect(partialDate(text, "2014-07-11")).toBeNull());
});

it.each([["5", 5], ["2,5", 2.5], ["0", null], ["-3", null], ["", null], ["a", null], [null, null]])("positive(%j) is %j", (text, value) =>
  expect(positive(text)).toBe(value));
