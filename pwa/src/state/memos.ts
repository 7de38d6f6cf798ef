import { hex } from "../store/digest";
import { bytesKey, type HeldPhoto } from "../store/held";
import type { Server } from "../send/server";
import type { Picture } from "../store/writing";
import { instantHere } from "../words/days";
import type { Sha256 } from "../words/ids";
import type { Observation, Ref } from "../words/records";
import { TroubleError } from "../words/trouble";
import { Deed } from "./acts.svelte";
import type { Act } from "./contract";
import { byPerson, type Entries, type EntryTools } from "./entries";
import { kindOfFile } from "../words/media";

export type MemoTools = EntryTools & Readonly<{ entries: Entries; server: Server }>;

/** What a memo is kept with. */
export type MemoAbout = Readonly<{ entry: string } | { planting: string }>;

/** Keeps what was said beside what was seen: memo and entry go to disk in one transaction. */
export class Memos {
  readonly #tools: MemoTools;

  constructor(tools: MemoTools) {
    this.#tools = tools;
  }

  async keep(sound: Blob, about: MemoAbout): Promise<Act> {
    const bytes = await sound.arrayBuffer();
    const type = kindOfFile(bytes);
    if (!type?.startsWith("audio/")) throw new TroubleError("unreadable-sound");
    const sha = hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
    return this.#tools.entries.inTurn(async () => {
      const seen = this.#tools.entries.seenNow();
      const entry = await this.#entry(about, seen);
      const ref = entry?.ref ?? this.#tools.entries.newRef("observation");
      const fresh = "planting" in about ? { planting: about.planting, seen, ...byPerson } : {};
      const set = { ...(entry ? {} : fresh), voice: [...(entry?.voice ?? []), sha] };
      return new Deed(ref, this.#tools.pen, await this.#tools.pen.write([{ ref, set }], [this.#held(sha, ref, type, bytes)]));
    });
  }

  /** From this phone, else from the server and then kept. */
  async sound(sha: Sha256): Promise<Blob | null> {
    const { store, server } = this.#tools;
    const held = await store.bytesOf(sha, "original");
    if (held) return new Blob([held.bytes], { type: held.type });
    try {
      const { type, bytes } = await server.original(sha, {});
      if (!type.startsWith("audio/")) return null;
      await store.keepOriginal(sha, type, bytes);
      return new Blob([bytes], { type });
    } catch {
      return null;
    }
  }

  async #entry(about: MemoAbout, seen: string): Promise<Observation | null> {
    if ("planting" in about) return this.#tools.entries.visit(about.planting, seen);
    const entry = this.#tools.shelf.one("observation", about.entry);
    if (!entry) throw new TroubleError("store-failed", "the entry is not on this phone any more");
    return entry;
  }

  #held(sha: Sha256, ref: Ref, type: string, bytes: ArrayBuffer): Picture {
    const photo: HeldPhoto = {
      sha, ref, type, size: bytes.byteLength, made: instantHere(this.#tools.now()), previews: [], sentPreviews: [], sent: 0, done: 0,
    };
    return { photo, bytes: [{ key: bytesKey(sha, "original"), type, bytes }] };
  }
}
