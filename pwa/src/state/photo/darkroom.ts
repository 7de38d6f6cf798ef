import { hex } from "../../store/digest";
import { bytesKey, type HeldPhoto } from "../../store/held";
import type { Store } from "../../store/store";
import type { Picture } from "../../store/writing";
import { instantHere } from "../../words/days";
import type { ISOInstant, Sha256 } from "../../words/ids";
import { idOf, type Observation, type RefOf } from "../../words/records";
import { TroubleError } from "../../words/trouble";
import { Deed, type Pen } from "../acts.svelte";
import type { Photographed, Tied } from "../contract";
import { byPerson, type Entries } from "../entries";
import type { Shelf } from "../shelf.svelte";
import { factsOf } from "./facts";
import { isPicture } from "./kinds";
import { momentOf, type Moment } from "./moment";
import { placeOfPhone } from "./place";
import { previewsOf } from "./previews";
import { given, type Tying } from "./tying";

export type DarkroomTools = Readonly<{
  store: Store;
  shelf: Shelf;
  pen: Pen;
  entries: Entries;
  tying: Tying;
  now(): number;
  fixedDay(): string | null;
}>;

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

  constructor(tools: DarkroomTools) {
    this.#tools = tools;
  }

  async photograph(file: Blob, planting: string | undefined): Promise<Photographed> {
    const place = placeOfPhone(); // asked at the moment of the picture
    const nowMs = this.#tools.now();
    const bytes = await file.arrayBuffer();
    if (!isPicture(bytes)) throw new TroubleError("unreadable-picture");
    const sha = hex(new Uint8Array(await crypto.subtle.digest("SHA-256", bytes)));
    const deed = await this.#tools.entries.inTurn(() => this.#keep(file, bytes, sha, planting, nowMs));
    void this.#develop(sha, new Blob([bytes], { type: file.type }));
    deed.settled = this.#settle(deed, file, bytes, planting, place, nowMs);
    return deed;
  }

  /** Makes the previews that an earlier page was closed before making. */
  async catchUp(): Promise<void> {
    for (const { sha, type } of await this.#tools.store.withoutPreviews()) {
      const held = await this.#tools.store.bytesOf(sha, "original");
      if (held) await this.#develop(sha, new Blob([held.bytes], { type }));
    }
  }

  async #keep(file: Blob, bytes: ArrayBuffer, sha: Sha256, planting: string | undefined, nowMs: number): Promise<Picturing> {
    const seen = this.#tools.entries.seenNow();
    const visit = planting === undefined ? null : await this.#tools.entries.visit(planting, seen);
    const ref = visit?.ref ?? this.#tools.entries.newRef("observation");
    const picture = pictureOf(file, bytes, sha, ref, nowMs);
    if (planting !== undefined) this.#tools.entries.last = { planting, seen };
    const written = await this.#tools.pen.write([{ ref, set: firstFields(visit, planting, seen, sha) }], [picture]);
    return new Picturing(ref, sha, this.#tools.pen, written);
  }

  /** Never rejects: what could not be kept is made when the garden is opened again. */
  async #develop(sha: Sha256, picture: Blob): Promise<void> {
    const { store } = this.#tools;
    const previews = await previewsOf(picture).catch(() => null);
    await (previews ? store.addPreviews(sha, previews) : store.progress(sha, { unreadable: true })).catch(() => undefined);
  }

  async #settle(
    deed: Picturing, file: Blob, bytes: ArrayBuffer, planting: string | undefined, place: Promise<Moment["place"]>, nowMs: number,
  ): Promise<Tied> {
    try {
      const [facts, here] = await Promise.all([factsOf(bytes), place]);
      const fileMs = file instanceof File ? file.lastModified : nowMs;
      const moment = momentOf(facts, here, fileMs, nowMs);
      const tied = planting === undefined ? await this.#tools.tying.tie(this.#asSeen(moment, nowMs), this.#tools.entries.last) : given(planting);
      await this.#tools.entries.inTurn(() => this.#addFacts(deed, moment, planting === undefined ? tied : null, nowMs));
      return tied;
    } catch {
      return { planting: planting ?? null, sure: 0, by: null, candidates: [], lacking: "almanac" };
    }
  }

  /** In a garden whose date stands still, a picture of now belongs to that date. */
  #asSeen(moment: Moment, nowMs: number): Moment {
    return moment.taken === instantHere(nowMs) ? { ...moment, taken: this.#tools.entries.seenNow() } : moment;
  }

  /** Adds place, time and planting, unless the person has been quicker. */
  async #addFacts(deed: Picturing, { taken, place }: Moment, tied: Tied | null, nowMs: number): Promise<void> {
    const observation = this.#tools.shelf.one("observation", deed.observation);
    if (!observation || deed.undone) return;
    const older = taken !== instantHere(nowMs) && this.#tools.fixedDay() === null && observation.photos?.length === 1;
    const found = tied?.planting && observation.planting === undefined;
    const set = {
      ...place,
      ...(older && { seen: taken }),
      ...(found && { planting: tied.planting, tiedBy: tied.by, tiedSure: tied.sure }),
    };
    if (Object.keys(set).length > 0) deed.also(await this.#tools.pen.write([{ ref: deed.ref, set }]));
  }
}

function firstFields(visit: Observation | null, planting: string | undefined, seen: ISOInstant, sha: Sha256): Record<string, unknown> {
  if (visit) return { photos: [...(visit.photos ?? []).filter((other) => other !== sha), sha] };
  return { seen, photos: [sha], ...(planting !== undefined && { planting, ...byPerson }) };
}

function pictureOf(file: Blob, bytes: ArrayBuffer, sha: Sha256, ref: RefOf<"observation">, nowMs: number): Picture {
  const type = file.type || "image/jpeg";
  const photo: HeldPhoto = {
    sha, ref, type, size: bytes.byteLength, made: instantHere(nowMs), previews: [], sentPreviews: [], sent: 0, done: false,
  };
  return { photo, bytes: [{ key: bytesKey(sha, "original"), type, bytes }] };
}
