// Who wrote an entry, in a word that a person knows.

import type { Session } from "../state/contract";

const MEMBER_ID = /^[0-9a-f]{8}-[0-9a-f-]{27}$/u;

type Names = (by: string) => string | null;

/**
 * The writer's name: what `names` knows, or the word itself where it is a name
 * already; "" for oneself and for a member whose name is not on this phone.
 */
export function writerName(by: string | undefined, { member }: Pick<Session, "member">, names?: Names): string {
  if (!by || by === member) return "";
  return names?.(by) ?? (MEMBER_ID.test(by) ? "" : by);
}
