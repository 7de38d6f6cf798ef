// Signs of trouble in words; the codes are those of the Go package garden.

import { m } from "../paraglide/messages.js";
import type { Sign } from "../words/records";

const words: Readonly<Record<Sign, () => string>> = {
  wilting: m.sign_wilting, drought: m.sign_drought, waterlogging: m.sign_waterlogging, frost: m.sign_frost, scorch: m.sign_scorch,
  dieback: m.sign_dieback, "dead-centre": m.sign_dead_centre, "wind-rock": m.sign_wind_rock, slug: m.sign_slug, aphid: m.sign_aphid, "vine-weevil": m.sign_vine_weevil,
  deer: m.sign_deer, rabbit: m.sign_rabbit, mildew: m.sign_mildew, rust: m.sign_rust, "black-spot": m.sign_black_spot,
  sucker: m.sign_sucker, reversion: m.sign_reversion, other: m.sign_other,
};

/** In the order that a person looks: the whole plant, what ate it, what grows on it, what it throws. */
export const signs = Object.keys(words) as readonly Sign[];

export function signWord(sign: Sign): string {
  return words[sign]?.() ?? sign;
}
