// Work and care in words; the codes are those of the Go package garden.

import { m } from "../paraglide/messages.js";

const done: Readonly<Record<string, () => string>> = {
  prune: m.done_prune, "cut-back": m.done_cut_back, deadhead: m.done_deadhead, feed: m.done_feed, mulch: m.done_mulch, stake: m.done_stake,
  "tie-in": m.done_tie_in, divide: m.done_divide, lift: m.done_lift, protect: m.done_protect, water: m.done_water, plant: m.done_plant,
  planted: m.done_plant, move: m.done_move, moved: m.done_move, divided: m.done_divide, lifted: m.done_lift,
  pruned: m.done_prune, frost: m.done_frost, deer: m.done_deer, rabbit: m.done_rabbit, slug: m.done_slug,
  weed: m.done_weed,
};

/** What was done or befell: "cut back". A word that a person wrote stays as it is. */
export function careDone(what: string): string {
  return done[what]?.() ?? what;
}

const asked: Readonly<Record<string, () => string>> = {
  prune: m.care_prune, "cut-back": m.care_cut_back, deadhead: m.care_deadhead, feed: m.care_feed, mulch: m.care_mulch, stake: m.care_stake,
  "tie-in": m.care_tie_in, divide: m.care_divide, lift: m.care_lift, protect: m.care_protect, water: m.care_water, plant: m.care_plant,
  sow: m.care_sow, "remove-leaves": m.care_remove_leaves, thin: m.care_thin, watch: m.care_watch,
};

/** What is to be done: "Cut back". */
export function careWord(care: string): string {
  return asked[care]?.() ?? care;
}
