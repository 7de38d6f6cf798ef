// Work and care in words; the codes are those of the Go package garden.

import { m } from "../paraglide/messages.js";

const done: Readonly<Record<string, () => string>> = {
  prune: m.done_prune, "cut-back": m.done_cut_back, deadhead: m.done_deadhead, feed: m.done_feed, mulch: m.done_mulch, stake: m.done_stake,
  "tie-in": m.done_tie_in, divide: m.done_divide, lift: m.done_lift, protect: m.done_protect, water: m.done_water, plant: m.done_plant,
  move: m.done_move, moved: m.done_move, divided: m.done_divide, frost: m.done_frost, deer: m.done_deer, rabbit: m.done_rabbit, slug: m.done_slug,
};

/** What was done or befell: "cut back". A word that a person wrote stays as it is. */
export function careDone(what: string): string {
  return done[what]?.() ?? what;
}
