/** What the phone's store holds, row by row. */
import type { Cursor, ISOInstant, Sha256, Stamp, Uuid } from "../words/ids";
import type { RecordKind, Ref } from "../words/records";

export type Fields = Readonly<Record<string, unknown>>;
export type Stamps = Readonly<Record<string, Stamp>>;

/** A text that lost against one written apart. */
export type LostText = Readonly<{ value: unknown; at: Stamp; by?: string }>;

/** A record as the server last gave it. */
export type HeldRecord = Readonly<{
  ref: Ref;
  kind: RecordKind;
  seq: number;
  fields: Fields;
  at: Stamps;
  also?: Readonly<Record<string, readonly LostText[]>>;
  gone?: boolean;
  goneAt?: Stamp;
  /** Of the feed that gave it; another than the cursor's means that a restored server has not given it again. */
  epoch: string;
  /** Its part of the digest, see digest.ts; "" for a tombstone. */
  mark: string;
}>;

/** What comparing and forgetting need of a record. */
export type HeldMark = Pick<HeldRecord, "ref" | "mark">;

/** A change that the server has not acknowledged, or whose record has not come back yet. */
export type HeldChange = Readonly<{
  /** Place in the order of writing; the store gives it. */
  order?: number;
  id: Uuid;
  ref: Ref;
  /** Sequence of the record that the writer had seen; 0 for none. */
  base: number;
  at: Stamp;
  set: Fields;
  gone?: boolean;
  made: ISOInstant;
  /** It was given to the line at least once, so the server may have it. */
  tried: boolean;
  /** Not written here but offered to a server that may have lost it. A refusal of it concerns nobody here. */
  offered?: boolean;
  /** The sequence that the server applied it at; it stays on top until the cursor has passed that. */
  seq?: number;
}>;

export type HeldRefusal = HeldChange & Readonly<{ code: string; why: string }>;

/** A picture or memo taken here and how far it has travelled. Its bytes are in `bytes`. */
export type HeldPhoto = Readonly<{
  sha: Sha256;
  /** The observation it was taken for, and others that speak of it too. */
  ref: Ref;
  also?: readonly Ref[];
  type: string;
  /** Length of the original. */
  size: number;
  made: ISOInstant;
  /** Widths whose preview is on the phone, and those that the server has. */
  previews: readonly Width[];
  sentPreviews: readonly Width[];
  /** Bytes of the original that the server has acknowledged. */
  sent: number;
  /** 1 when the server has all of it; a number, since that is what an index takes. */
  done: 0 | 1;
  /** The phone cannot decode it, so it has no previews of its own. */
  unreadable?: boolean;
  /** A person gave it up: it counts as done, though the server has not got it. */
  givenUp?: boolean;
  /** Why it cannot go, when the server or the phone said no for good. */
  failed?: Readonly<{ code: string; detail?: string }>;
}>;

/** A memo: it has no previews, and its bytes stay, since they are what plays without a network. */
export function isSound({ type }: Pick<HeldPhoto, "type">): boolean {
  return type.startsWith("audio/");
}

export const widths = [320, 1600] as const;
export type Width = (typeof widths)[number];
export type Version = Width | "original";

/** Bytes are stored as ArrayBuffer: some phones lose Blobs. */
export type HeldBytes = Readonly<{ key: string; type: string; bytes: ArrayBuffer }>;

/** What is known of a row of bytes without reading it; there is one for each. */
export type Kept = Readonly<{
  key: string;
  /** Length in bytes; null where nobody has measured it. */
  size: number | null;
  /** When it was last shown, milliseconds; 0 for never since it was first kept. */
  shown: number;
}>;

/** Where something was seen, in degrees and metres. */
export type Place = Readonly<{ lat: number; lon: number; accuracyM?: number }>;

/** When and where a picture was taken. */
export type Moment = Readonly<{ taken: ISOInstant; place: Place | null }>;

/** What was logged last on this phone. */
export type LastLogged = Readonly<{ planting: string; seen: ISOInstant }>;

/** A picture whose time, place and planting are still to be found out, with what only the moment of the picture knew. */
export type Unsettled = Readonly<{
  sha: Sha256;
  ref: Ref;
  /** The planting that a person had said it is of. */
  given: string | null;
  keptMs: number;
  /** The age of the file that it came from. */
  fileMs: number;
  /** Where the phone was, once it knew. */
  here: Place | null;
  last: LastLogged | null;
  /** When and where it was taken, once that was read: only the almanac is waited for. */
  moment?: Moment;
}>;

export function bytesKey(sha: Sha256, version: Version): string {
  return `${sha}/${version}`;
}

/** A cursor's epoch and sequence. */
export function cursorParts(cursor: Cursor): { epoch: string; seq: number } {
  const dot = cursor.lastIndexOf(".");
  return dot < 0 ? { epoch: "", seq: 0 } : { epoch: cursor.slice(0, dot), seq: Number(cursor.slice(dot + 1)) };
}
