import jsQR from "jsqr";
import { expect, test } from "vitest";
import { addressOf, codeOf, labelSizes, MARGIN_MM, papers, places, sheets } from "./labels";

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
