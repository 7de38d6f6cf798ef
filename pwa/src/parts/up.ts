// Whether a plant is above the ground, in words, and which of them to offer.

import { m } from "../paraglide/messages.js";
import type { Kind, ObservationFields } from "../words/records";

export type Up = NonNullable<ObservationFields["up"]>;

export function upWord(up: Up): string {
  const words: Record<Up, () => string> = { "not-up": m.up_not, up: m.up_up, "in-leaf": m.up_in_leaf, "dying-back": m.up_dying_back };
  return words[up]();
}

/**
 * What is worth asking about being up: an evergreen is always up, so only dying
 * back is asked; a kind that sleeps is asked for all while `open`, that is until
 * it was seen up this year.
 */
export function upsFor(kind: Kind | null, open: boolean): readonly Up[] {
  const evergreen = kind?.foliage === "evergreen" || kind?.foliage === "semi-evergreen";
  if (evergreen) return ["dying-back"];
  return open ? ["up", "in-leaf", "not-up", "dying-back"] : ["dying-back", "not-up"];
}
