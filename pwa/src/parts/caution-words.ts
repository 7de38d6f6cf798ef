// What a caution's code is called; its own words stand beside it.

import { m } from "../paraglide/messages.js";
import type { Caution } from "../words/records";

const words: Readonly<Record<string, () => string>> = {
  poison: m.caution_poison, "poison-skin": m.caution_poison_skin, skin: m.caution_skin, eyes: m.caution_eyes, "sun-burn": m.caution_sun_burn,
  thorns: m.caution_thorns, cats: m.caution_cats, pets: m.caution_pets, invades: m.caution_invades, allergy: m.caution_allergy, breath: m.caution_breath,
};

const poisons = new Set(["poison", "poison-skin", "cats", "pets"]);

export function cautionWord(code: string): string {
  return words[code]?.() ?? m.caution_other();
}

/** Whether any of them is a poison, so that the poison line belongs beside it. */
export function mayPoison(cautions: readonly Caution[]): boolean {
  return cautions.some(({ code }) => poisons.has(code));
}
