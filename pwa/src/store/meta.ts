import type { ClockState } from "../words/clock";
import type { Cursor, ISODay, ISOInstant } from "../words/ids";
import type { GardenDatabase } from "./database";

/**
 * The almanac's last answer as it gave it and, where it got so far, what it said that
 * each look is worth, with the app that it was given to: another may read other answers.
 */
export type KeptAssessment = Readonly<{ app: string; answer: unknown; worth?: unknown }>;

/** Where a round was left, and on which day of the garden; it goes to no server. */
export type HeldRound = Readonly<{ day: ISODay; at: string; askedOnly: boolean; asked: readonly string[] }>;

/** The single values of a garden's store, by name. */
export interface Meta {
  /** How far the feed was read. */
  cursor: Cursor;
  clock: ClockState;
  /** This phone's suffix in stamps. */
  suffix: string;
  /** Sum of the marks of all live records, see digest.ts. */
  digest: string;
  /** When phone and server last agreed. */
  agreed: ISOInstant;
  /** Originals may go over any link. */
  anyLink: boolean;
  assessed: KeptAssessment;
  round: HeldRound;
}

/** The value, or undefined when it was never put. Takes part in a transaction that runs. */
export function readMeta<K extends keyof Meta>(db: GardenDatabase, name: K): Promise<Meta[K] | undefined> {
  return db.meta.get(name) as Promise<Meta[K] | undefined>;
}

/** Puts a value; as part of a transaction when one runs. */
export async function putMeta<K extends keyof Meta>(db: GardenDatabase, name: K, value: Meta[K]): Promise<void> {
  await db.meta.put(value, name);
}
