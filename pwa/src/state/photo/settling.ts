import type { Moment, Place, Unsettled } from "../../store/held";
import type { Store } from "../../store/store";
import { instantHere } from "../../words/days";
import { idOf, type Observation } from "../../words/records";
import type { Deed, Pen } from "../acts.svelte";
import type { Tied } from "../contract";
import type { Entries } from "../entries";
import type { Shelf } from "../shelf.svelte";
import { factsOf } from "./facts";
import { momentOf } from "./moment";
import { given, type Tying } from "./tying";

export type SettlingTools = Readonly<{
  store: Store;
  shelf: Shelf;
  pen: Pen;
  entries: Entries;
  tying: Tying;
  fixedDay(): string | null;
}>;

/**
 * Finds out when, where and of which planting a picture is. What is open stands
 * in the store, so that a page that was closed in between is no loss: the next
 * one goes on. A picture that lacks only the almanac waits for it.
 */
export class Settling {
  readonly #tools: SettlingTools;
  /** The deeds of this page, so that undoing one takes back what was found out later too. */
  readonly #deeds = new Map<string, Deed>();
  /** Pictures that this page is at. */
  readonly #underWay = new Set<string>();
  #tail: Promise<unknown> = Promise.resolve();

  constructor(tools: SettlingTools) {
    this.#tools = tools;
  }

  /** Settles a picture just taken. Never rejects. */
  async fresh(deed: Deed, row: Unsettled, bytes: ArrayBuffer, place: Promise<Place | null>): Promise<Tied> {
    this.#deeds.set(keyOf(row), deed);
    this.#underWay.add(keyOf(row));
    try {
      return await alone(this.#tools.store, row, async () => {
        const [facts, here] = await Promise.all([factsOf(bytes), place]);
        await this.#tools.store.notePlace(row, here);
        return this.#find({ ...row, here }, momentOf(facts, here, row.fileMs, row.keptMs));
      });
    } catch {
      return { planting: null, sure: 0, by: null, candidates: [], lacking: "almanac" };
    } finally {
      this.#underWay.delete(keyOf(row));
    }
  }

  /** Goes on with everything that is open and that no page is at: one after another, and one run after another. Never rejects. */
  again(): Promise<void> {
    const run = this.#tail.then(() => this.#all()).catch(() => undefined);
    this.#tail = run;
    return run;
  }

  async #all(): Promise<void> {
    for (const row of await this.#tools.store.unsettled()) {
      if (this.#underWay.has(keyOf(row))) continue;
      await alone(this.#tools.store, row, () => this.#goOn(row), true).catch(() => undefined); // this one stays open, the others go on
    }
  }

  async #goOn(row: Unsettled): Promise<void> {
    const original = row.moment ? undefined : await this.#tools.store.bytesOf(row.sha, "original");
    const facts = original ? await factsOf(original.bytes) : { taken: null, place: null };
    await this.#find(row, row.moment ?? momentOf(facts, row.here, row.fileMs, row.keptMs));
  }

  async #find(row: Unsettled, moment: Moment): Promise<Tied> {
    const tied = row.given !== null ? given(row.given) : await this.#tools.tying.tie(this.#asSeen(moment, row), row.last);
    await this.#tools.entries.inTurn(() => this.#note(row, moment, tied));
    return tied;
  }

  /** In a garden whose date stands still, a picture of now belongs to that date. */
  #asSeen(moment: Moment, { keptMs }: Unsettled): Moment {
    return moment.taken === instantHere(keptMs) ? { ...moment, taken: this.#tools.entries.seenAt(keptMs) } : moment;
  }

  /** Adds place, time and planting, unless a person has been quicker. */
  async #note(row: Unsettled, moment: Moment, tied: Tied): Promise<void> {
    const { shelf, pen } = this.#tools;
    const entry = shelf.one("observation", idOf(row.ref));
    const there = entry?.photos?.includes(row.sha);
    const untold = there && entry!.planting === undefined && entry!.tiedBy === undefined;
    const open = untold && tied.lacking === "almanac";
    const set = there ? { ...this.#facts(row, moment, entry!), ...(untold && tieOf(tied)) } : {};
    const drafts = Object.keys(set).length > 0 ? [{ ref: row.ref, set }] : [];
    const written = await pen.settlePicture(drafts, { row, left: open ? { ...row, moment } : null });
    this.#deeds.get(keyOf(row))?.also(written);
    if (!open) this.#deeds.delete(keyOf(row));
  }

  /** The place of an entry's first picture and, where it is older and alone, its time; once. */
  #facts(row: Unsettled, { taken, place }: Moment, { photos, lat }: Observation): Readonly<Record<string, unknown>> {
    if (row.moment) return {};
    const older = taken !== instantHere(row.keptMs) && this.#tools.fixedDay() === null && photos!.length === 1;
    return { ...(lat === undefined && place), ...(older && { seen: taken }) };
  }
}

function tieOf({ planting, by, sure }: Tied): Readonly<Record<string, unknown>> {
  return planting === null ? {} : { planting, tiedBy: by, tiedSure: sure };
}

function keyOf({ sha, ref }: Unsettled): string {
  return `${sha} ${ref}`;
}

/** Works at a picture while no other tab does. `ifFree`: not at all when one is at it. */
async function alone<T>(store: Store, row: Unsettled, work: () => Promise<T>, ifFree = false): Promise<T> {
  const locks = globalThis.navigator?.locks;
  if (!locks) return work();
  return locks.request(`haulm-photo-${store.garden}-${keyOf(row)}`, { ifAvailable: ifFree }, (lock) => (lock ? work() : (undefined as T)));
}
