// What the three lengths of a look are called, in their row and to a screen reader.

import { m } from "../paraglide/messages.js";
import { entry, type Units } from "./measure";

export type LengthField = "heightCm" | "spreadCm" | "flowerHeightCm";

export type LengthWords = Readonly<{ head: string; field: string; less: string; more: string }>;

export function lengthWords(field: LengthField, units: Units): LengthWords {
  const unit = entry.unitWord(units);
  const words: Record<LengthField, () => LengthWords> = {
    heightCm: () => ({ head: m.height(), field: m.height_in({ unit }), less: m.height_less(), more: m.height_more() }),
    spreadCm: () => ({ head: m.spread(), field: m.spread_in({ unit }), less: m.spread_less(), more: m.spread_more() }),
    flowerHeightCm: () => ({ head: m.flower_height(), field: m.flower_height_in({ unit }), less: m.flower_height_less(), more: m.flower_height_more() }),
  };
  return words[field]();
}
