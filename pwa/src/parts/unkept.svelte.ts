import { createContext } from "svelte";
import { m } from "../paraglide/messages.js";
import type { Act, Haulm } from "../state/contract";
import type { Planting } from "../words/records";
import { troubleOf } from "../words/trouble";
import { nameOf } from "./about-planting";
import { plainName } from "./plant-name";
import type { Saved } from "./saved.svelte";
import { troubleWords } from "./sending-words";

/** What a person said or typed, and how it is stored. */
export type Said = Readonly<{
  /** "Note, Iris sibirica". */
  what: string;
  /** As it was typed; "" of a sound. */
  text: string;
  garden: string | null;
  store: () => Promise<Act>;
}>;

/** What it is and of which planting, as it is told where that no longer shows. */
export function saidOf({ book, session }: Pick<Haulm, "book" | "session">, what: string, planting: Planting | null): Pick<Said, "what" | "garden"> {
  return { what: planting ? m.dot({ one: what, other: plainName(nameOf(book, planting)) }) : what, garden: session.garden };
}

export type Untold = Readonly<{ said: Said; why: string }>;

/** What could not be stored and whose screen was left: told on every screen of its garden until it is stored or given up. */
export class Unkept {
  #all: readonly Untold[] = $state.raw([]);

  of(garden: string | null): readonly Untold[] {
    return this.#all.filter(({ said }) => said.garden === garden);
  }

  take(...untold: readonly Untold[]): void {
    this.#all = [...this.#all, ...untold];
  }

  /** Whether it is stored now; else the reason is told anew. */
  async again({ said }: Untold): Promise<boolean> {
    try {
      await said.store();
      this.drop(said);
      return true;
    } catch (error) {
      const why = troubleWords(troubleOf(error));
      this.#all = this.#all.map((one) => (one.said === said ? { said, why } : one));
      return false;
    }
  }

  drop(said: Said): void {
    this.#all = this.#all.filter((one) => one.said !== said);
  }
}

/** One row's words or sounds: what could not be stored is held, offered again there, and passed to `unkept` once the row is left. */
export class Holding {
  readonly #saved: Saved;
  readonly #unkept: Unkept;
  #held: readonly Untold[] = [];
  #left = false;

  constructor(saved: Saved, unkept: Unkept) {
    this.#saved = saved;
    this.#unkept = unkept;
  }

  /** Whether it was stored. */
  async keep(said: Said): Promise<boolean> {
    const act = await this.#saved.keep(said.store(), () => this.#again());
    if (act) this.#again(); // there is room again for what waited
    else this.#hold({ said, why: this.#saved.failed });
    return act !== null;
  }

  /** What waits is superseded. */
  drop(): void {
    this.#held = [];
  }

  leave(): void {
    this.#left = true;
    this.#unkept.take(...this.#held);
    this.drop();
  }

  #hold(untold: Untold): void {
    if (this.#left) this.#unkept.take(untold);
    else this.#held = [...this.#held, untold];
  }

  #again(): void {
    const held = this.#held;
    this.drop();
    for (const { said } of held) void this.keep(said);
  }
}

export const [useUnkept, provideUnkept] = createContext<Unkept>();
