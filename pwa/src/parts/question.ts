// The one question worth answering at a stop of the round, and why: what would
// settle most of what is open about this planting now.

import type { Finding, Verdict } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { evidenceWords, headline, headlineText, type About } from "./finding-words";

export type Question = Readonly<{ ask: string; why: string; finding: Finding }>;

const asks: Readonly<Partial<Record<Verdict, () => string>>> = {
  late: m.q_in_flower, "later-than-the-book": m.q_in_flower, due: m.q_opened, "needs-a-look": m.q_in_flower, "no-flower-seen": m.q_any_flower,
  "not-up": m.q_up, "small-for-age": m.q_height, stalled: m.q_height, outgrown: m.q_room, dormant: m.q_asleep, "far-early": m.q_in_flower,
  "frost-below-minimum": m.q_alive, troubled: m.vigour, crowded: m.q_room,
};

/** Settles before the rest, first to last: what is open, then what is odd. */
const order: readonly Verdict[] = [
  "not-up", "needs-a-look", "late", "later-than-the-book", "far-early", "no-flower-seen", "frost-below-minimum", "troubled", "stalled", "small-for-age", "due", "crowded", "outgrown", "dormant",
];

/** The question for a planting's findings, or null when nothing is open. */
export function question(findings: readonly Finding[], about: About): Question | null {
  const first = order.flatMap((verdict) => findings.filter((finding) => finding.verdict === verdict))[0];
  const ask = first && asks[first.verdict];
  if (!ask) return null;
  const tooLate = first.evidence.some(({ say }) => say === "too-late-to-tell");
  return { ask: tooLate ? m.q_any_flower() : ask(), why: [sentence(headlineText(headline(first, about))), ...evidenceWords(first, about)].slice(0, 2).join(" "), finding: first };
}

function sentence(words: string): string {
  return `${words.charAt(0).toLocaleUpperCase()}${words.slice(1)}.`;
}
