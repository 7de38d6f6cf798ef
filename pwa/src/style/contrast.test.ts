// Holds the palette to WCAG 2.2: text 4.5 : 1 (success criterion 1.4.3), 7 : 1
// in the sun scheme (1.4.6), drawn lines that carry meaning 3 : 1 (1.4.11).
// Relative luminance and contrast ratio as that document defines them.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";

const css = readFileSync(join(import.meta.dirname, "tokens.css"), "utf8");
const plain = block(/^:root \{/mu);
const schemes = { light: side(plain, 1), dark: side(plain, 2), sun: block(/^:root\[data-contrast="sun"\] \{/mu) };
const least = { light: 4.5, dark: 4.5, sun: 7 };

function block(start: RegExp): Record<string, string> {
  const from = css.slice(css.search(start));
  const body = from.slice(0, from.indexOf("}"));
  return Object.fromEntries([...body.matchAll(/--([a-z]+): ((?:#|light-dark)[^;]+);/gu)].map(([, name, colour]) => [name!, colour!]));
}

/** The first or the second of each "light-dark(#…, #…)". */
function side(colours: Record<string, string>, which: 1 | 2): Record<string, string> {
  return Object.fromEntries(Object.entries(colours).map(([name, both]) => [name, /\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/u.exec(both)![which]!]));
}

function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16) / 255).map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

function ratio(one: string, other: string): number {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light! + 0.05) / (dark! + 0.05);
}

it("knows black on white", () => expect(ratio("#000000", "#ffffff")).toBeCloseTo(21));

describe.each(Object.entries(schemes))("%s", (scheme, colours) => {
  const enough = least[scheme as keyof typeof least];
  const pairs = ["ink", "soft", "madder", "verdigris", "ochre"].flatMap((text) => ["paper", "raised", "wash"].map((ground) => [text, ground] as const));

  it.each(pairs)("%s on %s can be read", (text, ground) => expect(ratio(colours[text]!, colours[ground]!)).toBeGreaterThanOrEqual(enough));
  it("paper on ink can be read", () => expect(ratio(colours["paper"]!, colours["ink"]!)).toBeGreaterThanOrEqual(enough));
  it("hatching can be seen", () => expect(ratio(colours["hatch"]!, colours["paper"]!)).toBeGreaterThanOrEqual(3));
});
