// Soils by the USDA's texture classes, in plain words, and how a hand tells them
// apart (the feel test, common practice).

import { m } from "../paraglide/messages.js";

/** From the lightest to the heaviest: the record's value, its word, and what a wet handful does. */
export const soils: readonly Readonly<{ soil: string; word: () => string; feel: () => string }>[] = [
  { soil: "sand", word: m.soil_sand, feel: m.feel_sand },
  { soil: "loamy sand", word: m.soil_loamy_sand, feel: m.feel_loamy_sand },
  { soil: "sandy loam", word: m.soil_sandy_loam, feel: m.feel_sandy_loam },
  { soil: "loam", word: m.soil_loam, feel: m.feel_loam },
  { soil: "silt loam", word: m.soil_silt_loam, feel: m.feel_silt_loam },
  { soil: "silt", word: m.soil_silt, feel: m.feel_silt },
  { soil: "sandy clay loam", word: m.soil_sandy_clay_loam, feel: m.feel_sandy_clay_loam },
  { soil: "clay loam", word: m.soil_clay_loam, feel: m.feel_clay_loam },
  { soil: "silty clay loam", word: m.soil_silty_clay_loam, feel: m.feel_silty_clay_loam },
  { soil: "sandy clay", word: m.soil_sandy_clay, feel: m.feel_sandy_clay },
  { soil: "silty clay", word: m.soil_silty_clay, feel: m.feel_silty_clay },
  { soil: "clay", word: m.soil_clay, feel: m.feel_clay },
];

/** "" for a soil that is not known. */
export function soilWord(soil: string | undefined): string {
  return soils.find((one) => one.soil === soil)?.word() ?? "";
}
