import { v7 } from "uuid";
import type { Uuid } from "./ids";

/** A UUID of version 7 (RFC 9562): made here, unique everywhere, sorting by the time it was made. */
export function newId(nowMs: number): Uuid {
  return v7({ msecs: nowMs });
}

/** What all ids made from a moment on sort behind: their first 48 bits are the milliseconds (RFC 9562, 5.7). */
export function idsFrom(ms: number): string {
  const hex = Math.max(0, Math.floor(ms)).toString(16).padStart(12, "0");
  return `${hex.slice(0, 8)}-${hex.slice(8)}`;
}
