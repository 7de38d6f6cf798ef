import { describe, expect, it } from "vitest";
import { nameParts, plainName } from "./plant-name";

/** Written with _italic_ marks, so that a wrong style shows in the text. */
function marked(name: string): string {
  return nameParts(name).map(({ text, style }) => (style === "latin" ? `_${text}_` : text)).join("");
}

// The forms are those of the International Code of Nomenclature for Cultivated
// Plants, 9th edition (2016).
describe("nameParts", () => {
  const cases: readonly (readonly [form: string, name: string, printed: string])[] = [
    ["species", "Iris sibirica", "_Iris sibirica_"],
    ["genus alone", "Iris", "_Iris_"],
    ["hybrid species", "Helleborus × hybridus", "_Helleborus_ × _hybridus_"],
    ["the letter x as the sign", "Aster x frikartii", "_Aster_ × _frikartii_"],
    ["the sign against the epithet", "Geranium ×magnificum", "_Geranium_ ×_magnificum_"],
    ["hybrid genus", "× Heucherella tiarelloides", "× _Heucherella tiarelloides_"],
    ["hybrid genus, sign against it", "×Fatshedera lizei", "×_Fatshedera lizei_"],
    ["graft-chimaera", "+ Laburnocytisus ‘Adamii’", "+ _Laburnocytisus_ ‘Adamii’"],
    ["hybrid formula", "Digitalis lutea × D. purpurea", "_Digitalis lutea_ × _D. purpurea_"],
    ["cultivar of a genus", "Rosa ‘Ballerina’", "_Rosa_ ‘Ballerina’"],
    ["cultivar in straight quotes", "Rosa 'Mutabilis'", "_Rosa_ ‘Mutabilis’"],
    ["cultivar of several words", "Clematis ‘Queen of the night’", "_Clematis_ ‘Queen of the night’"],
    ["cultivar with an apostrophe", "Geranium ‘Johnson’s Blue’", "_Geranium_ ‘Johnson’s Blue’"],
    ["cultivar with an elision", "Primula 'Jeanne d'Arc'", "_Primula_ ‘Jeanne d’Arc’"],
    ["cultivar with a sign in it", "Rosa ‘Love x peace’", "_Rosa_ ‘Love x peace’"],
    ["cultivar of a hybrid", "Aster × frikartii ‘Mönch’", "_Aster_ × _frikartii_ ‘Mönch’"],
    ["cultivar crossed", "Rosa ‘Ballerina’ × Rosa gallica", "_Rosa_ ‘Ballerina’ × _Rosa gallica_"],
    ["cultivar without its last quote", "Rosa ‘Old pink", "_Rosa_ ‘Old pink"],
    ["subspecies", "Euphorbia characias subsp. wulfenii", "_Euphorbia characias_ subsp. _wulfenii_"],
    ["variety and cultivar", "Rudbeckia fulgida var. sullivantii ‘Goldsturm’", "_Rudbeckia fulgida_ var. _sullivantii_ ‘Goldsturm’"],
    ["form", "Wisteria floribunda f. alba", "_Wisteria floribunda_ f. _alba_"],
    ["author before a rank", "Salvia nemorosa L. subsp. tesquicola", "_Salvia nemorosa_ L. subsp. _tesquicola_"],
    ["Group", "Delphinium Elatum Group", "_Delphinium_ Elatum Group"],
    ["Group in brackets", "Delphinium (Elatum Group) ‘Faust’", "_Delphinium_ (Elatum Group) ‘Faust’"],
    ["Group of a species", "Brassica oleracea Capitata Group", "_Brassica oleracea_ Capitata Group"],
    ["selling name", "Rosa ROALD DAHL (‘Ausowlish’)", "_Rosa_ ROALD DAHL (‘Ausowlish’)"],
    ["of gardens", "Helleborus orientalis hort.", "_Helleborus orientalis_ hort."],
    ["species unknown", "Heuchera sp.", "_Heuchera_ sp."],
    ["two spaces", "Iris  sibirica ", "_Iris sibirica_"],
    ["somebody's own words", "pink one from Mum", "pink one from Mum"],
    ["nothing", "", ""],
  ];
  it.each(cases)("sets a %s", (_, name, printed) => expect(marked(name)).toBe(printed));

  it("prints a selling name in a letter of its own", () =>
    expect(nameParts("Rosa ROALD DAHL").at(-1)).toEqual({ text: "ROALD DAHL", style: "selling" }));

  it("loses no letter of any text, and never gives two neighbours one style", () => {
    const words = ["Rosa", "gallica", "×", "×alba", "+", "‘Old", "Pink’", "‘Blue’", "subsp.", "f.", "L.", "Group", "hort.", "(", "’", "ROSE", "é", "(‘A’)"];
    for (let seed = 1; seed < 4000; seed++) {
      const name = Array.from({ length: seed % 7 }, (_, at) => words[(seed * (at + 3) * 7919 + at * 104_729) % words.length]).join(" ");
      const parts = nameParts(name);
      expect(plainName(name)).toBe(name);
      expect(parts.some(({ text }, at) => text === "" || (at > 0 && parts[at - 1]!.style === parts[at]!.style)), name).toBe(false);
    }
  });
});
