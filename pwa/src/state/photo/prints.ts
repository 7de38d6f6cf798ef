import type { Server } from "../../send/server";
import { bytesKey, type HeldBytes, type Version, type Width } from "../../store/held";
import type { Store } from "../../store/store";
import type { Sha256 } from "../../words/ids";
import type { Fetching } from "../contract";
import { reserveBytes, roomLeft } from "../room";
import { Shown } from "./shown";
import { PhotoUrls, type Preview } from "./urls";

/** Pictures to look at, from this phone or the server; what is fetched is kept for the next time without a network. */
export class Prints {
  readonly #store: Store;
  readonly #server: Server;
  readonly #shown: Shown;
  readonly urls = new PhotoUrls((sha, width) => this.#preview(sha, width));

  constructor(store: Store, server: Server) {
    this.#store = store;
    this.#server = server;
    this.#shown = new Shown(store);
  }

  leave(): void {
    this.#shown.leave();
    this.urls.clear();
  }

  async original(sha: Sha256, fetching: Fetching): Promise<Blob> {
    const held = await this.#held(sha, "original");
    const { type, bytes } = held ?? (await this.#server.original(sha, fetching));
    if (!held) await this.#keepOriginal(sha, type, bytes);
    return new Blob([bytes], { type });
  }

  /** From this phone, else from the server and then kept, else the original while there is no preview yet. */
  async #preview(sha: Sha256, width: Width): Promise<Preview | null> {
    const held = await this.#held(sha, width);
    const original = held ? undefined : await this.#store.bytesOf(sha, "original");
    if (held || original) return held ?? { ...original!, passing: true };
    try {
      const { type, bytes } = await this.#server.preview(sha, width);
      await this.#store.keepPreview(sha, width, type, bytes).catch(() => undefined); // no room: it is shown all the same
      return { type, bytes };
    } catch {
      return (await this.#held(sha, width === 320 ? 1600 : 320)) ?? null;
    }
  }

  async #held(sha: Sha256, version: Version): Promise<HeldBytes | undefined> {
    const held = await this.#store.bytesOf(sha, version);
    if (held) this.#shown.note(bytesKey(sha, version), held.bytes.byteLength);
    return held;
  }

  /** Older ones go for it; with no room even then it is shown all the same, and not kept. */
  async #keepOriginal(sha: Sha256, type: string, bytes: ArrayBuffer): Promise<void> {
    const wanted = bytes.byteLength + reserveBytes;
    const left = (await roomLeft()) ?? wanted;
    const free = left < wanted ? left + (await this.#store.letGo(wanted - left).catch(() => 0)) : left;
    if (free >= wanted) await this.#store.keepOriginal(sha, type, bytes).catch(() => undefined);
  }
}
