// Why each planting is worth a stop of the round now: what a look would settle, as
// the almanac reckons it in bits; what it found, until it has reckoned that; and the
// care that is due.

import type { Finding, WorthCode, WorthReason } from "../almanac/answers";
import type { MarkName } from "../marks/drawings";
import { m } from "../paraglide/messages.js";
import type { Book, Reckoning } from "../state/contract";
import { aboutPlanting, type AboutBook } from "./about-planting";
import { careWord } from "./care-words";
import { shortDay } from "./dates";
import { headline, type Headline, type Tone } from "./finding-words";
import { findingsOf, worthALook } from "./worth";
import { worthWords } from "./worth-words";

/**
 * A reason as it is read; `of`: what it is about. `open`: a look today that told
 * nothing of it leaves it open.
 */
export type Reason = Headline & Readonly<{ of: WorthReason | null; finding: Finding | null; open: boolean }>;

export type Reasons = ReadonlyMap<string, readonly Reason[]>;

type Reckoned = Pick<Reckoning, "assessment" | "worth">;
type Garden = AboutBook & Pick<Book, "planting">;

/** Bits; a look that settles less is hardly worth a stop (what finds 95 % of late plants in time in the simulated gardens of almanac/simulate/skill). */
const LEAST_GAIN = 0.02;

/** By planting, what settles most first; only those that are worth a stop. */
export function reasonsToLook(reckoning: Reckoned, book: Garden): Reasons {
  const reasons = new Map(reckoning.worth ? toSettle(reckoning, book) : found(reckoning, book));
  for (const [planting, care] of due(reckoning, book)) reasons.set(planting, [...(reasons.get(planting) ?? []), care]);
  return reasons;
}

function toSettle({ assessment, worth }: Reckoned, book: Garden): [string, Reason[]][] {
  return [...worth!.values()].flatMap(({ planting: id, gain, reasons }) => {
    const planting = gain < LEAST_GAIN ? null : book.planting(id);
    if (!planting) return [];
    const findings = findingsOf(assessment, id);
    const about = aboutPlanting(book, planting);
    const worded = reasons.flatMap((of): Reason[] => {
      const finding = findingFor(of, findings);
      const read = finding ? headline(finding, about) : unfound(of, about);
      return read && of.gain > 0 ? [{ ...read, of, finding, open: true }] : [];
    });
    return worded.length > 0 ? [[id, worded]] : [];
  });
}

/** The finding that a reason looks into: what the rest of the app calls it, it is called here. */
function findingFor({ code, verdict, flush }: WorthReason, findings: readonly Finding[]): Finding | null {
  return findings.find((one) => one.worthALook && (code === "finding" ? one.verdict === verdict : one.flush !== null && one.flush === flush)) ?? null;
}

const looks: Readonly<Partial<Record<WorthCode, readonly [MarkName, Tone]>>> = {
  "may-have-opened": ["due", "verdigris"], "settles-late": ["unseen", "ochre"], "late-still": ["late", "madder"],
  "may-be-over": ["unseen", "ochre"], "not-seen-up": ["not-up", "ochre"], "height-old": ["short", "soft"],
};

/** A reason of which nothing was found yet. */
function unfound(of: WorthReason, when: Parameters<typeof worthWords>[1]): Headline | null {
  const [look, words] = [looks[of.code], worthWords(of, when)];
  return look && words ? { mark: look[0], tone: look[1], words, rest: "" } : null;
}

function found({ assessment }: Reckoned, book: Garden): [string, Reason[]][] {
  return worthALook(assessment, book).map(({ planting, findings }) => {
    const about = aboutPlanting(book, planting);
    return [planting.id, findings.map((finding) => ({ ...headline(finding, about), of: null, finding, open: finding.verdict === "needs-a-look" }))];
  });
}

function due({ assessment }: Reckoned, book: Garden): [string, Reason][] {
  return (assessment?.tasks ?? []).map(({ planting, care, due: { to } }) => {
    const words = m.care_due_by({ care: careWord(care), day: shortDay(to, book.today) });
    return [planting, { mark: "due", tone: "verdigris", words, rest: "", of: null, finding: null, open: false }];
  });
}
