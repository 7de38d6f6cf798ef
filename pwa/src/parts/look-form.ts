// What the rows of a look's form share.

import type { Act, Patch } from "../state/contract";
import type { Observation } from "../words/records";

/** Fields of an observation to set; null clears one. */
export type LookPatch = Patch<"observation">;

/** Saves some fields of the look that the form is about. */
export type SaveLook = (fields: LookPatch) => Promise<Act>;

/** What the look says so far; null before anything was noted. */
export type Look = Observation | null;
