// What went wrong with something that is asked once and not tried again by itself.

import { m } from "../paraglide/messages.js";
import { TroubleError, troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

const joinings: Readonly<Record<string, () => string>> = {
  join_code_unknown: m.join_code_unknown, join_code_expired: m.join_code_expired, join_code_used: m.join_code_used,
  join_code_withdrawn: m.join_code_withdrawn,
};

/** The sentence for what an asking threw: a code that does not open, no signal, or the trouble as it is. */
export function askWords(thrown: unknown): string {
  const trouble = troubleOf(thrown);
  const { code } = ((thrown instanceof TroubleError && thrown.said) || {}) as { code?: string };
  if (trouble.code === "no-answer") return m.t_needs_signal();
  return joinings[code ?? ""]?.() ?? troubleWords(trouble);
}
