// Why a look at a planting is worth while, in the words that a person reads. The
// almanac gives codes and numbers (WorthReason); every sentence is in messages/.

import type { WorthCode, WorthReason } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import type { ISODay } from "../words/ids";
import { shortDay } from "./dates";

/** What the wording needs to know beside the reason; the locale is the phone's own when left out. */
export type When = Readonly<{ today: ISODay; locale?: string }>;

type Sentence = Readonly<{ since: (inputs: { day: string }) => string; never: () => string }>;

/** For each code a sentence with the day that it names, and one for when there was none. */
const sentences: Readonly<Record<WorthCode, Sentence>> = {
  "may-have-opened": { since: m.w_may_have_opened, never: m.w_may_have_opened_unseen },
  "settles-late": { since: m.w_settles_late, never: m.w_settles_late_unseen },
  "late-still": { since: m.w_late_still, never: m.w_late_still_unseen },
  "may-be-over": { since: m.w_may_be_over, never: m.w_may_be_over_unseen },
  "not-seen-up": { since: m.w_not_seen_up_since, never: m.w_not_seen_up },
  "height-old": { since: m.w_height_old, never: m.w_height_never },
  finding: { since: m.w_finding, never: m.w_finding_unseen },
  asleep: { since: m.w_asleep, never: m.v_dormant },
};

/** "its flower may have opened since 4 July"; null for a code that this version has no words for. */
export function worthWords({ code, day }: WorthReason, { today, locale }: When): string | null {
  const sentence = sentences[code] as Sentence | undefined;
  if (!sentence) return null;
  return day ? sentence.since({ day: shortDay(day, today, locale) }) : sentence.never();
}
