// The questions worth answering at a stop of the round, and why: first what would
// settle most of what is open about this planting now.

import type { Finding, Verdict, WorthCode } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { locale } from "../words/language";
import type { Reason } from "./reasons";
import { evidenceWords, headline, headlineText, type About } from "./finding-words";

/** The row of a look that answers a question; whether it is up is asked with its flower. */
export type Row = "flower" | "height" | "vigour";

/** `flush`: the one that it asks about; null where it is not about flower. */
export type Question = Readonly<{ ask: string; why: string; row: Row; flush: Readonly<{ year: number; flush: number }> | null }>;

const asks: Readonly<Partial<Record<Verdict, () => string>>> = {
  late: m.q_in_flower, "later-than-the-book": m.q_in_flower, due: m.q_opened, "needs-a-look": m.q_in_flower, "no-flower-seen": m.q_any_flower,
  "not-up": m.q_up, "small-for-age": m.q_height, stalled: m.q_height, outgrown: m.q_room, "far-early": m.q_label,
  "frost-below-minimum": m.q_alive, troubled: m.vigour, crowded: m.q_room, dry: m.q_dry,
};

const asksUnfound: Readonly<Partial<Record<WorthCode, () => string>>> = {
  "may-have-opened": m.q_opened, "settles-late": m.q_in_flower, "late-still": m.q_in_flower, "may-be-over": m.q_any_flower,
  "not-seen-up": m.q_up, "height-old": m.q_height,
};

/** What is not of flower, by the row that answers it. */
const rows: Readonly<Partial<Record<Verdict, Row>>> = {
  "small-for-age": "height", stalled: "height", outgrown: "height",
  "frost-below-minimum": "vigour", troubled: "vigour", crowded: "vigour", dry: "vigour",
};

/** Settles before the rest, first to last: what is open, then what is odd. */
const order: readonly Verdict[] = [
  "not-up", "needs-a-look", "late", "later-than-the-book", "far-early", "no-flower-seen", "frost-below-minimum", "dry", "troubled", "stalled", "small-for-age", "due", "crowded", "outgrown",
];

/** The question for a planting's findings, or null when nothing is open. */
export function question(findings: readonly Finding[], about: About): Question | null {
  const first = order.flatMap((verdict) => findings.filter((finding) => finding.verdict === verdict))[0];
  const ask = first && asks[first.verdict];
  if (!ask) return null;
  const why = [sentence(headlineText(headline(first, about))), ...evidenceWords(first, about)].slice(0, 2).join(" ");
  return { ask: (closing(first) ?? ask)(), why, row: rows[first.verdict] ?? "flower", flush: flushOf(first) };
}

/** All questions at a stop by what settles most, each once; without a reason to look the one that its findings leave. */
export function questions(reasons: readonly Reason[], findings: readonly Finding[], about: About): readonly Question[] {
  const asked = reasons.flatMap((reason) => (reason.finding ? question([reason.finding], about) : unfound(reason, findings, about)) ?? []);
  const fallback = asked.length > 0 ? null : question(findings, about);
  return fallback ? [fallback] : asked.filter(({ ask }, i) => asked.findIndex((other) => other.ask === ask) === i);
}

/** Of what nothing was found yet, and of care that is due. */
function unfound({ of, words }: Reason, findings: readonly Finding[], about: About): Question {
  const ask = of && asksUnfound[of.code];
  if (!ask) return { ask: sentence(words), why: "", row: "flower", flush: null };
  const flower = findings.find(({ flush }) => flush !== null && flush === of.flush);
  const expected = flower ? evidenceWords({ ...flower, evidence: flower.evidence.filter(({ say }) => say === "expected-open") }, about) : [];
  return { ask: ask(), why: [sentence(words), ...expected].join(" "), row: of.code === "height-old" ? "height" : "flower", flush: flower ? flushOf(flower) : null };
}

function flushOf({ year, flush }: Finding): Question["flush"] {
  return flush === null ? null : { year, flush };
}

/** What is left to ask once its flower cannot be seen any more, or was seen over. */
function closing({ verdict, evidence }: Finding): (() => string) | null {
  const facts = new Set(evidence.map(({ say }) => say));
  if (facts.has("too-late-to-tell")) return m.q_any_flower;
  return facts.has("over-by") && asks[verdict] === m.q_in_flower ? m.q_held_back : null;
}

function sentence(words: string): string {
  return `${words.charAt(0).toLocaleUpperCase(locale())}${words.slice(1)}.`;
}
