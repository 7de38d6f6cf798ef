/** Finding whose a picture is, by the almanac when it is on this phone. */
import type { TieAnswer, TieQuestion } from "../../almanac/tie";
import type { LastLogged, Moment } from "../../store/held";
import { flowerOpen } from "../../words/flower";
import type { ISOInstant } from "../../words/ids";
import type { Planting } from "../../words/records";
import type { Tied } from "../contract";
import type { Shelf } from "../shelf.svelte";
import type { Views } from "../views.svelte";

export type Ask = (question: TieQuestion) => Promise<TieAnswer>;

/** An entry older than this says nothing about the next picture, milliseconds. */
const lastCountsMs = 30 * 60_000;

/** A look at flower counts as "in flower now" for this long, milliseconds: a short flush lasts two weeks. */
const flowerCountsMs = 14 * 86_400_000;

export class Tying {
  readonly #shelf: Shelf;
  readonly #views: Views;
  readonly #ask: Ask;

  constructor(shelf: Shelf, views: Views, ask: Ask) {
    this.#shelf = shelf;
    this.#views = views;
    this.#ask = ask;
  }

  /**
   * Whose a picture may be. While the almanac is not there the planting logged
   * last is all that is offered, and nothing is tied. Never rejects.
   */
  async tie(moment: Moment, last: LastLogged | null): Promise<Tied> {
    const near = last && counts(last, moment.taken) ? last : null;
    try {
      return fromAnswer(await this.#ask(this.#question(moment, near)));
    } catch {
      const candidates = near ? [{ planting: near.planting, probability: null }] : [];
      return { planting: null, sure: 0, by: null, candidates, lacking: "almanac" };
    }
  }

  #question({ taken, place }: Moment, last: LastLogged | null): TieQuestion {
    const { planOrigin, planBearingDeg } = this.#views.garden ?? {};
    return {
      photo: { ...place, seen: taken, ...(last && { lastPlanting: last.planting, lastSeen: last.seen }) },
      garden: { ...(planOrigin && { planOrigin }), ...(planBearingDeg !== undefined && { planBearingDeg }) },
      plantings: this.#views.plantings.map((planting) => this.#standing(planting, taken)),
    };
  }

  #standing({ id, at, area }: Planting, taken: ISOInstant): TieQuestion["plantings"][number] {
    const look = this.#shelf.observations(id).find(({ stage }) => stage !== undefined);
    const age = Date.parse(taken) - Date.parse(look?.seen ?? "");
    const inFlower = age >= 0 && age <= flowerCountsMs && flowerOpen(look!.stage);
    return { id, ...(at && { at }), ...(area && { area }), ...(inFlower && { inFlower }) };
  }
}

/** A picture whose planting the person had chosen. */
export function given(planting: string): Tied {
  return { planting, sure: 1, by: "person", candidates: [], lacking: null };
}

function fromAnswer({ tied, sure, lacking, candidates }: TieAnswer): Tied {
  return {
    planting: tied,
    sure,
    by: tied === null ? null : "place",
    candidates: candidates.map(({ planting, probability, distanceM }) =>
      ({ planting, probability, ...(distanceM !== null && { distanceM }) })),
    lacking: lacking === "" ? null : lacking,
  };
}

function counts(last: LastLogged, taken: ISOInstant): boolean {
  const age = Date.parse(taken) - Date.parse(last.seen);
  return age >= 0 && age <= lastCountsMs;
}
