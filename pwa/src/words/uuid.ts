import { v7 } from "uuid";
import type { Uuid } from "./ids";

/** A UUID of version 7 (RFC 9562): made here, unique everywhere, sorting by the time it was made. */
export function newId(nowMs: number): Uuid {
  return v7({ msecs: nowMs });
}
