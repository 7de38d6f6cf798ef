// How a planting ended and why it likely did, with their words.

import { m } from "../paraglide/messages.js";

type Worded = readonly (readonly [code: string, word: () => string])[];

/** What a person says of a planting that is no more; moving, dividing and lifting have forms of their own. */
export const lastEndings: Worded = [["died", m.end_died], ["removed", m.end_removed], ["given-away", m.end_given_away], ["done", m.end_over]];

/** What plants mostly die of in a border (common practice); anything else is said in a person's own words. */
export const reasons: Worded = [
  ["cold", m.why_cold], ["wet", m.why_wet], ["dry", m.why_dry], ["shade", m.why_shade], ["slugs", m.why_slugs], ["gnawed", m.why_gnawed],
  ["sick", m.why_sick], ["smothered", m.why_smothered], ["planting", m.why_planting], ["age", m.why_age],
];

const ends: Readonly<Record<string, (is: { day: string }) => string>> = {
  died: m.state_died, removed: m.state_removed, "given-away": m.state_given_away, done: m.state_over, moved: m.state_moved, divided: m.state_divided, lifted: m.state_lifted,
};

/** "It was moved, 3 October 2026." */
export function endWords(how: string | undefined, day: string): string {
  return (ends[how ?? ""] ?? m.state_ended)({ day });
}

/** The reason in words: of the list, or as the person wrote it. */
export function whyWords(why: string | undefined): string {
  return reasons.find(([code]) => code === why)?.[1]() ?? why ?? "";
}
