// The colours of flowers as engravers ruled them where they had ink alone, so
// that a colour is told by its ruling too: red upright, blue level, purple and
// green aslant, yellow dotted, white plain, black crossed (the tinctures of
// Petra Sancta, Tesserae gentilitiae, 1638). Pink, orange and brown are ours.

import { m } from "../paraglide/messages.js";
import type { Kind } from "../words/records";

export const rulings = ["white", "yellow", "orange", "red", "pink", "purple", "blue", "green", "brown"] as const;
export type Ruling = (typeof rulings)[number];

export const rulingWords: Readonly<Record<Ruling, () => string>> = {
  white: m.colour_white, yellow: m.colour_yellow, orange: m.colour_orange, red: m.colour_red, pink: m.colour_pink,
  purple: m.colour_purple, blue: m.colour_blue, green: m.colour_green, brown: m.colour_brown,
};

/** A representative of each for the key. */
export const rulingColours: Readonly<Record<Ruling, string>> = {
  white: "#fbf8ec", yellow: "#edc93a", orange: "#dd8438", red: "#b8342a", pink: "#dd93b4", purple: "#7a5ca8", blue: "#6378bd", green: "#bcca58", brown: "#94705c",
};

type Hsl = Readonly<{ hue: number; grey: boolean; light: number; saturation: number }>;

/** Hue in degrees, saturation and lightness 0 to 1 (CSS Color 4, section 7). */
function hslOf(colour: string): Hsl {
  const [r, g, b] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255) as [number, number, number];
  const [most, least] = [Math.max(r, g, b), Math.min(r, g, b)];
  const light = (most + least) / 2;
  const chroma = most - least;
  const saturation = chroma === 0 ? 0 : chroma / (1 - Math.abs(2 * light - 1));
  const sixth = chroma === 0 ? 0 : most === r ? ((g - b) / chroma + 6) % 6 : most === g ? (b - r) / chroma + 2 : (r - g) / chroma + 4;
  return { hue: sixth * 60, grey: chroma < 0.04, light, saturation };
}

/** Where one colour's name ends on the circle of hues, degrees: as gardeners name flowers (a choice of ours). */
const hues: readonly (readonly [below: number, name: Ruling])[] = [
  [17, "red"], [40, "orange"], [62, "yellow"], [170, "green"], [242, "blue"], [308, "purple"], [345, "pink"], [360, "red"],
];

const PALE = 0.86; // lightness from which a flower is called white
const DARK = 0.2; // below which it is near black: brown
const DULL = 0.32; // saturation below which warm hues are called brown
const PINK = 0.66; // lightness from which red is called pink
const DEEP = 0.42; // below which pink is called red

/** How a colour is ruled. */
export function rulingOf(colour: string): Ruling {
  const { hue, grey, light, saturation } = hslOf(colour);
  if (light >= PALE) return "white";
  if (light < DARK || grey) return "brown";
  const name = hues.find(([below]) => hue < below)?.[1] ?? "red";
  if ((name === "red" || name === "orange") && saturation < DULL) return "brown";
  if (name === "red" && light >= PINK) return "pink";
  return name === "pink" && light < DEEP ? "red" : name;
}

/** The colour that a kind flowers in first, or null where nobody has said, and for what is grown for its leaves. */
export function flowerColour(kind: Kind | null): string | null {
  return kind?.habit === "fern" ? null : (kind?.colours?.[0] ?? null);
}
