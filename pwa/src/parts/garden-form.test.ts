import { describe, expect, it } from "vitest";
import { orderLast, placeOf, placeText, roundedPlace, timeZones } from "./garden-form";
import { numberTyped } from "./number-typed";

describe("placeOf", () => {
  it.each([
    ["52.21, 0.12", 52.21, 0.12],
    ["52.21,-0.12", 52.21, -0.12],
    ["52.21° N, 0.12° W", 52.21, -0.12],
    ["41,3 s 174,8 e", -41.3, 174.8],
    ["47° 36′ N, 122° 30′ W", 47.6, -122.5],
    ["33° 54' S 18° 24' E", -33.9, 18.4],
    ["52,21; 0,12", 52.21, 0.12],
    ["−33.9 18.4", -33.9, 18.4],
  ])("reads %s", (text, lat, lon) => {
    expect(placeOf(text)?.lat).toBeCloseTo(lat, 9);
    expect(placeOf(text)?.lon).toBeCloseTo(lon, 9);
  });
  it.each(["", "52.21", "here", "91, 0", "10, 181", "1, 2, 3"])("reads no place in “%s”", (text) => expect(placeOf(text)).toBeNull());
  it("reads back what is shown", () => expect(placeOf(placeText({ lat: -33.92, lon: 18.4 }))).toEqual({ lat: -33.92, lon: 18.4 }));
  it("shows nothing of half a place", () => expect(placeText({ lat: 5 })).toBe(""));
  it("keeps a position no nearer than it needs", () => expect(roundedPlace({ lat: 52.205_337, lon: 0.121_817 })).toEqual({ lat: 52.2053, lon: 0.1218 }));
});

describe("numberTyped", () => {
  it.each([["12", 12], ["−3,5", -3.5], [" 0 ", 0]])("reads %s", (text, value) => expect(numberTyped(text)).toBe(value));
  it.each(["", "ten", "1 2"])("reads no number in “%s”", (text) => expect(numberTyped(text)).toBeNull());
});

describe("the order of beds", () => {
  const beds = [{ order: 1 }, { order: 2 }, { order: 5 }];
  it("puts a new one last", () => expect([orderLast(beds), orderLast([])]).toEqual([6, 1]));
});

describe("timeZones", () => {
  it("lists the one that is set and universal time", () => expect(timeZones("Europe/London")).toEqual(expect.arrayContaining(["Europe/London", "UTC"])));
});
