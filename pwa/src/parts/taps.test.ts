import { describe, expect, it } from "vitest";
import { steady } from "./steady";
import { Taps, type Tap } from "./taps";

const here: Tap = { ms: 0, x: 100, y: 100, pointed: true, on: "bud", field: null, screen: "/round/a" };

/** What became of taps, each at its millisecond: "done", "ignored" by its handler, or "swallowed" before it. */
function outcomes(...made: readonly (readonly [ms: number, at?: Partial<Tap>])[]): string[] {
  const taps = new Taps();
  return made.map(([ms, at]) => {
    if (taps.heed({ ...here, ...at, ms })) return "swallowed";
    let done = "ignored";
    steady(() => (done = "done"), taps)();
    return done;
  });
}

describe("a finger", () => {
  it("that bounces is taken once, however often it bounces", () =>
    expect(outcomes([0], [120], [300], [700])).toEqual(["done", "ignored", "ignored", "ignored"]));
  it("that taps again after a pause is taken again", () => expect(outcomes([0], [500])).toEqual(["done", "done"]));
  it("that taps elsewhere at once is taken at once", () => expect(outcomes([0], [90, { on: "full", x: 240 }])).toEqual(["done", "done"]));
  it("that slips to the next thing in bouncing is taken once", () => expect(outcomes([0], [90, { on: "full", x: 110 }])).toEqual(["done", "ignored"]));
  it("that bounces anywhere on a wide thing is taken once", () => expect(outcomes([0], [90, { x: 300 }])).toEqual(["done", "ignored"]));
});

describe("a screen that a tap brought", () => {
  const next = { on: "full", screen: "/round/b" };
  it("is not touched by the finger's bounce", () => expect(outcomes([0], [200, next], [500, next])).toEqual(["done", "swallowed", "swallowed"]));
  it("takes the first tap elsewhere on it, however soon", () => expect(outcomes([0], [60, { ...next, y: 400 }])).toEqual(["done", "done"]));
  it("takes a tap that no other came before", () => expect(outcomes([0, next])).toEqual(["done"]));
});

describe("a key", () => {
  const key = { pointed: false, x: 0, y: 0 };
  it("that is held repeats nothing", () => expect(outcomes([0, key], [30, key])).toEqual(["done", "ignored"]));
  it("on another thing is taken at once", () => expect(outcomes([0, key], [30, { ...key, on: "full" }])).toEqual(["done", "done"]));
});

it("a label's tap comes again on its field, and is no bounce", () => {
  const label = { on: "label", field: "field" };
  expect(outcomes([0, label], [0, { on: "field" }], [100, label])).toEqual(["done", "done", "ignored"]);
});
