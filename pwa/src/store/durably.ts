import Dexie from "dexie";
import { isFull, TroubleError } from "../words/trouble";

/** A database that is opened anew when the browser drops it, until it is closed on purpose. */
export class KeptDatabase extends Dexie {
  closedOnPurpose = false;
  /** The newest layout that this app knows. */
  readonly #newest: number;

  /** Makes room when the phone has none left; gives whether there is more now. */
  makeRoom(): Promise<boolean> {
    return Promise.resolve(false);
  }

  constructor(name: string, newest: number) {
    super(name, { chromeTransactionDurability: "strict" });
    this.#newest = newest;
    this.on("ready", () => this.#refuseNewer(), true);
  }

  /** Dexie opens what a newer app has laid out as if it knew it, and an old page would write rows there that the new app cannot read. */
  #refuseNewer(): void {
    if (Math.floor(this.backendDB().version / nativePerVersion) > this.#newest) throw new TroubleError("store-newer");
  }

  closeOnPurpose(): void {
    this.closedOnPurpose = true;
    this.close();
  }

  async deleteOnPurpose(): Promise<void> {
    this.closedOnPurpose = true;
    await this.delete();
  }
}

/** Dexie counts versions in tenths of the browser's. */
const nativePerVersion = 10;

/** Pauses before trying again, milliseconds: a phone that wakes needs a moment to give its storage back. */
const pauses = [0, 60, 250, 1000];

/** Names under which browsers report that the connection to IndexedDB was lost, as iOS does to an app in the background. */
const lostNames = new Set(["DatabaseClosedError", "InvalidStateError", "UnknownError", "AbortError", "TransactionInactiveError"]);

/**
 * Does work on a database, opening it anew and trying again when the connection
 * was lost, and making room and trying again when there is none. The work must be
 * one transaction, so that a try that failed left nothing behind.
 */
export async function durably<T>(db: KeptDatabase, work: () => Promise<T>): Promise<T> {
  for (const pause of pauses) {
    try {
      return await work();
    } catch (error) {
      if (db.closedOnPurpose) throw error;
      if (troubleIn(error)) throw troubleIn(error);
      if (isFull(error)) {
        if (!(await db.makeRoom())) throw error;
      } else if (connectionLost(error)) await letGo(db, pause);
      else throw error;
    }
  }
  return work();
}

/** What the store itself said when it was opened, which Dexie wraps for whatever waited on that. */
function troubleIn(error: unknown): TroubleError | null {
  const { inner } = (error ?? {}) as { inner?: unknown };
  return [error, inner].find((one) => one instanceof TroubleError) ?? null;
}

function connectionLost(error: unknown): boolean {
  const named = error as { name?: string; inner?: { name?: string } } | null;
  return lostNames.has(named?.name ?? "") || lostNames.has(named?.inner?.name ?? "");
}

/** Lets go of the lost connection; the next work opens another. */
async function letGo(db: KeptDatabase, pause: number): Promise<void> {
  db.close({ disableAutoOpen: false });
  await new Promise((resolve) => setTimeout(resolve, pause));
}
