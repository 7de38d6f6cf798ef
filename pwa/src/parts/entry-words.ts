// An entry as one line: "first flower · 81 cm · good · slugs, snails".

import { m } from "../paraglide/messages.js";
import type { Observation, Work } from "../words/records";
import { amountWord } from "./amount";
import { careDone } from "./care-words";
import { length, type Units } from "./measure";
import { signWord } from "./signs";
import { stageOf, stageSeen } from "./stages";
import { upWord } from "./up";
import { vigourWord } from "./vigour";

/** What was seen; "looked, nothing to note" where the look says nothing. */
export function entryWords(entry: Observation, units: Units): string {
  const stage = stageOf(entry.stage);
  const facts = [
    stage ? stageSeen(stage) : "",
    entry.notInFlower ? m.not_in_flower() : "",
    entry.up ? upWord(entry.up) : "",
    entry.heightCm !== undefined ? length(entry.heightCm, units) : "",
    entry.spreadCm !== undefined ? m.entry_spread({ spread: length(entry.spreadCm, units) }) : "",
    entry.countInFlower !== undefined ? m.entry_in_flower({ count: entry.countInFlower }) : "",
    entry.countAlive !== undefined ? m.entry_alive({ count: entry.countAlive }) : "",
    amountWord(entry.flowerAmount) && m.entry_amount({ amount: amountWord(entry.flowerAmount) }),
    entry.flowerHeightCm !== undefined ? m.entry_flower_height({ height: length(entry.flowerHeightCm, units) }) : "",
    vigourWord(entry.vigour),
    (entry.signs ?? []).map(signWord).join(", "),
  ].filter(Boolean);
  if (facts.length > 0) return facts.join(" · ");
  return entry.note || entry.photos?.length || entry.voice?.length ? "" : m.entry_nothing();
}

/** What was done: "cut back, to 30 cm". */
export function workWords(work: Work, units: Units): string {
  const what = careDone(work.what ?? "");
  const left = work.heightLeftCm === undefined ? "" : m.work_left({ height: length(work.heightLeftCm, units) });
  return [what, left, work.amount === undefined ? "" : String(work.amount)].filter(Boolean).join(", ");
}

/** How a losing text's field is called. */
export function fieldWord(field: string): string {
  const words: Readonly<Record<string, () => string>> = { note: m.note, name: m.how_name, label: m.how_label, supplier: m.how_from, why: m.put_aside_why };
  return words[field]?.() ?? field;
}
