// What is said of a planting in trouble, and of one whose life is done, a sentence
// for each of the almanac's codes.

import type { Finding } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { locale as appLocale } from "../words/language";
import type { Sign } from "../words/records";
import { shortDay } from "./dates";
import type { About, Say } from "./finding-words";
import { signWord } from "./signs";
import { vigourWord } from "./vigour";

export const troubleSayings: Readonly<Record<string, Say>> = {
  "vigour-failing": ({ day }, { today, locale }) => (day ? m.e_vigour_failing({ day: shortDay(day, today, locale) }) : null),
  "vigour-falling": ({ from, day, count, of, measures }, { today, locale }) => {
    const [was, now] = [vigourWord(of), vigourWord(count)];
    if (!from || !day || !was || !now) return null;
    return m.e_vigour_falling({ count: measures ?? 0, from: shortDay(from, today, locale), day: shortDay(day, today, locale), was, now });
  },
  sign: ({ day, what }, { today, locale }) => (day && what ? m.e_sign({ day: shortDay(day, today, locale), sign: signSeen(what) }) : null),
  "sign-again": ({ from, day, count, what }, { today, locale }) =>
    from && day && count && what ? m.e_sign_again({ count, from: shortDay(from, today, locale), day: shortDay(day, today, locale), sign: signSeen(what) }) : null,
  "half-the-stems": ({ count, of, from, day }, { today, locale }) =>
    count === undefined || of === undefined || !from || !day ? null : m.e_half_the_stems({ count, of, from: shortDay(from, today, locale), day: shortDay(day, today, locale) }),
  lost: ({ count, of, day }, { today, locale }) => (count === undefined || of === undefined || !day ? null : m.e_lost({ count, of, day: shortDay(day, today, locale) })),
  "blind-years": ({ count }) => (count === undefined ? null : m.e_blind_years({ count })),
  "done-after-flower": ({ day, what }, { today, locale }) => (day ? doneWords(shortDay(day, today, locale), what) : null),
  "may-have-sown": () => m.e_may_have_sown(),
  "colony-counted": ({ count, day }, { today, locale }) => (count === undefined || !day ? null : m.e_colony_counted({ count, day: shortDay(day, today, locale) })),
  "colony-counts": ({ count, of, from, day }, { today, locale }) =>
    count === undefined || of === undefined || !from || !day ? null : m.e_colony_counts({ count, of, from: shortDay(from, today, locale), day: shortDay(day, today, locale) }),
};

/** What is the matter, by the first that tells of it: falling vigour, or the signs seen. */
export function troubleHeadline({ worthALook, evidence }: Finding, { locale }: About): string {
  const falling = { "vigour-failing": m.v_failing, "vigour-falling": m.v_losing_vigour }[evidence[0]?.say ?? ""];
  if (falling) return falling();
  const seen = evidence.flatMap(({ say, what }) => (what && (say === "sign" || say === "sign-again") ? [signSeen(what)] : []));
  if (seen.length === 0) return worthALook ? m.v_troubled() : m.v_sign_noted();
  const signs = new Intl.ListFormat(locale ?? appLocale()).format(new Set(seen));
  return worthALook ? m.v_troubled_by({ signs }) : m.v_sign_noted_of({ signs });
}

/** A sign as it was noted; one that the almanac tells apart has its own words. */
function signSeen(what: string): string {
  return what === "wilting-at-dawn" ? m.sign_wilting_at_dawn() : signWord(what as Sign);
}

function doneWords(day: string, lifeCycle: string | undefined): string | null {
  const words: Readonly<Record<string, (inputs: { day: string }) => string>> = { annual: m.e_done_annual, biennial: m.e_done_biennial, monocarpic: m.e_done_monocarpic };
  return words[lifeCycle ?? ""]?.({ day }) ?? null;
}
