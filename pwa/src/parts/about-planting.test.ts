import { describe, expect, it } from "vitest";
import type { Planting } from "../words/records";
import { nameOf, seasonOf, sinceDay, sinceOf, whereOf } from "./about-planting";

const planting = (fields: Partial<Planting>): Planting => ({ id: "p", ref: "planting/p", ...fields });

describe("sinceOf", () => {
  it.each([
    [{ planted: "2012-10-11", form: "pot", potL: 5 }, "planted 11 October 2012 from a 5 litre pot"],
    [{ planted: "2012-04", form: "bare-root" }, "planted April 2012 with bare roots"],
    [{ planted: "2012" }, "planted 2012"],
    [{ planted: null }, "when it was planted is not known"],
    [{ planted: "2015-07-10", from: { planting: "q", how: "moved" } }, "moved here 10 July 2015"],
    [{ planted: "2015-07-10", form: "division", from: { planting: "q", how: "divided" } }, "divided 10 July 2015"],
    [{ planted: null, from: { planting: "q", how: "moved" } }, "when it was planted is not known"],
    [{ planted: "2015", form: "seed", from: { planting: "q", how: "sown" } }, "planted 2015 from seed"],
  ])("%o", (fields, words) => expect(sinceOf(planting(fields), "metric", "en-GB")).toBe(words));

  it("tells a pot in gallons where the garden is imperial", () => {
    expect(sinceOf(planting({ planted: "2012", form: "pot", potL: 18.93 }), "imperial", "en-GB")).toBe("planted 2012 from a 5 gallon pot");
  });
});

it("says the day alone, and nothing where nobody knows it", () => {
  expect(sinceDay(planting({ planted: "2012-04", form: "pot" }), "en-GB")).toBe("planted April 2012");
  expect(sinceDay(planting({ planted: "2015-07-10", from: { planting: "q", how: "moved" } }), "en-GB")).toBe("moved here 10 July 2015");
  expect(sinceDay(planting({ planted: null }), "en-GB")).toBe("");
});

describe("seasonOf", () => {
  it("counts from the next year for what went in in autumn", () => expect(seasonOf(planting({ planted: "2012-10-11" }), "2015-07-01")).toBe(3));
  it("counts from the same year for what went in in spring", () => expect(seasonOf(planting({ planted: "2012-04" }), "2015-07-01")).toBe(4));
  it("is the first until then", () => expect(seasonOf(planting({ planted: "2014-10" }), "2014-11-24")).toBe(1));
  it("does not guess", () => expect(seasonOf(planting({}), "2015-07-01")).toBeNull());
});

it("names what nobody has named", () => {
  expect(nameOf({ kind: () => null }, planting({}))).toBe("A plant without a name");
  expect(nameOf({ kind: () => null }, planting({ label: "blue one by the gate" }))).toBe("blue one by the gate");
});

it("counts a group", () => {
  const book = { bed: () => ({ id: "b", ref: "bed/b" as const, name: "Wet bed" }) };
  expect(whereOf(book, planting({ count: 5 }))).toBe("Wet bed · 5 plants");
  expect(whereOf(book, planting({ count: 1 }))).toBe("Wet bed");
});
