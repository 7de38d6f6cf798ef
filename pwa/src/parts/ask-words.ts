// What went wrong with something that is asked once and not tried again by itself.

import { m } from "../paraglide/messages.js";
import { TroubleError, troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

/** By the server's code, what it says better than the status does. */
const answers: Readonly<Record<string, () => string>> = {
  join_code_unknown: m.join_code_unknown, join_code_expired: m.join_code_expired, join_code_used: m.join_code_used,
  join_code_withdrawn: m.join_code_withdrawn,
  not_a_saved_file: m.file_not_saved, bad_manifest: m.file_not_saved, newer_file: m.file_newer, other_garden: m.file_other_garden,
  no_such_address: m.t_server_older, import_running: m.file_running,
};

/** The sentence for what an asking threw: a code that does not open, a file that is none, no signal, or the trouble as it is. */
export function askWords(thrown: unknown): string {
  const trouble = troubleOf(thrown);
  const { code } = ((thrown instanceof TroubleError && thrown.said) || {}) as { code?: string };
  if (trouble.code === "no-answer") return m.t_needs_signal();
  return answers[code ?? ""]?.() ?? troubleWords(trouble);
}
