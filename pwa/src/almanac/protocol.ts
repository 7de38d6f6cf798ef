/** What page and worker say to each other. Questions are answered in the order asked. */
import type { Ref } from "../words/records";

/** A record as the almanac takes it. */
export type AlmanacRecord = Readonly<{ record: Ref; fields: Readonly<Record<string, unknown>> }>;

export type Question =
  | Readonly<{ id: number; act: "upsert"; records: readonly AlmanacRecord[] }>
  | Readonly<{ id: number; act: "forget"; refs: readonly Ref[] }>
  | Readonly<{ id: number; act: "ask"; verb: string; question: unknown }>;

/** To a question: the answer, or the almanac's sentence about why there is none. */
export type Reply = Readonly<{ id: number; answer: unknown }> | Readonly<{ id: number; error: string }>;

/** Before any reply the worker says once whether it started. */
export type Started = Readonly<{ started: true } | { started: false; error: string }>;
