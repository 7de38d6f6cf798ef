/** The verb `tie`, as almanac/tie reads and writes it. */
import type { ISOInstant } from "../words/ids";
import type { Point, Position } from "../words/records";

export type TieQuestion = Readonly<{
  photo: Readonly<{
    lat?: number;
    lon?: number;
    accuracyM?: number;
    seen: ISOInstant;
    lastPlanting?: string;
    lastSeen?: ISOInstant;
  }>;
  garden: Readonly<{ planOrigin?: Position; planBearingDeg?: number }>;
  plantings: readonly Readonly<{ id: string; at?: Point; area?: readonly Point[]; inFlower?: boolean }>[];
}>;

export type TieAnswer = Readonly<{
  /** Null unless the almanac is sure. */
  tied: string | null;
  sure: number;
  lacking: "" | "position" | "origin" | "plantings";
  candidates: readonly Readonly<{ planting: string; probability: number; distanceM: number | null }>[];
  /** The probability of plantings that are not listed, together, and that it is none of these. */
  others: number;
  none: number;
}>;
