import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Kind } from "../words/records";
import { Search } from "./search";
import { errorsIn, soundOf, wordsOf } from "./spelling";

const { kinds } = JSON.parse(readFileSync(join(import.meta.dirname, "../../../garden/catalogue.json"), "utf8")) as { kinds: Kind[] };

/** The catalogue as it ships, two beds, and some plantings, one of them by its label alone. */
function garden(): Search {
  const search = new Search();
  for (const kind of kinds) search.putKind(kind.id, kind);
  for (const [id, name] of [["long", "Long border"], ["steps", "North steps"]] as const) search.putBed(id, { id, ref: `bed/${id}`, name });
  const plant = (id: string, fields: object): void => search.putPlanting(id, { id, ref: `planting/${id}`, ...fields });
  plant("hellebore", { kind: "helleborus-hybridus", bed: "steps" });
  plant("sage-1", { kind: "salvia-nemorosa-ostfriesland", bed: "long" });
  plant("sage-2", { kind: "salvia-nemorosa-ostfriesland", bed: "steps" });
  plant("rambler", { label: "Rosa ‘Gatepost Pink’", bed: "long" });
  return search;
}

const search = garden();

/** What is found, in order: plantings by their id, kinds by their name. */
const found = (text: string): string[] => search.find(text).map((hit) => (hit.what === "planting" ? hit.planting.id : hit.kind.name!));

describe("a name misspelt finds first what was meant, or any of its genus", () => {
  it.each([
    // swapped letters
    ["slavia", "sage-1"], ["astrnatia", "Astrantia major"], ["ehcinops", "Echinops ritro"], ["lialc", "Syringa vulgaris"], ["tulpia", "Tulipa ‘Queen of Night’"], ["foxlgove", "Digitalis purpurea"],
    // a letter dropped
    ["hydrangia", "Hydrangea anomala subsp. petiolaris"], ["agapantus", "Agapanthus campanulatus"], ["delphinum", "Delphinium elatum"], ["wistria", "Wisteria sinensis"], ["colmbine", "Aquilegia vulgaris"],
    ["snodrop", "Galanthus nivalis"], ["eryngum", "Eryngium planum"], ["chrysantemum", "Chrysanthemum ‘Emperor of China’"], ["pulmonria", "Pulmonaria officinalis"],
    // a letter doubled, or one of two left out
    ["hellebborus", "hellebore"], ["camelia", "Camellia sasanqua"], ["camasia", "Camassia leichtlinii"], ["lillium", "Lilium martagon"], ["narcisus", "Narcissus"],
    ["tomasinianus", "Crocus tommasinianus"], ["polyphylus", "Lupinus polyphyllus"], ["narccissus", "Narcissus"], ["fritilaria", "Fritillaria imperialis"],
    // wrong vowels
    ["salvea", "sage-1"], ["hellibore", "hellebore"], ["hellaborus", "hellebore"], ["weigelia", "Weigela florida"], ["wistaria", "Wisteria sinensis"], ["calandula", "Calendula officinalis"], ["bergania", "Bergenia cordifolia"],
    ["clamatis", "Clematis alpina"], ["epimidium", "Epimedium × versicolor ‘Sulphureum’"], ["verbina", "Verbena bonariensis"], ["eupatorium epithimoides", "Euphorbia epithymoides"],
    // as it sounds: ph and f, y and i, c and k, rh, th, silent letters
    ["flox", "Phlox paniculata"], ["filadelfus", "Philadelphus coronarius"], ["delfinium", "Delphinium elatum"], ["fuksia", "Fuchsia magellanica"], ["fuschia", "Fuchsia magellanica"], ["sirringa", "Syringa vulgaris"],
    ["rudbekia", "Rudbeckia fulgida var. sullivantii ‘Goldsturm’"], ["krokosmia", "Crocosmia × crocosmiiflora"], ["nifofia", "Kniphofia uvaria"], ["sarcocoka", "Sarcococca confusa"], ["jeranium", "Geranium macrorrhizum"],
    ["peony", "Paeonia lactiflora ‘Sarah Bernhardt’"], ["peonia", "Paeonia lactiflora ‘Sarah Bernhardt’"], ["liclac", "Syringa vulgaris"], ["buddlia", "Buddleja davidii"], ["buddleia", "Buddleja davidii"],
    ["escholtzia", "Eschscholzia californica"], ["hortensia", "Hydrangea macrophylla"], ["eringium", "Eryngium planum"], ["macrorhizum", "Geranium macrorrhizum"],
    // accents, quotes, hyphens, the hybrid sign, one word or two
    ["zephirine drouhin", "Rosa ‘Zéphirine Drouhin’"], ["madame carriere", "Rosa ‘Madame Alfred Carrière’"], ["monch", "Aster × frikartii ‘Mönch’"], ["geranium x magnificum", "Geranium × magnificum"],
    ["'nelly moser'", "Clematis ‘Nelly Moser’"], ["ladys mantle", "Alchemilla mollis"], ["lady's mantle", "Alchemilla mollis"], ["lily-of-the-valley", "Convallaria majalis"], ["daylily", "Hemerocallis lilioasphodelus"],
    ["johnsons blue", "Geranium ‘Johnson’s Blue’"], ["ost friesland", "sage-1"], ["ostfreisland", "sage-1"], ["forget me not", "Myosotis sylvatica"], ["love in a mist", "Nigella damascena"],
    // synonyms, a cultivar alone, beds and labels
    ["perovskia", "Salvia yangii"], ["persicaria", "Bistorta amplexicaulis"], ["sedum", "Hylotelephium ‘Herbstfreude’"], ["sedum autum joy", "Hylotelephium ‘Herbstfreude’"], ["goldstrum", "Rudbeckia fulgida var. sullivantii ‘Goldsturm’"],
    ["japonica", "Chaenomeles speciosa"], ["gatepost pnik", "rambler"], ["salvia north steps", "sage-2"], ["rosa long border", "rambler"], ["lenten rose", "hellebore"],
  ])("%s → %s", (typed, meant) => {
    expect(found(typed)[0]?.slice(0, meant.length)).toBe(meant);
  });
});

describe("what is found", () => {
  it("stands with plantings first", () => {
    expect(found("salvia")).toEqual(["sage-1", "sage-2", "Salvia yangii", "Salvia nemorosa ‘Ostfriesland’"]);
  });

  it("stands with whole words before parts of words", () => {
    const roses = found("rose");
    expect(roses.slice(0, -1)).toContain("Rosa rugosa");
    expect(roses.at(-1)).toBe("Prunus × subhirtella ‘Autumnalis’"); // the rosebud cherry
  });

  it("leaves out what is only like it when it is there itself", () => {
    expect(found("holly")).toEqual(["Ilex aquifolium", "Eryngium planum"]);
  });

  it("follows a name as it is typed, slips and all", () => {
    for (const begun of ["del", "delf", "delfi", "delfin", "delhpin", "delphin"]) expect(found(begun)).toContain("Delphinium elatum");
  });

  it("needs all words, and says where it has only some", () => {
    expect(search.find("iris sibirica").map(({ whole }) => whole)).toEqual([true]);
    expect(search.find("iris brontosaurus").every(({ whole }) => !whole)).toBe(true);
    expect(found("iris brontosaurus")).toContain("Iris sibirica");
  });

  it("is nothing for what no name is like", () => {
    expect([found("zzzzzz"), found("qwertzuiop"), found("× ‘’"), found("")]).toEqual([[], [], [], []]);
  });

  it("does not bend the shortest words", () => {
    expect(found("fig")).toEqual([]);
  });
});

describe("the index", () => {
  it("follows each record by itself", () => {
    const search = garden();
    const first = (text: string) => search.find(text)[0];
    search.putPlanting("rambler", { id: "rambler", ref: "planting/rambler", label: "Rosa ‘Barn End’", bed: "steps" });
    expect([first("gatepost"), first("barn end")?.what]).toEqual([undefined, "planting"]);
    search.putBed("steps", { id: "steps", ref: "bed/steps", name: "Kitchen steps" });
    expect([first("north steps")?.whole, first("kitchen steps")?.what]).toEqual([false, "planting"]);
    search.putPlanting("rambler", null);
    expect(search.find("barn end").filter(({ what }) => what === "planting")).toEqual([]);
    search.putKind("own", { id: "own", ref: "kind/own", name: "Quince ‘Own’", common: [] });
    expect(first("quince own")).toMatchObject({ what: "kind", kind: { id: "own" } });
  });
});

describe("spelling", () => {
  it("reads words without accents, quotes, hybrid signs and ranks", () => {
    expect(wordsOf("Rosa × ‘Félicité Perpétue’ hort., lady’s x var. Weiß")).toEqual(["rosa", "felicite", "perpetue", "ladys", "weiss"]);
  });

  it.each([["phlox", "flocs"], ["rhus", "rus"], ["scilla", "silla"]])("%s sounds like %s", (one, other) => {
    expect(soundOf(one)).toBe(soundOf(other));
  });

  it.each([["abcd", "abcd", 0], ["abdc", "abcd", 1], ["bcdf", "abcdf", 1], ["salvea", "salvia", 0.5], ["abxx", "abcd", 2], ["", "a", 1]])("%s to %s is %d", (one, other, errors) => {
    expect(errorsIn(one, other, 3)).toBe(errors);
    expect(errorsIn(other, one, 3)).toBe(errors);
  });

  it("measures against the likest beginning", () => {
    expect([errorsIn("delhp", "delphinium", 1, true), errorsIn("delxx", "delphinium", 1, true)]).toEqual([1, Number.POSITIVE_INFINITY]);
  });
});
