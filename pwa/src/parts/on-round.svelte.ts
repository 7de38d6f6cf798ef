import type { Haulm } from "../state/contract";
import type { ISOInstant } from "../words/ids";
import { dayOf } from "./dates";
import { bedsOnRound, goOnAt, type BedOnRound } from "./round";
import { nextStop, stopsOf, type Stop } from "./walk";
import { reasonsToLook, type Reasons } from "./reasons";

/** The how-manyth stop of those in its bed or, on a round of what is asked alone, of the round. */
export type Place = Readonly<{ place: number; all: number }>;

/** The round as its screens see it: the stops in walking order, which are asked for and why, and which are done. */
export class OnRound {
  readonly #haulm: Pick<Haulm, "book" | "reckoning">;
  readonly stops: readonly Stop[] = $derived.by(() => stopsOf(this.#haulm.book.plantings, (id) => this.#haulm.book.bed(id)));
  /** Why a planting is worth a look now, by its id; only those that are. */
  readonly reasons: Reasons = $derived.by(() => reasonsToLook(this.#haulm.reckoning, this.#haulm.book));
  /** Asked for: worth a look now, or when the round began. */
  readonly asked: ReadonlySet<string> = $derived.by(() => new Set([...(this.#haulm.book.round?.asked ?? []), ...this.reasons.keys()]));

  readonly beds: readonly BedOnRound[] = $derived.by(() => bedsOnRound(this.stops, this.asked));

  /** Made while a component is made. */
  constructor(haulm: Pick<Haulm, "book" | "reckoning">) {
    this.#haulm = haulm;
  }

  /** When someone looked at it today, or null. */
  lookedAt(planting: string): ISOInstant | null {
    const looked = this.#haulm.book.lastLook(planting);
    return looked && dayOf(looked) === this.#haulm.book.today ? looked : null;
  }

  /** Whether a stop is still to be made: not looked at today and, on a round of what is asked alone, asked for. */
  toMake(stop: Stop, askedOnly: boolean): boolean {
    return this.lookedAt(stop.planting.id) === null && (!askedOnly || this.asked.has(stop.planting.id));
  }

  next(planting: string, askedOnly: boolean): Stop | null {
    return nextStop(this.stops, planting, (stop) => this.toMake(stop, askedOnly));
  }

  /** Where a planting stands among the stops of its bed, or of all that are asked for; null when it is none. */
  placeOf(planting: string, askedOnly: boolean): Place | null {
    const stop = this.stops.find((one) => one.planting.id === planting);
    if (!stop || !askedOnly) return stop ? { place: stop.place, all: stop.inBed } : null;
    const asked = this.stops.filter((one) => this.asked.has(one.planting.id));
    return asked.includes(stop) ? { place: asked.indexOf(stop) + 1, all: asked.length } : null;
  }

  /** What is left of the bed of a planting beside itself: not asked for, and not looked at today. */
  left(planting: string): readonly Stop[] {
    const stop = this.stops.find((one) => one.planting.id === planting);
    return (stop ? (this.#bedOf(stop)?.rest ?? []) : []).filter((one) => one !== stop && this.lookedAt(one.planting.id) === null);
  }

  #bedOf(stop: Stop): BedOnRound | undefined {
    return this.beds.find(({ bed }) => bed?.id === stop.bed?.id);
  }

  /** The first stop of a round that begins now. */
  first(askedOnly: boolean): Stop | null {
    return this.stops.find((stop) => this.toMake(stop, askedOnly)) ?? null;
  }

  /** Where the round under way goes on, or null when there is none, or nothing left of it. */
  get onward(): Stop | null {
    const { round } = this.#haulm.book;
    return round && goOnAt(this.stops, round, (stop) => this.toMake(stop, round.askedOnly));
  }

  /** Begins a round, or moves the one under way on to a stop; the phone keeps it. */
  async walkTo(planting: string, askedOnly: boolean): Promise<void> {
    try {
      await this.#haulm.book.keepRound({ at: planting, askedOnly, asked: [...this.asked] });
    } catch {
      // The place in the round is a convenience; what is noted says by itself when it could not be kept.
    }
  }
}
