/**
 * What the screens may ask of the phone's state, and nothing else: no screen
 * touches storage, the network or a worker. Everything named here is reactive
 * (read it inside a component or `$derived` and it follows), and everything
 * works with no network unless its comment says otherwise.
 *
 * open.ts makes it, context.ts hands it down.
 */
import type { Cursor, ISODay, ISOInstant, Sha256 } from "../words/ids";
import type {
  Bed, FieldsOf, Garden, Kind, Observation, Planting, RecordKind, Ref, RefOf, Structure, Task, Work,
} from "../words/records";
import type { Trouble } from "../words/trouble";
import type { CaneAnswer, CaneQuestion } from "../almanac/cane";
import type { Assessment, Picture, PlantingWorth } from "../almanac/answers";

export interface Haulm {
  readonly session: Session;
  readonly book: Book;
  readonly sending: Sending;
  readonly reckoning: Reckoning;
}

export type Role = "keeper" | "helper" | "viewer";

export type { Trouble, TroubleCode, TroubleError } from "../words/trouble";

export interface Session {
  /** "starting" until the phone's store was read, a moment; then outside (join first) or inside a garden. */
  readonly state: "starting" | "outside" | "inside";
  /** Why the state is what it is, when something is wrong with it. */
  readonly trouble: Trouble | null;
  readonly garden: string | null;
  readonly member: string | null;
  readonly role: Role | null;
  readonly deviceName: string | null;
  readonly demo: boolean;
  /** Whether this runs as an app of its own, from the home screen. */
  readonly installed: boolean;
  /** The code in the address, "/join#CODE", or null. */
  readonly inviteCode: string | null;

  /** Joins with a one-time code; needs the network. Rejects with a TroubleError. */
  join(code: string, deviceName: string, memberName: string): Promise<void>;
  /** Calls this phone something else; needs the network. Rejects with a TroubleError. */
  nameDevice(name: string): Promise<void>;
  /** Signs this device out and forgets the garden on it. `unsent` things are lost: ask first when there are any. */
  logout(): Promise<void>;

  /** A newer version that waits; it is applied only when the person says so. */
  readonly update: { readonly waiting: boolean; apply(): Promise<void> };
  /** Whether the browser offers to put the app on the home screen, and its own question, when the person asks for it. */
  readonly install: { readonly offered: boolean; ask(): Promise<void> };
  /** Whether the browser promised to keep what is stored; null until asked. */
  readonly kept: boolean | null;
  /** Asks it again. */
  askToKeep(): Promise<void>;

  readonly household: Household;
}

/** The people and phones of a garden. Every call needs the network and rejects with a TroubleError. */
export interface Household {
  members(): Promise<Member[]>;
  devices(): Promise<Device[]>;
  /** The people as this phone last heard of them; empty when it never did. Needs no network and never rejects. */
  lastMembers(): Promise<readonly Member[]>;
  revoke(device: string): Promise<void>;
  invite(role: Role): Promise<{ code: string; url: string; expires: ISOInstant }>;
}

export type Member = Readonly<{ id: string; name: string; role: Role }>;
/** `member` is the id of the person who uses it. */
export type Device = Readonly<{ id: string; name: string; member: string; joined: ISOInstant; thisOne: boolean }>;

export interface Book {
  /** True when beds, plantings and kinds can be shown; observations follow within moments. */
  readonly ready: boolean;
  /** True when all entries are in memory too. */
  readonly complete: boolean;
  readonly trouble: Trouble | null;
  /** Reads the garden anew, where the phone's store did not give it. Rejects never, see `trouble`. */
  retry(): Promise<void>;
  readonly garden: Garden | null;
  /** The date in the garden. */
  readonly today: ISODay;
  /** True in a demo whose date stands still. */
  readonly clockFixed: boolean;

  /** In walking order. */
  readonly beds: readonly Bed[];
  readonly structures: readonly Structure[];
  /** Living plantings, bed by bed as the beds are walked, from west to east in each. The same list until one changes. */
  readonly plantings: readonly Planting[];
  /** Photos that wait to be told whose they are, newest first. */
  readonly untied: readonly Observation[];
  /** Photos that a person said are of no planting, newest first. */
  readonly apart: readonly Observation[];

  /** The garden's own kind over the catalogue's; null when unknown. */
  kind(id: string | undefined): Kind | null;
  planting(id: string | undefined): Planting | null;
  bed(id: string | undefined): Bed | null;
  observation(id: string | undefined): Observation | null;
  task(id: string | undefined): Task | null;
  /** Newest first. */
  observations(planting: string): readonly Observation[];
  /** Newest first. */
  work(planting: string): readonly Work[];
  /** The plantings that came from this one, by their date; also those that are over. */
  cameOf(planting: string): readonly Planting[];
  /** When anyone last looked, or null. */
  lastLook(planting: string): ISOInstant | null;
  /** Newest first, over all observations of the planting. */
  photosOf(planting: string): readonly Photo[];
  /** Texts that lost when two phones wrote the same field apart, by field. */
  also(ref: Ref): Readonly<Record<string, readonly Also[]>>;
  /** True while a change of this record waits on this phone. */
  unsent(ref: Ref): boolean;
  /** Living plantings first, then kinds; the likest first in each; forgiving of misspelling. */
  search(text: string): readonly Hit[];

  /**
   * Notes what was seen at a planting. One visit is one observation: entries of
   * this phone within 30 minutes extend it. Resolves when it is on disk. A field
   * of null clears.
   */
  log(planting: string, fields: Patch<"observation">): Promise<Act>;
  /**
   * Notes the same at several plantings (one at least), each by the rule of `log`, as
   * one act: all of it is on disk when it resolves, or nothing, and one `undo` takes it back.
   */
  logAll(plantings: readonly string[], fields: Patch<"observation">): Promise<Act>;
  /** Writes fields of any record; a null clears. Resolves when it is on disk. */
  write<K extends RecordKind>(ref: RefOf<K>, fields: Patch<K>): Promise<Act>;
  /** Makes a new record and writes it. Resolves when it is on disk. */
  create<K extends RecordKind>(kind: K, fields: Patch<K>): Promise<Act>;
  /** Takes a record away. */
  remove(ref: Ref): Promise<Act>;
  /**
   * Writes several records as one act: all of them are on disk when it resolves, or
   * none, and one `undo` takes them all back. The act's `ref` is the first one's.
   */
  together(drafts: readonly Draft[]): Promise<Act>;
  /** The reference of a record that is not written yet, for drafts that speak of each other. */
  newRef<K extends RecordKind>(kind: K): RefOf<K>;
  /**
   * Keeps a picture. Resolves when picture and entry are on disk; its `settled`
   * resolves when the phone has worked out whose it is. `entry`: another picture of
   * what that entry is about; it joins it when both are of one visit. `fromGallery`:
   * it may be of another day.
   */
  photograph(file: Blob, about?: About): Promise<Photographed>;
  /**
   * Keeps a voice memo with an entry, or with the present visit to a planting.
   * Resolves when memo and entry are on disk.
   */
  keepMemo(sound: Blob, about: Readonly<{ entry: string } | { planting: string }>): Promise<Act>;
  /** A memo's sound, from this phone or, with a network, from the server; null when neither has it. */
  memo(sha: Sha256): Promise<Blob | null>;
  /** Gives an entry (a photo in the tray, or one tied wrongly) to a planting. */
  moveEntry(observation: string, planting: string): Promise<Act>;
  /** Says that a photo is of no planting: it leaves the tray and is tied to none. */
  setApart(observation: string): Promise<Act>;
  /** Which plantings a waiting photo may be of, likeliest first. */
  candidates(observation: string): Promise<readonly Candidate[]>;
  /**
   * A blob: address of a preview, from this phone or, with a network, from the
   * server. Null when neither has it. Not reactive: ask again after `photosSeq` moves.
   */
  photoUrl(sha: Sha256, width: 320 | 1600): Promise<string | null>;
  /**
   * The original of a picture: from this phone, or with a network from the server
   * and then kept while there is room. Rejects with a TroubleError, or with the
   * signal's reason when given up.
   */
  original(sha: Sha256, fetching?: Fetching): Promise<Blob>;
  /** Moves when pictures arrive or their previews are made. */
  readonly photosSeq: number;
  /** This phone's own entry about a planting that a look now would extend, or null. */
  visit(planting: string): Observation | null;
  /** The round under way on this phone, or null; one of another day is over. */
  readonly round: RoundKept | null;
  /** Keeps where a round is, also through the end of the page. Resolves when it is on disk. */
  keepRound(round: RoundKept): Promise<void>;
}

/** `told` hears of bytes; `all` is 0 where the server does not say. */
export type Fetching = Readonly<{ signal?: AbortSignal; told?: (done: number, all: number) => void }>;

/** What a person says of a picture: its planting, or the entry that it is another picture of. */
export type About = Readonly<{ planting?: string; entry?: string; fromGallery?: boolean }>;

/** `at`: the planting at which it stands; `askedOnly`: it passes what was not worth a look; `asked`: what was. */
export type RoundKept = Readonly<{ at: string; askedOnly: boolean; asked: readonly string[] }>;

/** Fields to set; null clears one. */
export type Patch<K extends RecordKind> = { readonly [F in keyof FieldsOf[K]]?: FieldsOf[K][F] | null };

/** What is to be written of one record; null clears a field, `gone` takes the record away. */
export type Draft = Readonly<{ ref: Ref; set: Readonly<Record<string, unknown>>; gone?: boolean }>;

/** One thing done. `undo` brings back what was before, on this phone and, when it was sent, everywhere. */
export interface Act {
  readonly ref: Ref;
  /** When it was on disk. */
  readonly at: ISOInstant;
  readonly undone: boolean;
  undo(): Promise<void>;
}

export type Photo = Readonly<{ sha: Sha256; seen: ISOInstant; observation: string }>;

export type Also = Readonly<{ value: unknown; at: string; by?: string }>;

/** `whole`: all the words were found; else nothing had all, and it has some. */
export type Hit = Readonly<
  | { what: "planting"; planting: Planting; kind: Kind | null; score: number; whole: boolean }
  | { what: "kind"; kind: Kind; score: number; whole: boolean }
>;

/** `probability` is null where nothing was reckoned: it was only the planting logged last. */
export type Candidate = Readonly<{ planting: string; probability: number | null; distanceM?: number }>;

export interface Photographed extends Act {
  readonly observation: string;
  readonly sha: Sha256;
  /** Resolves when the phone knows whose the picture is, or that it does not. Never rejects. */
  readonly settled: Promise<Tied>;
}

export type Tied = Readonly<{
  /** The planting that it was given to, or null: it waits in the tray. */
  planting: string | null;
  sure: number;
  by: "person" | "place" | null;
  candidates: readonly Candidate[];
  /** Why it could not be told by place: no position, a plan not tied to the earth, no plantings, no almanac yet. */
  lacking: "position" | "origin" | "plantings" | "almanac" | null;
}>;

export interface Sending {
  /** True once what waits was read from the phone's store; before that nothing is said of it. */
  readonly known: boolean;
  /** Entries and photos that the server has not acknowledged; an entry whose photo waits counts as the photo, one whose memo waits as the note. */
  readonly notes: number;
  readonly photos: number;
  readonly line: LineState;
  /** Why nothing moves, when something is wrong. */
  readonly trouble: Trouble | null;
  /** When the line will try by itself again, or null. */
  readonly nextTry: ISOInstant | null;
  /** When phone and server last agreed. */
  readonly lastAgreed: ISOInstant | null;
  readonly cursor: Cursor;
  readonly online: boolean;
  /** Oldest first. */
  readonly items: readonly SendingItem[];
  /** Changes that the server did not take; they stay until someone mends or discards them. */
  readonly refused: readonly Refused[];
  /** Originals wait for an unmetered link unless this is set. */
  readonly anyLink: boolean;
  setAnyLink(on: boolean): Promise<void>;
  /** Tries at once. Resolves when the try is over, well or not. */
  sendNow(): Promise<void>;
  /** Sends a refused change again with other values, under a new id. */
  mend(change: string, fields: Readonly<Record<string, unknown>>): Promise<void>;
  /** Gives a refused change up. */
  discard(change: string): Promise<Act>;
  /** Sends a photo no more, by its item's id; it stays on this phone while there is room. */
  giveUp(photo: string): Promise<Act>;
  /** Settles what to save to files: all that waits now, and what was not taken. It stays on the phone. */
  save(): Promise<Saving>;
  /** What is kept on this phone, and what room is left. */
  room(): Promise<Room>;
  /** Takes a file that a phone saved into the garden; needs the network. Rejects with a TroubleError. */
  takeIn(file: Blob): Promise<TakenIn>;
}

/** Bytes by kind; null where the browser does not say. */
export type Room = Readonly<{
  records: number | null;
  previews: number;
  originals: number;
  app: number;
  left: number | null;
}>;

/** What waits, to be saved to one or more files; each is of use alone. */
export interface Saving {
  readonly parts: number;
  /** Makes one of the files, from 1; `told` hears of bytes. */
  make(part: number, told?: (done: number, all: number) => void): Promise<SavedFile>;
}

export type SavedFile = Readonly<{ name: string; content: Blob; part: number; parts: number }>;

/** What became of a file's entries. */
export type TakenIn = Readonly<{
  device: string;
  changes: number;
  photos: number;
  /** Changes and photos that the garden had already. */
  known: number;
  /** Entries that were left aside, each with the server's sentence; `asideCount` counts those that are not told, too. */
  aside: readonly Readonly<{ entry: string; why: string }>[];
  asideCount: number;
}>;

/** "resting": all sent. "waiting": something waits, and a try is due. "held": only originals wait, for an unmetered link. */
export type LineState = "resting" | "sending" | "waiting" | "held" | "offline" | "stopped";

export type SendingItem = Readonly<{
  id: string;
  what: "note" | "preview" | "memo" | "original";
  /** The record that it belongs to. */
  ref: Ref;
  bytes: number;
  sent: number;
  since: ISOInstant;
  /** Waits for an unmetered link. */
  held: boolean;
  /** The server or the phone said no for good: it stays until someone has it tried again or gives it up. */
  final: boolean;
  trouble: Trouble | null;
}>;

export type Refused = Readonly<{
  change: string;
  ref: Ref;
  fields: Readonly<Record<string, unknown>>;
  code: string;
  /** The server's sentence. */
  why: string;
  at: ISOInstant;
}>;

export interface Reckoning {
  /** The latest answer, or null before the first. It stays while a newer one is worked out. */
  readonly assessment: Assessment | null;
  /** The date that the answer is for. */
  readonly on: ISODay | null;
  /** What a look at each planting that stands would settle today; null before the first answer, which comes after the assessment. */
  readonly worth: ReadonlyMap<string, PlantingWorth> | null;
  readonly busy: boolean;
  /** Something was written that the answer does not know yet. */
  readonly behind: boolean;
  /** Why there is no answer, if there is none. */
  readonly trouble: Trouble | null;
  /** One planting's strips and heights. Rejects with a TroubleError when the almanac is not on this phone yet. */
  picture(planting: string, signal?: AbortSignal): Promise<Picture>;
  /** A plant's height from a photograph with a cane in it. Rejects with a TroubleError: "almanac-failed" where the points tell none. */
  heightByCane(question: CaneQuestion): Promise<CaneAnswer>;
}
