// What is to be lettered on the plan, in the order of what matters: what was
// chosen, the beds, the plantings from the largest, then what else stands there.

import type { Bed, Planting, Point, Structure } from "../words/records";
import type { Choice } from "./choosing";
import { letter, type Named, shortName, type Written } from "./lettering";
import { plainName } from "../parts/plant-name";
import { groundOf, inside, type Placed, type Sheet } from "./sheet";

type Outlined<T> = T & Readonly<{ outline: readonly Point[] }>;

export type Plan = Readonly<{
  sheet: Sheet;
  beds: readonly Outlined<Bed>[];
  structures: readonly Outlined<Structure>[];
  placed: readonly Placed[];
  /** Each planting's number in the table. */
  numbers: ReadonlyMap<string, number>;
  type: number;
  chosen: Choice | null;
  nameOf: (planting: Planting) => string;
}>;

const SMALLER = 0.92; // structures, beside beds
const NUMBERS = 0.84; // beside names
const EDGE = 2; // pixels to the paper's edge

/** Names a garden's width apart at this scale have room for words; from further off plants have numbers alone (pixels to the metre, seen on drawings). */
const WORDS_FROM = 22;

export function letterPlan(plan: Plan, widthOf: (text: string, size: number) => number): Readonly<{ plain: readonly Written[]; plants: readonly Written[] }> {
  const { sheet } = plan;
  const paper = { left: EDGE, top: EDGE, right: sheet.width - EDGE, bottom: sheet.height - EDGE };
  const solid = plan.structures.filter(isSolid).map(({ outline }) => sheet.box(groundOf(outline)));
  const kept = plan.placed.map((one) => heartOf(one, sheet));
  const written = letter([...chosenFirst(plan), ...bedNames(plan), ...plantNames(plan), ...structureNames(plan)], { paper, solid, kept, widthOf });
  const isPlant = ({ id, text }: Written): boolean => id.startsWith("planting/") && !/^\d+$/u.test(text);
  return { plain: written.filter((one) => !isPlant(one)), plants: written.filter(isPlant) };
}

/** Drawn all black: nothing can be read on it. */
function isSolid({ form }: Pick<Structure, "form">): boolean {
  return form === "wall" || form === "fence";
}

function chosenFirst({ chosen, placed, nameOf, sheet, type }: Plan): readonly Named[] {
  const own = chosen?.what === "planting" ? placed.findIndex(({ planting }) => planting.id === chosen.id) : -1;
  const one = placed[own];
  if (!one) return [];
  const name = plainName(nameOf(one.planting));
  return [{ id: `planting/${one.planting.id}`, texts: [name, shortName(name)], box: boxOf(one, sheet, 5), where: "around", size: type * 1.1, own, needed: true }];
}

function bedNames({ beds, sheet, type }: Plan): readonly Named[] {
  return beds.flatMap((bed): Named[] => {
    const others = beds.filter((other) => other !== bed);
    const tells = (box: Named["box"]): boolean => along(box).every(([x, y]) => {
      const there = sheet.under(x, y);
      return inside(there, bed.outline) || !others.some(({ outline }) => inside(there, outline));
    });
    return bed.name ? [{ id: `bed/${bed.id}`, texts: [bed.name], box: sheet.box(groundOf(bed.outline)), where: "above", size: type, needed: true, tells }] : [];
  });
}

/** Points along the middle of a line of letters, near enough together that no bed slips between (pixels). */
function along({ left, top, right, bottom }: Named["box"]): readonly Point[] {
  const EVERY = 8;
  const steps = Math.ceil((right - left) / EVERY);
  return Array.from({ length: steps + 1 }, (_, i): Point => [left + ((right - left) * i) / steps, (top + bottom) / 2]);
}

function plantNames({ placed, chosen, nameOf, numbers, sheet, type }: Plan): readonly Named[] {
  return placed.flatMap((one, own): Named[] => {
    if (one.planting.id === chosen?.id) return [];
    const name = plainName(nameOf(one.planting));
    const number = String(numbers.get(one.planting.id) ?? "");
    const [texts, size] = sheet.scale >= WORDS_FROM ? [[name, shortName(name), number], type] : [[number], type * NUMBERS];
    return [{ id: `planting/${one.planting.id}`, texts, box: boxOf(one, sheet, 0), where: "around", size, own }];
  });
}

function structureNames({ structures, sheet, type }: Plan): readonly Named[] {
  return structures.flatMap(({ id, name, form, outline }) =>
    (name && !isSolid({ form }) ? [{ id: `structure/${id}`, texts: [name], box: sheet.box(groundOf(outline)), where: "within" as const, size: type * SMALLER }] : []));
}

/** A name over the middle of another plant would be taken for that one's: so much of each is kept free, as a share of its radius. */
const HEART = 0.6;

function heartOf(one: Placed, sheet: Sheet): Named["box"] {
  return boxOf(one, sheet, -(1 - HEART) * one.nowM * sheet.scale);
}

function boxOf({ middle, nowM }: Placed, sheet: Sheet, more: number): Named["box"] {
  const [x, y] = sheet.at(middle);
  const radius = nowM * sheet.scale + more;
  return { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius };
}
