import type { PreviewMaker } from "../../previews/previews";
import { hex } from "../../store/digest";
import { bytesKey, type HeldPhoto, type Unsettled } from "../../store/held";
import type { Picture } from "../../store/writing";
import { instantHere } from "../../words/days";
import type { ISOInstant, Sha256 } from "../../words/ids";
import { idOf, type Observation, type RefOf } from "../../words/records";
import { TroubleError, troubleOf } from "../../words/trouble";
import { Deed, type Pen } from "../acts.svelte";
import type { About, Photographed, Tied } from "../contract";
import { byPerson } from "../entries";
import { visitMs } from "../visit";
import { factsOf } from "./facts";
import { kindOfFile, type MediaType } from "../../words/media";
import { momentOf } from "./moment";
import { placeOfPhone } from "./place";
import { Settling, type SettlingTools } from "./settling";

export type DarkroomTools = SettlingTools & Readonly<{ now(): number; previews: Pick<PreviewMaker, "of"> }>;

/** A picture as it came. */
type Taken = Readonly<{ bytes: ArrayBuffer; type: MediaType; sha: Sha256; fileMs: number; keptMs: number; seen: ISOInstant }>;

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

  async photograph(file: Blob, about: About): Promise<Photographed> {
    const place = placeOfPhone(); // asked at the moment of the picture
    const keptMs = this.#tools.now();
    const bytes = await file.arrayBuffer();
    const type = kindOfFile(bytes);
    if (!type?.startsWith("image/")) throw new TroubleError("unreadable-picture");
    const sha = hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
    const fileMs = file instanceof File ? file.lastModified : keptMs;
    const seen = await this.#seen(bytes, about, fileMs, keptMs);
    const taken = { bytes, type, sha, fileMs, keptMs, seen };
    const { deed, unsettled } = await this.#tools.entries.inTurn(() => this.#keep(taken, about));
    void this.#develop(sha, new Blob([bytes], { type }));
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

  /**
   * When a picture's entry was seen. One from the camera is kept before anything is
   * read from it; the gallery has one too, and it belongs to its own day.
   */
  async #seen(bytes: ArrayBuffer, { fromGallery }: About, fileMs: number, keptMs: number): Promise<ISOInstant> {
    const { entries, fixedDay } = this.#tools;
    if (!fromGallery || fixedDay() !== null) return entries.seenAt(keptMs);
    return momentOf(await factsOf(bytes), null, fileMs, keptMs).taken;
  }

  async #keep(taken: Taken, about: About): Promise<{ deed: Picturing; unsettled: Unsettled }> {
    const { entries, pen } = this.#tools;
    const { sha, seen, fileMs, keptMs } = taken;
    const { entry, planting } = await this.#joins(about, seen);
    const ref = entry?.ref ?? entries.newRef("observation");
    const unsettled = { sha, ref, given: planting ?? null, keptMs, fileMs, here: null, last: entries.last };
    if (planting !== undefined) entries.last = { planting, seen };
    const picture = { ...pictureOf(taken, ref), unsettled };
    const written = await pen.write([{ ref, set: firstFields(entry, planting, seen, sha) }], [picture]);
    return { deed: new Picturing(ref, sha, pen, written), unsettled };
  }

  /** The entry that a picture joins, or null for one of its own, and the planting that a person said it is of. */
  async #joins(about: About, seen: ISOInstant): Promise<{ entry: Observation | null; planting: string | undefined }> {
    const entry = about.entry === undefined ? null : this.#tools.shelf.one("observation", about.entry);
    const planting = entry?.planting ?? about.planting;
    if (entry && Math.abs(Date.parse(seen) - Date.parse(entry.seen ?? "")) <= visitMs) return { entry, planting };
    return { entry: planting === undefined ? null : await this.#tools.entries.visit(planting, seen), planting };
  }

  /** Never rejects: what could not be made or kept is made when the garden is opened again. */
  async #develop(sha: Sha256, picture: Blob): Promise<void> {
    const { store, previews } = this.#tools;
    try {
      await store.addPreviews(sha, await previews.of(picture));
    } catch (thrown) {
      if (troubleOf(thrown).code === "unreadable-picture") await store.progress(sha, { unreadable: true }).catch(() => undefined);
    }
  }
}

function firstFields(joined: Observation | null, planting: string | undefined, seen: ISOInstant, sha: Sha256): Record<string, unknown> {
  if (joined) return { photos: [...(joined.photos ?? []).filter((other) => other !== sha), sha] };
  return { seen, photos: [sha], ...(planting !== undefined && { planting, ...byPerson }) };
}

function pictureOf({ bytes, type, sha, keptMs }: Taken, ref: RefOf<"observation">): Picture {
  const photo: HeldPhoto = {
    sha, ref, type, size: bytes.byteLength, made: instantHere(keptMs), previews: [], sentPreviews: [], sent: 0, done: 0,
  };
  return { photo, bytes: [{ key: bytesKey(sha, "original"), type, bytes }] };
}
