/** Brings what was written here to the server, and the server's feed here, until both hold the same. */
import type { Answer } from "../store/feed";
import type { HeldChange } from "../store/held";
import type { Store } from "../store/store";
import { TroubleError, type TroubleCode } from "../words/trouble";
import { compare } from "./agreement";
import type { Server } from "./server";

/** The most changes in a request, and their size in characters: an entry of the server's journal is at most 1 MB. */
const mostChanges = 500;
const mostCharacters = 512 * 1024;

/** Answers that may be the fault of one change among many. */
const perhapsOneChange: ReadonlySet<TroubleCode> = new Set(["too-large", "not-understood"]);

export class Notes {
  readonly #store: Store;
  readonly #server: Server;
  #limit = mostChanges;
  /** The digest was added up from the records once since the page was opened. */
  #counted = false;
  /** This run began the feed again. */
  #begun = false;

  constructor(store: Store, server: Server) {
    this.#store = store;
    this.#server = server;
  }

  /** One run: everything that waits goes, everything new comes. Rejects with a TroubleError. */
  async run(): Promise<void> {
    this.#begun = false;
    let answer: Answer | null;
    do answer = await this.#exchange();
    while (!answer || answer.more || (await this.#store.waiting()).length > 0);
    await this.#store.dropOrphans();
    if (!this.#counted) await this.#store.recount();
    this.#counted = true;
    await compare(this.#store, this.#server, answer.digest);
  }

  /** One request. Null when it has to be asked again in another way. */
  async #exchange(): Promise<Answer | null> {
    const batch = await this.#store.take(this.#limit, mostCharacters);
    const cursor = (await this.#store.meta("cursor")) ?? "";
    try {
      const answer = await this.#server.sync(cursor, batch);
      await this.#store.settle(complete(answer, batch));
      this.#limit = Math.min(mostChanges, this.#limit * 2);
      return answer;
    } catch (thrown) {
      await this.#cope(thrown, batch);
      return null;
    }
  }

  /** A server is restored once, and not again while it is asked. */
  async #beginAgain(said: unknown): Promise<void> {
    const fork = forkIn(said);
    if (fork === null || this.#begun) throw new TroubleError("not-haulm");
    this.#begun = true;
    await this.#store.beginAgain(fork);
  }

  /** Throws on what only time or a person mends. */
  async #cope(thrown: unknown, batch: readonly HeldChange[]): Promise<void> {
    if (!(thrown instanceof TroubleError)) throw thrown;
    if (thrown.status === 409) return this.#beginAgain(thrown.said);
    if (!perhapsOneChange.has(thrown.trouble.code) || batch.length === 0) throw thrown;
    if (batch.length === 1) await this.#store.refuse(batch[0]!, thrown.trouble.code, thrown.trouble.detail ?? "");
    else this.#limit = Math.ceil(batch.length / 2);
  }
}

/** A change that an answer passes over would be sent for ever: the answer is not one that Haulm gives. */
function complete(answer: Answer, batch: readonly HeldChange[]): Answer {
  const spoken = new Set([...answer.applied, ...answer.refused].map(({ id }) => id));
  if (batch.some((change) => !spoken.has(change.id))) throw new TroubleError("not-haulm");
  return answer;
}

/** The last sequence that a restored server shares with the feed that this phone had read, 0 when it does not say; null where it was not Haulm that spoke. */
function forkIn(said: unknown): number | null {
  const { code, fork } = (said ?? {}) as { code?: unknown; fork?: unknown };
  if (code !== "other_epoch") return null;
  return typeof fork === "number" ? fork : 0;
}
