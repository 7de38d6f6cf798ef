import { hex } from "../../store/digest";
import { bytesKey, type HeldPhoto, type Unsettled } from "../../store/held";
import type { Picture } from "../../store/writing";
import { instantHere } from "../../words/days";
import type { ISOInstant, Sha256 } from "../../words/ids";
import { idOf, type Observation, type RefOf } from "../../words/records";
import { TroubleError } from "../../words/trouble";
import { Deed, type Pen } from "../acts.svelte";
import type { Photographed, Tied } from "../contract";
import { byPerson } from "../entries";
import { isPicture } from "./kinds";
import { placeOfPhone } from "./place";
import { previewsOf } from "./previews";
import { Settling, type SettlingTools } from "./settling";

export type DarkroomTools = SettlingTools & Readonly<{ now(): number }>;

class Picturing extends Deed implements Photographed {
  readonly observation: string;
  readonly sha: Sha256;
  settled!: Promise<Tied>;

  constructor(ref: RefOf<"observation">, sha: Sha256, ...deed: [Pen, ConstructorParameters<typeof Deed>[2]]) {
    super(ref, ...deed);
    this.observation = idOf(ref);
    this.sha = sha;
  }
}

/**
 * Keeps pictures. First picture and entry go to disk in one transaction, so that
 * nothing that happens to the page afterwards can part or lose them; then
 * previews are made, the picture's time and place read, and its planting sought.
 */
export class Darkroom {
  readonly #tools: DarkroomTools;
  readonly #settling: Settling;

  constructor(tools: DarkroomTools) {
    this.#tools = tools;
    this.#settling = new Settling(tools);
  }

  async photograph(file: Blob, planting: string | undefined): Promise<Photographed> {
    const place = placeOfPhone(); // asked at the moment of the picture
    const nowMs = this.#tools.now();
    const bytes = await file.arrayBuffer();
    if (!isPicture(bytes)) throw new TroubleError("unreadable-picture");
    const sha = hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
    const { deed, unsettled } = await this.#tools.entries.inTurn(() => this.#keep(file, bytes, sha, planting, nowMs));
    void this.#develop(sha, new Blob([bytes], { type: file.type }));
    deed.settled = this.#settling.fresh(deed, unsettled, bytes, place);
    return deed;
  }

  /** Does what an earlier page was closed before doing: finds out whose the pictures are, and makes their previews. Never rejects. */
  async catchUp(): Promise<void> {
    await this.settle();
    for (const { sha, type } of await this.#tools.store.withoutPreviews().catch(() => [])) {
      const held = await this.#tools.store.bytesOf(sha, "original").catch(() => undefined);
      if (held) await this.#develop(sha, new Blob([held.bytes], { type }));
    }
  }

  /** Finds out what is still open about pictures, as when the almanac can be asked at last. Never rejects. */
  settle(): Promise<void> {
    return this.#settling.again();
  }

  async #keep(
    file: Blob, bytes: ArrayBuffer, sha: Sha256, planting: string | undefined, keptMs: number,
  ): Promise<{ deed: Picturing; unsettled: Unsettled }> {
    const { entries, pen } = this.#tools;
    const seen = entries.seenNow();
    const visit = planting === undefined ? null : await entries.visit(planting, seen);
    const ref = visit?.ref ?? entries.newRef("observation");
    const fileMs = file instanceof File ? file.lastModified : keptMs;
    const unsettled = { sha, ref, given: planting ?? null, keptMs, fileMs, here: null, last: entries.last };
    if (planting !== undefined) entries.last = { planting, seen };
    const picture = { ...pictureOf(file, bytes, sha, ref, keptMs), unsettled };
    const written = await pen.write([{ ref, set: firstFields(visit, planting, seen, sha) }], [picture]);
    return { deed: new Picturing(ref, sha, pen, written), unsettled };
  }

  /** Never rejects: what could not be kept is made when the garden is opened again. */
  async #develop(sha: Sha256, picture: Blob): Promise<void> {
    const { store } = this.#tools;
    const previews = await previewsOf(picture).catch(() => null);
    await (previews ? store.addPreviews(sha, previews) : store.progress(sha, { unreadable: true })).catch(() => undefined);
  }
}

function firstFields(visit: Observation | null, planting: string | undefined, seen: ISOInstant, sha: Sha256): Record<string, unknown> {
  if (visit) return { photos: [...(visit.photos ?? []).filter((other) => other !== sha), sha] };
  return { seen, photos: [sha], ...(planting !== undefined && { planting, ...byPerson }) };
}

function pictureOf(file: Blob, bytes: ArrayBuffer, sha: Sha256, ref: RefOf<"observation">, nowMs: number): Picture {
  const type = file.type || "image/jpeg";
  const photo: HeldPhoto = {
    sha, ref, type, size: bytes.byteLength, made: instantHere(nowMs), previews: [], sentPreviews: [], sent: 0, done: 0,
  };
  return { photo, bytes: [{ key: bytesKey(sha, "original"), type, bytes }] };
}
