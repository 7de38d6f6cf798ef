import { dayIn } from "../words/days";
import type { ISODay } from "../words/ids";
import type { Bed, Garden, Kind, Observation, Planting, Structure } from "../words/records";
import type { Photo } from "./contract";
import { byPerson } from "./entries";
import type { Shelf } from "./shelf.svelte";

/** The garden as screens list it: derived from the shelf, the catalogue and the date. */
export class Views {
  readonly #shelf: Shelf;
  readonly #nowMs: () => number;
  catalogue = $state.raw<ReadonlyMap<string, Kind>>(new Map());

  readonly garden: Garden | null = $derived.by(() => this.#shelf.all("garden")[0] ?? null);
  readonly today: ISODay = $derived.by(() => this.garden?.clock ?? dayIn(this.garden?.timeZone, this.#nowMs()));
  readonly clockFixed: boolean = $derived(this.garden?.clock !== undefined);
  readonly beds: readonly Bed[] = $derived.by(() => this.#shelf.all("bed").sort(byOrder));
  readonly structures: readonly Structure[] = $derived.by(() => this.#shelf.all("structure").sort(byId));
  readonly plantings: readonly Planting[] = $derived.by(() => this.#inRound());
  readonly untied: readonly Observation[] = $derived.by(() => this.#shelf.observations().filter((one) => hasPhoto(one) && !setApart(one)));
  readonly apart: readonly Observation[] = $derived.by(() => this.#shelf.observations().filter((one) => hasPhoto(one) && setApart(one)));

  constructor(shelf: Shelf, nowMs: () => number) {
    this.#shelf = shelf;
    this.#nowMs = nowMs;
  }

  kind(id: string | undefined): Kind | null {
    if (id === undefined) return null;
    const [own, known] = [this.#shelf.one("kind", id), this.catalogue.get(id)];
    return own && known ? { ...known, ...own } : (own ?? known ?? null);
  }

  cameOf(planting: string): readonly Planting[] {
    const came = this.#shelf.all("planting").filter(({ from }) => from?.planting === planting);
    return came.sort((a, b) => compare(a.planted ?? "", b.planted ?? "") || byId(a, b));
  }

  photosOf(planting: string): readonly Photo[] {
    return this.#shelf.observations(planting).flatMap(({ id, seen, photos }) =>
      [...(photos ?? [])].reverse().map((sha) => ({ sha, seen: seen ?? "", observation: id })));
  }

  /** Living plantings, bed by bed in walking order and from west to east within a bed. */
  #inRound(): Planting[] {
    const place = new Map(this.beds.map((bed, i) => [bed.id, i]));
    const bedPlace = (planting: Planting) => place.get(planting.bed ?? "") ?? place.size;
    const east = (planting: Planting) => planting.at?.[0] ?? planting.area?.[0]?.[0] ?? Number.POSITIVE_INFINITY;
    const living = this.#shelf.all("planting").filter((planting) => planting.ended === undefined);
    return living.sort((a, b) => bedPlace(a) - bedPlace(b) || compare(east(a), east(b)) || byId(a, b));
  }
}

function hasPhoto(observation: Observation): boolean {
  return (observation.photos?.length ?? 0) > 0;
}

/** Of one without a planting: a person said that it has none. */
function setApart({ tiedBy }: Observation): boolean {
  return tiedBy === byPerson.tiedBy;
}

function byOrder(a: Bed, b: Bed): number {
  return compare(a.order ?? Number.POSITIVE_INFINITY, b.order ?? Number.POSITIVE_INFINITY) || byId(a, b);
}

function byId(a: { id: string }, b: { id: string }): number {
  return compare(a.id, b.id);
}

function compare<T extends string | number>(a: T, b: T): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
