/**
 * What a garden's records say, as the phone reads them: the same names and units
 * as the Go package `garden`. A field that is absent is not known. Every record
 * may also carry fields that this program does not know; the store keeps them and
 * never sends them back changed.
 */
import type { ISOInstant, ISODay, PartialDay, MonthDay, Sha256 } from "./ids";

/** Longitude and latitude in degrees, north and east positive. */
export type Position = Readonly<{ lat: number; lon: number }>;

/** A point of the plan, metres east and north of the plan's origin. */
export type Point = readonly [x: number, y: number];

export const recordKinds = [
  "garden", "bed", "structure", "kind", "planting", "observation", "work", "task", "weather", "decision", "dismissal",
] as const;
export type RecordKind = (typeof recordKinds)[number];

/** A record's reference, "planting/0192…"; `RefOf<"bed">` is a bed's alone. */
export type RefOf<K extends RecordKind> = `${K}/${string}`;
export type Ref = RefOf<RecordKind>;

export type GardenFields = Readonly<{
  name?: string;
  lat?: number;
  lon?: number;
  altitudeM?: number;
  /** IANA name, such as "Europe/London". */
  timeZone?: string;
  planOrigin?: Position;
  planBearingDeg?: number;
  units?: "metric" | "imperial";
  normals?: readonly Readonly<{ minC: number; maxC: number; rainMm: number }>[];
  /** The demo's fixed date; absent in a real garden. */
  clock?: ISODay;
}>;

export type BedFields = Readonly<{
  name?: string;
  outline?: readonly Point[];
  /** USDA texture class. */
  soil?: string;
  ph?: number;
  drainage?: string;
  exposure?: string;
  irrigated?: boolean;
  container?: boolean;
  viewedFrom?: Point;
  /** Place in the round, lowest first. */
  order?: number;
}>;

export type StructureFields = Readonly<{
  name?: string;
  form?: string;
  outline?: readonly Point[];
  baseM?: number;
  heightM?: number;
  leaf?: "none" | "deciduous" | "evergreen";
  /** Share of the sun that it stops, 0 to 1. */
  density?: number;
}>;

/** A span of the year; `from` may be later than `to`, over New Year. */
export type Span = Readonly<{ from: MonthDay; to: MonthDay }>;

export type Flush = Span & Readonly<{ needs: "" | "deadhead" | "cut-back" }>;

export type Interest = Span & Readonly<{ what: string; colours?: readonly string[] }>;

/** A warning that belongs to a kind; absence never means safe. */
export type Caution = Readonly<{ code: string; words: string }>;

export type KindFields = Readonly<{
  /** Botanical name written by the rules for cultivated plants. */
  name?: string;
  synonyms?: readonly string[];
  common?: readonly string[];
  habit?: "shrub" | "climber" | "tree" | "perennial" | "bulb" | "annual" | "biennial" | "grass" | "fern";
  lifeCycle?: string;
  foliage?: string;
  emerges?: Span | null;
  heightCm?: readonly [lo: number, hi: number];
  spreadCm?: readonly [lo: number, hi: number];
  spreadHabit?: string;
  yearsToSize?: number;
  yearsToFlower?: number;
  pace?: "quick" | "ordinary" | "slow";
  sunHours?: readonly [lo: number, hi: number];
  moisture?: string;
  ph?: readonly [lo: number, hi: number];
  minWinterC?: number;
  bloom?: readonly Flush[];
  flowersOn?: "last-year" | "this-year" | "old";
  pruneGroup?: string;
  cue?: "heat" | "day-length" | "autumn-rain" | "chill";
  interest?: readonly Interest[];
  /** Flower colours, "#rrggbb". */
  colours?: readonly string[];
  scent?: string;
  pollinators?: string;
  care?: readonly Readonly<{ what: string }>[];
  cautions?: readonly Caution[];
}>;

export type PlantingFields = Readonly<{
  /** A catalogue slug, or the id of one of the garden's own kinds. */
  kind?: string;
  identity?: "confirmed" | "as-bought" | "guess";
  bed?: string;
  at?: Point;
  area?: readonly Point[];
  count?: number;
  /** Absent or null: in the garden before anyone noted it. */
  planted?: PartialDay | null;
  form?: string;
  potL?: number;
  depthCm?: number;
  /** Height when planted. */
  heightCm?: number;
  grafted?: boolean;
  cover?: string;
  amendments?: readonly string[];
  supplier?: string;
  price?: number;
  ended?: ISODay;
  endedHow?: string;
  /** The likely reason: one of the list in parts/ending.ts, or a person's own words. */
  endedWhy?: string;
  stored?: boolean;
  from?: Readonly<{ planting: string; how: string }>;
  label?: string;
  /** When a label with its code was last printed. */
  labelled?: ISODay;
}>;

export type Sign =
  | "slug" | "deer" | "rabbit" | "vine-weevil" | "aphid" | "frost" | "scorch" | "drought"
  | "waterlogging" | "mildew" | "rust" | "black-spot" | "dieback" | "dead-centre" | "wilting" | "sucker"
  | "reversion" | "wind-rock" | "other";

export type ObservationFields = Readonly<{
  /** The planting's id. Absent while a photo waits to be told whose it is. */
  planting?: string;
  /** When it was seen, with the offset of the observer's clock. */
  seen?: ISOInstant;
  /** The member who wrote it, stamped by the server. */
  by?: string;
  /** Which of the kind's flushes it speaks of, counted from 0. */
  flush?: number;
  up?: "not-up" | "up" | "in-leaf" | "dying-back";
  /** BBCH growth stage, 0 to 99. */
  stage?: number;
  notInFlower?: boolean;
  countAlive?: number;
  countInFlower?: number;
  /** How freely it flowers, 0 to 4. */
  flowerAmount?: number;
  heightCm?: number;
  flowerHeightCm?: number;
  spreadCm?: number;
  /** 1 failing to 5 strong. */
  vigour?: number;
  signs?: readonly Sign[];
  note?: string;
  photos?: readonly Sha256[];
  voice?: readonly Sha256[];
  lat?: number;
  lon?: number;
  accuracyM?: number;
  /** How its planting was found: "person" or "place". */
  tiedBy?: string;
  /** Probability that the planting is the right one, 0 to 1. */
  tiedSure?: number;
}>;

export type WorkFields = Readonly<{
  planting?: string;
  bed?: string;
  day?: ISODay;
  what?: string;
  heightLeftCm?: number;
  amount?: string;
  minutes?: number;
  by?: string;
  note?: string;
}>;

export type TaskFields = Readonly<{
  planting?: string;
  bed?: string;
  care?: string;
  due?: Readonly<{ from: ISODay; to: ISODay }>;
  reason?: string;
  assignee?: string;
  /** The id of the work that did it. */
  done?: string;
  doneBy?: string;
  skipped?: boolean;
  why?: string;
  putOffTo?: ISODay;
  quantity?: string;
  minutes?: number;
}>;

export type WeatherFields = Readonly<{
  day?: ISODay;
  minC?: number;
  maxC?: number;
  rainMm?: number;
  sunHours?: number;
  windMs?: number;
  source?: string;
}>;

export type DecisionFields = Readonly<{
  planting?: string;
  year?: number;
  what?: string;
  by?: ISODay;
  why?: string;
}>;

export type DismissalFields = Readonly<{
  planting?: string;
  flush?: string;
  finding?: string;
  day?: ISODay;
  why?: string;
}>;

export interface FieldsOf {
  garden: GardenFields;
  bed: BedFields;
  structure: StructureFields;
  kind: KindFields;
  planting: PlantingFields;
  observation: ObservationFields;
  work: WorkFields;
  task: TaskFields;
  weather: WeatherFields;
  decision: DecisionFields;
  dismissal: DismissalFields;
}

/** A record's fields with its id and reference beside them, ready for a screen. */
export type Seen<K extends RecordKind> = Readonly<{ id: string; ref: RefOf<K> }> & FieldsOf[K];

export type Garden = Seen<"garden">;
export type Bed = Seen<"bed">;
export type Structure = Seen<"structure">;
export type Kind = Seen<"kind">;
export type Planting = Seen<"planting">;
export type Observation = Seen<"observation">;
export type Work = Seen<"work">;
export type Task = Seen<"task">;

/** The kind of the record that a reference names. */
export function kindOf(ref: Ref): RecordKind {
  return ref.slice(0, ref.indexOf("/")) as RecordKind;
}

/** The id within a reference. */
export function idOf(ref: Ref): string {
  return ref.slice(ref.indexOf("/") + 1);
}

/** The reference of one record. */
export function refOf<K extends RecordKind>(kind: K, id: string): RefOf<K> {
  return `${kind}/${id}`;
}
