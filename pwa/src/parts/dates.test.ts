import { describe, expect, it, vi } from "vitest";
import { addDays, clockTime, dayOf, dayOfYear, daysBetween, fromDayOfYear, partialDay, shortDay, weekday } from "./dates";

describe("days as a locale writes them", () => {
  it("names the weekday", () => expect(weekday("2014-07-11", "en-GB")).toMatch(/^Friday,? 11 July$/u));
  it("follows the locale", () => expect(shortDay("2014-06-12", "2014-07-11", "en-US")).toBe("June 12"));
  it("leaves out this year", () => expect(shortDay("2014-06-12", "2014-07-11", "en-GB")).toBe("12 June"));
  it("names another year", () => expect(shortDay("2013-06-12", "2014-07-11", "en-GB")).toBe("12 June 2013"));
  it.each([["2012", "2012"], ["2012-04", "April 2012"], ["2012-04-12", "12 April 2012"]])("keeps the precision of %s", (day, text) =>
    expect(partialDay(day, "en-GB")).toBe(text));
  it("shows the observer's own clock, whatever the zone of this phone", () =>
    expect(clockTime("2014-07-11T10:42:00-07:00", "en-GB")).toBe("10:42"));
  it("takes the day from the observer's clock", () => expect(dayOf("2014-07-11T23:30:00-07:00")).toBe("2014-07-11"));
});

describe("a machine's instant", () => {
  it("is shown by this phone's clock", () => {
    vi.spyOn(Date.prototype, "getTimezoneOffset").mockReturnValue(-600);
    expect(clockTime("2014-07-11T18:42:00Z", "en-GB")).toBe("4:42");
    expect(dayOf("2014-07-11T18:42:00Z")).toBe("2014-07-12");
  });
});

describe("counting days", () => {
  it("crosses a leap day", () => expect(daysBetween("2016-02-28", "2016-03-01")).toBe(2));
  it("crosses the change of clocks", () => expect(addDays("2026-03-28", 2)).toBe("2026-03-30"));
  it("runs below the first of January", () => expect(fromDayOfYear(2015, -3)).toBe("2014-12-28"));
  it("counts into the next year", () => expect(dayOfYear("2015-01-04", 2014)).toBe(369));
  it("comes back to the same day", () => expect(dayOfYear(fromDayOfYear(2016, 200))).toBe(200));
});
