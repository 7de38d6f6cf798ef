import { describe, expect, it } from "vitest";
import type { Season } from "../almanac/answers";
import { seasonWords } from "./season-words";

const season = (days: number, plants = 14): Season => {
  const now = { from: "2014-05-01", to: "2014-06-30", days, sd: 2.8, plants };
  return { days, sd: 2.8, from: plants, now, parts: [now] };
};

describe("seasonWords", () => {
  it("says how late, how surely and from what", () =>
    expect(seasonWords(season(6.2), "2014-06-20", false)).toEqual({ line: "Early summer runs 6 days late", small: "give or take 3, from 14 plants" }));
  it("names the part of the year that the day is in", () => expect(seasonWords(season(6.2), "2014-05-20", false)?.line).toBe("Late spring runs 6 days late"));
  it("names the last part that plants tell of, when the day is past it", () =>
    expect(seasonWords(season(6.2), "2014-07-20", false)?.line).toBe("Early summer runs 6 days late"));
  it("says early", () => expect(seasonWords(season(-1.2), "2014-06-20", false)?.line).toBe("Early summer runs 1 day early"));
  it("does not make a number of nothing", () => expect(seasonWords(season(0.2), "2014-06-20", false)?.line).toBe("Early summer runs to time"));
  it("turns the year round in the south", () => expect(seasonWords(season(6), "2014-06-20", true)?.line).toBe("Early winter runs 6 days late"));
  it("says nothing when nothing tells", () => {
    expect(seasonWords(null, "2014-06-20", false)).toBeNull();
    expect(seasonWords(season(6, 0), "2014-06-20", false)).toBeNull();
  });
});
