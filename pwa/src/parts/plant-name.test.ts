import { describe, expect, it } from "vitest";
import { nameParts, plainName } from "./plant-name";

/** Written with _italic_ marks, so that a wrong style shows in the text. */
function marked(name: string): string {
  return nameParts(name)
    .map(({ text, style }) => (style === "latin" ? text.replace(/\S(.*\S)?/u, "_$&_") : text))
    .join("");
}

describe("nameParts", () => {
  const cases: readonly (readonly [name: string, printed: string])[] = [
    ["Iris sibirica", "_Iris sibirica_"],
    ["Rosa 'Mutabilis'", "_Rosa_ ‘Mutabilis’"],
    ["Aster × frikartii 'Mönch'", "_Aster_ × _frikartii_ ‘Mönch’"],
    ["Aster x frikartii", "_Aster_ × _frikartii_"],
    ["Helleborus × hybridus", "_Helleborus_ × _hybridus_"],
    ["Narcissus poeticus var. recurvus", "_Narcissus poeticus_ var. _recurvus_"],
    ["Primula 'Jeanne d'Arc'", "_Primula_ ‘Jeanne d’Arc’"],
    ["Clematis Viticella Group 'Abundance'", "_Clematis_ Viticella Group ‘Abundance’"],
    ["Rosa ROALD DAHL ('Ausowlish')", "_Rosa_ ROALD DAHL (‘Ausowlish’)"],
    ["Phlomis samia hort.", "_Phlomis samia_ hort."],
    ["Heuchera sp.", "_Heuchera_ sp."],
  ];
  it.each(cases)("prints %s", (name, printed) => expect(marked(name)).toBe(printed));

  it("loses no letter", () => expect(plainName("Aster × frikartii 'Mönch'")).toBe("Aster × frikartii ‘Mönch’"));
});
