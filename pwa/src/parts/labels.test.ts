import jsQR from "jsqr";
import { expect, test } from "vitest";
import type { Planting } from "../words/records";
import { addressOf, chosen, codeOf, fit, isHere, labelSizes, MARGIN_MM, measuresOf, papers, places, sheets } from "./labels";

const SCALE = 4;

/** The code as a camera would see it squarely. */
function pictureOf({ path, side }: ReturnType<typeof codeOf>): Uint8ClampedArray {
  const pixels = new Uint8ClampedArray((side * SCALE) ** 2 * 4).fill(255);
  for (const [, x, y] of path.matchAll(/M(\d+) (\d+)/gu)) {
    for (let dy = 0; dy < SCALE; dy++) for (let dx = 0; dx < SCALE; dx++) {
      const at = ((Number(y) * SCALE + dy) * side * SCALE + Number(x) * SCALE + dx) * 4;
      pixels.fill(0, at, at + 3);
    }
  }
  return pixels;
}

test("a printed code reads as the planting's address", () => {
  const address = addressOf("https://garden.example.org:8443", "01923456-89ab-7cde-8f01-23456789abcd");
  const code = codeOf(address);
  const side = code.side * SCALE;
  expect(jsQR(pictureOf(code), side, side)?.data).toBe(address);
});

test("four light modules lie around a code on every side", () => {
  const { path, side } = codeOf("https://garden.example.org/planting/rose");
  const at = [...path.matchAll(/M(\d+) (\d+)/gu)].flatMap(([, x, y]) => [Number(x), Number(y)]);
  expect(Math.min(...at)).toBe(4);
  expect(Math.max(...at)).toBe(side - 5);
});

test.each(papers.flatMap((paper) => labelSizes.map((size) => [paper.name, size.name, paper, size] as const)))(
  "on %s every %s lies inside the margins and over no other", (_paper, _size, paper, size) => {
    const all = places(paper, size);
    for (const [left, top] of all) {
      expect(left).toBeGreaterThanOrEqual(MARGIN_MM);
      expect(left + size.wide).toBeLessThanOrEqual(paper.wide - MARGIN_MM);
      expect(top + size.high).toBeLessThanOrEqual(paper.high - MARGIN_MM);
      const over = all.filter(([l, t]) => Math.abs(l - left) < size.wide && Math.abs(t - top) < size.high);
      expect(over).toHaveLength(1);
    }
    expect(size.code).toBeLessThanOrEqual(size.high);
  },
);

test("labels run on to the next sheet, and none is lost", () => {
  expect(sheets([1, 2, 3, 4, 5], 2)).toEqual([[1, 2], [3, 4], [5]]);
  expect(sheets([], 2)).toEqual([]);
});

const widthOf = (text: string, type: number): number => text.length * type * 0.5;
const names = ["Iris", "Lavandula angustifolia", "Calamagrostis × acutiflora ‘Karl Foerster’", "Rosa ‘Souvenir du Docteur Jamain’ from the old garden behind the church, moved twice", "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch"];

test.each(labelSizes.flatMap((size) => names.map((name) => [name, size.name, size] as const)))("%s stands whole on a %s", (name, _size, size) => {
  const others = ["an English name of some length", "planted 14 April 2012"];
  const fitted = fit({ name, others }, size, widthOf);
  const wide = size.wide - size.code - 3;
  const lines = (text: string, type: number): number => fitted.breaks ? Math.ceil(widthOf(text, type) / wide) : text.split(" ").reduce<[number, number]>(([all, x], word) => {
    const more = widthOf(`${word} `, type);
    return x + more - type / 2 > wide ? [all + 1, more] : [all, x + more];
  }, [1, 0])[0];
  const high = lines(name, fitted.type) * fitted.type + others.slice(0, fitted.others).reduce((sum, other) => sum + lines(other, fitted.type * 0.78) * fitted.type * 0.78, 0);
  expect(high * 1.2).toBeLessThanOrEqual(size.high);
  expect(fitted.type).toBeGreaterThanOrEqual(2.3);
});

test("a short name keeps its type and both other lines; only a word wider than the label is broken", () => {
  expect(fit({ name: "Iris sibirica", others: ["a", "b"] }, labelSizes[0]!, widthOf)).toEqual({ type: 3.7, others: 2, breaks: false });
  expect(fit({ name: names[4]!, others: [] }, labelSizes[1]!, widthOf).breaks).toBe(true);
});

test("an address that opens on this machine alone is known", () => {
  for (const host of ["localhost", "127.0.0.1", "[::1]", "haulm.localhost"]) expect(isHere(host), host).toBe(true);
  for (const host of ["garden-pc.local", "192.168.1.20", "garden.example.org", "localhost.example.org"]) expect(isHere(host), host).toBe(false);
});

test("sizes are told in inches on American paper", () => {
  expect(measuresOf(labelSizes[0]!, papers[0]!)).toBe("90 × 28 mm");
  expect(measuresOf(labelSizes[0]!, papers[1]!)).toBe("3.5 × 1.1 in");
});

test("plantings are chosen by bed, by having no label yet, and by being new", () => {
  const all: Planting[] = [{ id: "a", ref: "planting/a", bed: "x", planted: "2015-03" }, { id: "b", ref: "planting/b", bed: "y", planted: "2012", labelled: "2015-06-01" }, { id: "c", ref: "planting/c", planted: null }];
  const ids = (which: string): string => chosen(all, which, "2015-07-10").map(({ id }) => id).join("");
  expect([ids("all"), ids("unlabelled"), ids("year"), ids("y")]).toEqual(["abc", "ac", "a", "b"]);
});
