// The names on the plan: each is written where it covers no other, shortened
// where that helps, left to its number or left out where nothing fits. What was
// chosen comes first, then beds, then what stands large.

import type { Box } from "./sheet";

/** Something to be named: texts from the one wished to the shortest, and the box that it belongs to. */
export type Named = Readonly<{
  id: string;
  texts: readonly string[];
  box: Box;
  /** "within": in the middle of the box first; "above": along its edges, without first; "around": beside it, and in it where it fits. */
  where: "within" | "above" | "around";
  size: number;
  /** Its own place among the `kept` ones, which it may cover. */
  own?: number;
  /** Rather over plants than not at all. */
  needed?: boolean;
  /** Whether a name there is taken for this one's, and not for another's; anywhere, where it is left out. */
  tells?: (box: Box) => boolean;
}>;

/** What is written upon: its edges, what is solid black and avoided where that can be, and what no name but its own may cover. */
export type Page = Readonly<{ paper: Box; solid: readonly Box[]; kept: readonly Box[]; widthOf: (text: string, size: number) => number }>;

export type Written = Readonly<{ id: string; text: string; size: number; x: number; y: number; anchor: "start" | "middle" | "end" }>;

type Anchor = Written["anchor"];
type Spot = Readonly<{ x: number; y: number; anchor: Anchor }>;

const GAP = 3; // pixels between a name and what it names
const LINE = 1.16; // height of a line by its size
const CAPITAL = 0.72; // height above the line by its size

/** Writes what fits on a page, in the order given. */
export function letter(all: readonly Named[], page: Page): readonly Written[] {
  const taken = new Taken();
  const kept = new Taken(page.kept);
  return all.flatMap((one) => {
    const bare = (box: Box): boolean => holds(page.paper, box) && !taken.meets(box) && (one.tells?.(box) ?? true);
    const free = (box: Box): boolean => bare(box) && !kept.meets(box, one.own);
    const light = (box: Box): boolean => !page.solid.some((other) => meet(box, other));
    const ways = [(box: Box) => free(box) && light(box), one.needed ? (box: Box) => bare(box) && light(box) : free, one.needed ? bare : free];
    const written = ways.reduce<ReturnType<typeof place>>((found, fits) => found ?? place(one, page, fits), null);
    if (!written) return [];
    taken.add(written.box);
    return [written.name];
  });
}

function place(one: Named, { widthOf }: Page, free: (box: Box) => boolean): { name: Written; box: Box } | null {
  for (const text of one.texts) {
    const width = widthOf(text, one.size);
    for (const spot of spots(one, width)) {
      const box = boxOf(spot, width, one.size);
      if (free(box)) return { name: { id: one.id, text, size: one.size, ...spot }, box };
    }
  }
  return null;
}

function spots({ box, where, size }: Named, width: number): readonly Spot[] {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const base = y + (CAPITAL * size) / 2;
  const middle: Spot = { x, y: base, anchor: "middle" };
  if (where === "within") return width <= box.right - box.left && LINE * size <= box.bottom - box.top ? [middle] : [];
  const above: Spot = { x, y: box.top - GAP, anchor: "middle" };
  const below: Spot = { x, y: box.bottom + GAP + CAPITAL * size, anchor: "middle" };
  const [right, left]: [Spot, Spot] = [{ x: box.right + GAP, y: base, anchor: "start" }, { x: box.left - GAP, y: base, anchor: "end" }];
  if (where === "around") return width < box.right - box.left ? [middle, below, above, right, left] : [below, above, right, left];
  const start: Spot = { x: box.left, y: box.top - GAP, anchor: "start" };
  const end: Spot = { ...start, x: box.right, anchor: "end" };
  const under = box.bottom + GAP + CAPITAL * size;
  const [upper, lower] = [box.top + GAP + CAPITAL * size, box.bottom - GAP];
  const along = [upper, lower].flatMap((y): Spot[] => [{ x: box.left + GAP, y, anchor: "start" }, { x: box.right - GAP, y, anchor: "end" }]);
  return [start, { ...start, y: under }, end, { ...end, y: under }, ...along, middle, right, left];
}

function boxOf({ x, y, anchor }: Spot, width: number, size: number): Box {
  const left = anchor === "start" ? x : anchor === "end" ? x - width : x - width / 2;
  return { left, right: left + width, top: y - CAPITAL * size, bottom: y - CAPITAL * size + LINE * size };
}

function holds(paper: Box, { left, top, right, bottom }: Box): boolean {
  return left >= paper.left && top >= paper.top && right <= paper.right && bottom <= paper.bottom;
}

const CELL = 64; // pixels; about a name's width, so that few cells are looked at

/** Boxes by the cells of a grid that they touch. */
class Taken {
  readonly #cells = new Map<string, (readonly [box: Box, at: number])[]>();
  #count = 0;

  constructor(boxes: readonly Box[] = []) {
    for (const box of boxes) this.add(box);
  }

  /** Whether any lies under a box, but the one at `own`. */
  meets(box: Box, own = -1): boolean {
    return this.#under(box).some((key) => this.#cells.get(key)?.some(([other, at]) => at !== own && meet(box, other)));
  }

  add(box: Box): void {
    const at = this.#count++;
    for (const key of this.#under(box)) this.#cells.set(key, [...(this.#cells.get(key) ?? []), [box, at]]);
  }

  #under({ left, top, right, bottom }: Box): string[] {
    const keys: string[] = [];
    for (let x = Math.floor(left / CELL); x <= Math.floor(right / CELL); x++) {
      for (let y = Math.floor(top / CELL); y <= Math.floor(bottom / CELL); y++) keys.push(`${x} ${y}`);
    }
    return keys;
  }
}

const APART = 2; // pixels, so that two names are never read as one

function meet(a: Box, b: Box): boolean {
  return a.left < b.right + APART && b.left < a.right + APART && a.top < b.bottom + APART && b.top < a.bottom + APART;
}

/** "S. ‘Ostfriesland’", "D. elatum": the genus by its letter, and what tells it from others. */
export function shortName(name: string): string {
  const [genus = "", ...rest] = name.split(" ");
  const cultivar = /[‘'].+[’']/u.exec(name)?.[0];
  return rest.length === 0 ? name : `${genus.startsWith("×") ? genus.slice(0, 2) : genus.slice(0, 1)}. ${cultivar ?? rest.join(" ")}`;
}
