// The one question worth answering at a stop of the round, and why: what would
// settle most of what is open about this planting now.

import type { Finding, Verdict } from "../almanac/answers";
import { m } from "../paraglide/messages.js";
import { locale } from "../words/language";
import { evidenceWords, headline, headlineText, type About } from "./finding-words";

export type Question = Readonly<{ ask: string; why: string; finding: Finding }>;

const asks: Readonly<Partial<Record<Verdict, () => string>>> = {
  late: m.q_in_flower, "later-than-the-book": m.q_in_flower, due: m.q_opened, "needs-a-look": m.q_in_flower, "no-flower-seen": m.q_any_flower,
  "not-up": m.q_up, "small-for-age": m.q_height, stalled: m.q_height, outgrown: m.q_room, "far-early": m.q_label,
  "frost-below-minimum": m.q_alive, troubled: m.vigour, crowded: m.q_room, dry: m.q_dry,
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
  return { ask: (closing(first) ?? ask)(), why: [sentence(headlineText(headline(first, about))), ...evidenceWords(first, about)].slice(0, 2).join(" "), finding: first };
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
