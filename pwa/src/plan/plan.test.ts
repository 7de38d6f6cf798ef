import { describe, expect, it } from "vitest";
import type { Bed, Kind, Observation, Planting, Point } from "../words/records";
import { nearest, spotsOf, thatWay } from "./choosing";
import { rulingOf } from "./colours";
import { engrave } from "./engraving";
import { letterPlan } from "./letter-plan";
import { letter, type Named, shortName } from "./lettering";
import { scaleBar } from "./scale-bar";
import { drawnGround, inside, Sheet } from "./sheet";
import { grownBy, placedOf } from "./spread";

const TODAY = "2015-07-10";
const square = (x: number, y: number, side: number): Point[] => [[x, y], [x + side, y], [x + side, y + side], [x, y + side]];
const bed = (id: string, outline: Point[]): Bed & { outline: Point[] } => ({ id, ref: `bed/${id}`, name: id, outline });
const planting = (id: string, fields: Partial<Planting>): Planting => ({ id, ref: `planting/${id}`, ...fields });
const kind = (fields: Partial<Kind>): Kind => ({ id: "k", ref: "kind/k", spreadCm: [80, 120], yearsToSize: 3, ...fields });
const look = (fields: Partial<Observation>): Observation => ({ id: "o", ref: "observation/o", seen: `${TODAY}T10:00:00+01:00`, ...fields });
const placed = (id: string, at: Point, of = kind({})) => placedOf(planting(id, { at, planted: null }), of, [], TODAY)!;

describe("Sheet", () => {
  const sheet = new Sheet({ west: 2, south: 1, east: 12, north: 6 }, 20);
  it("puts north at the top and west on the left", () => {
    expect(sheet.at([2, 6])).toEqual([0, 0]);
    expect(sheet.at([12, 1])).toEqual([200, 100]);
    expect(sheet.under(200, 100)).toEqual([12, 1]);
  });
  it("tells inside from outside of an outline with a bay", () => {
    const bay: Point[] = [[0, 0], [4, 0], [4, 4], [2, 1], [0, 4]];
    expect(inside([1, 1], bay)).toBe(true);
    expect(inside([2, 3], bay)).toBe(false);
    expect(inside([5, 1], bay)).toBe(false);
  });
});

it("draws the ground of beds and plantings with a path around them, and nothing where nothing is placed", () => {
  expect(drawnGround([bed("a", square(3, 4, 2))], [], [])).toEqual({ west: 1, south: 2, east: 7, north: 8 });
  expect(drawnGround([bed("a", square(3, 4, 2))], [], [placed("p", [9, 5])])!.east).toBeCloseTo(9 + 0.5 + 2);
  expect(drawnGround([{ id: "b", ref: "bed/b" }], [], [])).toBeNull();
});

describe("the spread of a planting", () => {
  it("is its kind's middle once nobody knows since when, and grows with the root of its number", () => {
    expect(placed("p", [0, 0]).nowM).toBeCloseTo(0.5);
    expect(placedOf(planting("p", { at: [0, 0], planted: null, count: 9 }), kind({}), [], TODAY)!.nowM).toBeCloseTo(1.5);
  });
  it("is 95 % of it at its years to size, as the almanac's growth", () => {
    expect(grownBy(planting("p", { planted: "2012-07-10" }), kind({}), TODAY)).toBeCloseTo(0.95, 3);
    expect(grownBy(planting("p", { planted: "2015" }), kind({ yearsToSize: 3 }), TODAY)).toBeCloseTo(0.15);
  });
  it("is what was measured within a year, of a single plant", () => {
    const at: Point = [1, 1];
    expect(placedOf(planting("p", { at }), kind({}), [look({ spreadCm: 30 })], TODAY)!.nowM).toBeCloseTo(0.15);
    expect(placedOf(planting("p", { at }), kind({}), [look({ spreadCm: 30, seen: "2013-07-01T10:00:00+01:00" })], TODAY)!.nowM).toBeCloseTo(0.5);
    expect(placedOf(planting("p", { at, count: 4 }), kind({}), [look({ spreadCm: 30 })], TODAY)!.nowM).toBeCloseTo(1);
  });
  it("is never less than what was measured when grown, and a climber takes its foot alone", () => {
    expect(placedOf(planting("p", { at: [1, 1] }), kind({}), [look({ spreadCm: 300 })], TODAY)).toMatchObject({ nowM: 1.5, fullM: 1.5 });
    expect(placed("p", [0, 0], kind({ habit: "climber", spreadCm: [500, 900] })).nowM).toBeLessThan(0.5);
  });
  it("is nowhere for a planting without a place", () => expect(placedOf(planting("p", { bed: "long" }), kind({}), [], TODAY)).toBeNull());
});

it.each([
  ["#fdfdf8", "white"], ["#f0d93a", "yellow"], ["#dd8438", "orange"], ["#d7402a", "red"], ["#9c3b1f", "red"], ["#efb5c6", "pink"], ["#c06a95", "pink"], ["#6a2238", "red"],
  ["#5f3f9a", "purple"], ["#7566b0", "purple"], ["#3f56b5", "blue"], ["#6f84cc", "blue"], ["#c3cf4e", "green"], ["#b58f86", "brown"], ["#2a1a22", "brown"],
])("%s is ruled as %s", (colour, ruling) => expect(rulingOf(colour)).toBe(ruling));

it("engraves a planting the same each time, closed, with a dot for each plant", () => {
  const one = engrave("perennial", "door-lavender", 20, 5);
  expect(engrave("perennial", "door-lavender", 20, 5)).toEqual(one);
  expect(engrave("perennial", "door-iris", 20, 5).edge).not.toBe(one.edge);
  expect(one.edge).toMatch(/^M.*Z$/u);
  expect(one.dots).toHaveLength(5);
  expect(one.dots.every(([x, y]) => Math.hypot(x, y) < 20)).toBe(true);
  expect(engrave("grass", "g", 20, 1).edge).not.toContain("NaN");
});

describe("lettering", () => {
  const paper = { left: 0, top: 0, right: 400, bottom: 400 };
  const page = { paper, solid: [], kept: [], widthOf: (text: string, size: number) => text.length * size * 0.5 };
  const named = (id: string, x: number, y: number, texts: string[]): Named => ({ id, texts, size: 12, where: "around", box: { left: x - 5, right: x + 5, top: y - 5, bottom: y + 5 } });
  const width = (text: string): number => page.widthOf(text, 12);
  const boxes = (all: readonly { text: string; x: number; y: number; anchor: string }[]) => all.map(({ text, x, y, anchor }) => {
    const left = anchor === "start" ? x : anchor === "end" ? x - width(text) : x - width(text) / 2;
    return { left, right: left + width(text), top: y - 8.7, bottom: y + 5 };
  });

  it("never writes one name over another, nor over the paper's edge, however many there are", () => {
    const many = Array.from({ length: 300 }, (_, i) => named(`p${i}`, (i * 37) % 400, (i * 91) % 400, [`Genus epithet${i}`, `G. e${i}`, String(i)]));
    const written = boxes(letter(many, page));
    expect(written.length).toBeGreaterThan(60);
    written.forEach((a, i) => {
      expect(a.left).toBeGreaterThanOrEqual(0);
      expect(a.right).toBeLessThanOrEqual(400);
      for (const b of written.slice(i + 1)) expect(a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom).toBe(false);
    });
  });
  it("shortens a name that has no room, and leaves out what has none at all", () => {
    const small = { ...page, paper: { ...paper, right: 70, bottom: 40 } };
    expect(letter([named("p", 35, 15, ["Delphinium elatum", "D. elatum"])], small)[0]!.text).toBe("D. elatum");
    expect(letter([named("p", 35, 15, ["Delphinium elatum"])], small)).toEqual([]);
  });
  it("keeps off the middle of another plant, but not of its own", () => {
    const kept = [{ left: 180, right: 220, top: 180, bottom: 220 }];
    const over = named("p", 200, 200, ["14"]);
    expect(letter([{ ...over, own: 0 }], { ...page, kept })[0]).toMatchObject({ x: 200 });
    expect(letter([over], { ...page, kept: [{ left: 0, right: 400, top: 0, bottom: 400 }] })).toEqual([]);
    expect(letter([{ ...over, needed: true }], { ...page, kept: [{ left: 0, right: 400, top: 0, bottom: 400 }] })).toHaveLength(1);
  });
  it("is off a black wall where it can be, and on it rather than nowhere", () => {
    const wall = { left: 0, right: 400, top: 206, bottom: 230 };
    expect(letter([named("p", 200, 200, ["Iris sibirica"])], { ...page, solid: [wall] })[0]!.y).toBeLessThan(206);
    expect(letter([named("p", 200, 200, ["Iris sibirica"])], { ...page, solid: [paper] })).toHaveLength(1);
  });
  it.each([["Delphinium elatum", "D. elatum"], ["Salvia nemorosa ‘Ostfriesland’", "S. ‘Ostfriesland’"], ["Rosa 'Ballerina'", "R. 'Ballerina'"], ["Camassia", "Camassia"]])("shortens %s to %s", (name, short) => expect(shortName(name)).toBe(short));
});

describe("the plan's letters", () => {
  it("name no bed upon another, and are rather left out", () => {
    const sheet = new Sheet({ west: 0, south: 0, east: 8, north: 8 }, 20);
    const beds = [bed("long", square(1, 1, 2)), bed("west", square(3.1, 1, 2)), bed("north", square(1, 3.1, 2)), bed("east", square(5.2, 1, 2))];
    const { plain } = letterPlan({ sheet, beds, structures: [], placed: [], numbers: new Map(), type: 14, chosen: null, nameOf: () => "" }, (text, size) => text.length * size * 0.5);
    expect(plain.map(({ text }) => text)).toContain("west");
    for (const { id, text, size, x, y, anchor } of plain) {
      const width = text.length * size * 0.5;
      const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
      const over = beds.filter(({ ref, outline }) => ref !== id && [0.02, 0.5, 0.98].some((share) => inside(sheet.under(left + width * share, y - size * 0.14), outline)));
      expect([text, over.map(({ name }) => name)]).toEqual([text, []]);
    }
  });
});

describe("choosing", () => {
  const sheet = new Sheet({ west: 0, south: 0, east: 10, north: 10 }, 40);
  const spots = spotsOf([bed("long", square(2, 2, 6))], [placed("west", [3, 5]), placed("east", [6, 5]), placed("north", [3, 7.5])], sheet);

  it("takes the planting nearest to the finger, else the bed, else nothing", () => {
    expect(nearest(spots, 6 * 40 + 15, 5 * 40)).toEqual({ what: "planting", id: "east" });
    expect(nearest(spots, 7.5 * 40, 7.5 * 40)).toEqual({ what: "bed", id: "long" });
    expect(nearest(spots, 9.5 * 40, 20)).toBeNull();
  });
  it("goes by the arrows to what lies that way", () => {
    const west = { what: "planting", id: "west" } as const;
    expect(thatWay(spots, west, "ArrowRight")).toMatchObject({ id: "east" });
    expect(thatWay(spots, west, "ArrowUp")).toMatchObject({ id: "north" });
    expect(thatWay(spots, west, "ArrowDown")).toBeNull();
    expect(thatWay(spots, west, "Home")).toMatchObject({ what: "bed" });
    expect(thatWay(spots, west, "a")).toBeNull();
  });
});

it("chooses a round length for the scale bar, in metres or feet", () => {
  expect(scaleBar(12, "metric", 110)).toMatchObject({ pixels: 60, words: "5 m" });
  expect(scaleBar(12, "imperial", 110).words).toBe("20 ft");
  expect(scaleBar(12, "imperial", 110).pixels).toBeCloseTo(20 * 0.3048 * 12);
});
