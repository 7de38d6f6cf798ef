import { describe, expect, it } from "vitest";
import { likelyAt } from "./likely";

const band = [{ day: "2014-01-01", lo: 40, mid: 50, hi: 60 }, { day: "2014-01-11", lo: 60, mid: 70, hi: 100 }];

describe("likelyAt", () => {
  it("reads a day of the band", () => expect(likelyAt(band, "2014-01-11")).toEqual({ lo: 60, hi: 100 }));
  it("reads between two days", () => expect(likelyAt(band, "2014-01-06")).toEqual({ lo: 50, hi: 80 }));
  it.each(["2013-12-31", "2014-01-12"])("says nothing outside it, on %s", (day) => expect(likelyAt(band, day)).toBeNull());
});
