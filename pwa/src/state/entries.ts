import type { LastLogged } from "../store/held";
import type { Store } from "../store/store";
import { instantHere, onDay } from "../words/days";
import type { ISODay, ISOInstant } from "../words/ids";
import { refOf, type Observation, type RecordKind, type Ref, type RefOf } from "../words/records";
import { newId } from "../words/uuid";
import { Deed, type Pen } from "./acts.svelte";
import type { Act, Draft, Patch } from "./contract";
import type { Shelf } from "./shelf.svelte";
import { openVisit, visitMs } from "./visit";

/** How an entry is tied that a person gave to its planting. */
export const byPerson = { tiedBy: "person", tiedSure: 1 } as const;

export type EntryTools = Readonly<{
  store: Store;
  shelf: Shelf;
  pen: Pen;
  now(): number;
  /** The garden's date while it stands still, else null. */
  fixedDay(): ISODay | null;
  /** This phone's suffix in stamps; "" before the garden was read. */
  suffix(): string;
  /** Resolves when the entries are on the shelf that were made within the last two visits. */
  recent: Promise<void>;
  /** Resolves when all entries are on the shelf. */
  loaded: Promise<void>;
}>;

/** What a person writes about the garden, in words but for pictures. */
export class Entries {
  readonly #tools: EntryTools;
  /** What was logged last on this page; it says something about the next picture. */
  last: LastLogged | null = null;
  /** One after another, so that a second tap finds the first one's observation. */
  #tail: Promise<unknown> = Promise.resolve();

  constructor(tools: EntryTools) {
    this.#tools = tools;
  }

  /** The moment to note for what is seen now: in a garden whose date stands still, that date. */
  seenNow(): ISOInstant {
    return this.seenAt(this.#tools.now());
  }

  seenAt(ms: number): ISOInstant {
    const [at, day] = [instantHere(ms), this.#tools.fixedDay()];
    return day === null ? at : onDay(at, day);
  }

  /** Does work that reads the shelf and then writes, alone. */
  inTurn<T>(work: () => Promise<T>): Promise<T> {
    const turn = this.#tail.then(work, work);
    this.#tail = turn.catch(() => undefined);
    return turn;
  }

  log(planting: string, fields: Patch<"observation">): Promise<Act> {
    return this.inTurn(async () => {
      const seen = this.seenNow();
      this.last = { planting, seen };
      return this.#keep([await this.#look(planting, seen, fields)]);
    });
  }

  /** The same look at several plantings; of the next picture it says nothing. */
  logAll(plantings: readonly string[], fields: Patch<"observation">): Promise<Act> {
    return this.inTurn(async () => {
      const seen = this.seenNow();
      return this.#keep(await Promise.all(plantings.map((planting) => this.#look(planting, seen, fields))));
    });
  }

  write<K extends RecordKind>(ref: RefOf<K>, fields: Patch<K>): Promise<Act> {
    return this.inTurn(() => this.#deed(ref, fields));
  }

  create<K extends RecordKind>(kind: K, fields: Patch<K>): Promise<Act> {
    return this.#deed(this.newRef(kind), fields);
  }

  async remove(ref: Ref): Promise<Act> {
    return new Deed(ref, this.#tools.pen, await this.#tools.pen.write([{ ref, set: {}, gone: true }]));
  }

  together(drafts: readonly Draft[]): Promise<Act> {
    return this.inTurn(async () => new Deed(drafts[0]!.ref, this.#tools.pen, await this.#tools.pen.write(drafts)));
  }

  move(observation: string, planting: string): Promise<Act> {
    return this.write(refOf("observation", observation), { planting, ...byPerson });
  }

  setApart(observation: string): Promise<Act> {
    return this.write(refOf("observation", observation), { planting: null, ...byPerson });
  }

  /** This phone's observation that an entry at `seen` still belongs to, or null. */
  async visit(planting: string, seen: ISOInstant): Promise<Observation | null> {
    await (this.#isOfThisVisit(seen) ? this.#tools.recent : this.#tools.loaded);
    return this.shownVisit(planting, seen);
  }

  /** The same among what is on the shelf so far; reactive. */
  shownVisit(planting: string, seen = this.seenNow()): Observation | null {
    return openVisit(this.#tools.shelf, planting, seen, this.#tools.suffix());
  }

  /** What a look of now belongs to was made within a visit before it: nothing is noted before it is seen. A picture of another day may belong to anything. */
  #isOfThisVisit(seen: ISOInstant): boolean {
    return Date.parse(this.seenNow()) - Date.parse(seen) <= visitMs;
  }

  newRef<K extends RecordKind>(kind: K): RefOf<K> {
    return refOf(kind, newId(this.#tools.now()));
  }

  /** What is to be written of a look: more of the visit that is open, or a new observation. */
  async #look(planting: string, seen: ISOInstant, fields: Patch<"observation">): Promise<Draft> {
    const visit = await this.visit(planting, seen);
    return visit ? { ref: visit.ref, set: fields } : { ref: this.newRef("observation"), set: { planting, seen, ...fields } };
  }

  async #keep(looks: readonly Draft[]): Promise<Act> {
    return new Deed(looks[0]!.ref, this.#tools.pen, await this.#tools.pen.write(looks));
  }

  async #deed(ref: Ref, set: Readonly<Record<string, unknown>>): Promise<Act> {
    return new Deed(ref, this.#tools.pen, await this.#tools.pen.write([{ ref, set }]));
  }
}
