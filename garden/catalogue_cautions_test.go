package garden

import (
	"slices"
	"strings"
	"testing"
)

// The cautions that a genus always carries, whatever the species. Checked
// against: "Potentially harmful garden plants" (Amateur Gardening), "Poisonous,
// harmful and dangerous plants" (GardenForum Horticulture), "Danger in the
// garden" (The Oregonian, 2008), the lists of plants toxic to pets of Meadows
// Farms Nurseries, and "Lilies" (Pet Poison Helpline) for the kidneys of cats.
// Genera under "common practice" are from general knowledge. The list holds
// genera that the catalogue does not have yet, so that they cannot come in bare.
func cautionsByGenus() map[string]string {
	needs := map[string]string{
		"Lilium": "cats", "Hemerocallis": "cats",
		"Aconitum":  "poison poison-skin",
		"Dictamnus": "sun-burn skin", "Ruta": "sun-burn poison", "Heracleum": "sun-burn skin",
		"Euphorbia": "eyes skin poison",
		"Daphne":    "poison skin", "Helleborus": "poison skin", "Narcissus": "poison skin",
		"Allium": "pets", "Tulipa": "pets", "Hosta": "pets", "Gladiolus": "pets", "Dahlia": "pets", "Chrysanthemum": "pets skin",
		"Primula": "skin", "Alstroemeria": "skin", "Echium": "skin",
		// common practice
		"Rosa": "thorns", "Berberis": "thorns", "Mahonia": "thorns", "Ilex": "thorns poison", "Pyracantha": "thorns",
		"Chaenomeles": "thorns poison", "Crataegus": "thorns", "Eryngium": "thorns", "Echinops": "thorns", "Yucca": "thorns",
		"Cotinus": "skin", "Rhus": "skin", "Fatsia": "skin", "Hedera": "skin poison", "Clematis": "skin poison",
		"Buddleja": "invades", "Crocosmia": "invades",
	}
	const poisonous = "Actaea Aesculus Agrostemma Anemone Aquilegia Arum Atropa Brugmansia Buxus Caltha Colchicum Convallaria " +
		"Cyclamen Datura Delphinium Digitalis Eranthis Erysimum Fritillaria Galanthus Hyacinthoides Hyacinthus Hydrangea " +
		"Hyoscyamus Iris Kalmia Laburnum Lathyrus Leucojum Ligustrum Lobelia Lonicera Lupinus Nerine Nerium Nicotiana " +
		"Ornithogalum Paeonia Papaver Phytolacca Pieris Prunus Pulsatilla Ranunculus Rhododendron Ricinus Sarcococca " +
		"Scilla Solanum Symphoricarpos Taxus Thalictrum Trollius Veratrum Viburnum Wisteria Zantedeschia"
	for _, genus := range strings.Fields(poisonous) {
		needs[genus] = "poison"
	}
	return needs
}

// The kinds that spread into the wild and are listed somewhere for it (common
// practice; the lists differ by country, which the words say).
func invasiveSpecies() []string {
	return []string{"Rosa rugosa", "Lupinus polyphyllus", "Miscanthus sinensis", "Wisteria sinensis", "Buddleja davidii", "Crocosmia × crocosmiiflora"}
}

// Thornless by name and nature.
func thornless() []string { return []string{"rosa-zephirine-drouhin"} }

func TestCatalogueKindsCarryTheCautionsOfTheirGenus(t *testing.T) {
	needs := cautionsByGenus()
	met := map[string]bool{}
	eachKind(t, func(t *testing.T, kind Kind) {
		genus, _, _ := strings.Cut(strings.TrimPrefix(kind.Name, "× "), " ")
		for _, code := range strings.Fields(needs[genus]) {
			met[code] = true
			if !hasCaution(kind, code) && !(code == "thorns" && slices.Contains(thornless(), kind.ID)) {
				t.Errorf("%s has no caution %q", kind.Name, code)
			}
		}
	})
	for _, code := range []string{"poison", "poison-skin", "skin", "eyes", "sun-burn", "thorns", "cats", "pets", "invades"} {
		if !met[code] {
			t.Errorf("no kind of the catalogue puts the caution %q to the test", code)
		}
	}
}

func TestCatalogueInvasiveKindsSaySo(t *testing.T) {
	eachKind(t, func(t *testing.T, kind Kind) {
		if slices.Contains(invasiveSpecies(), kind.Name) && !hasCaution(kind, "invades") {
			t.Errorf("%s has no caution %q", kind.Name, "invades")
		}
	})
}

// The gravest stands first, since a small screen may show only that one.
func TestCatalogueCautionsAreKnownCodesWithSentences(t *testing.T) {
	gravestFirst := []string{"cats", "eyes", "sun-burn", "poison", "poison-skin", "skin", "thorns", "breath", "allergy", "pets", "invades"}
	eachKind(t, func(t *testing.T, kind Kind) {
		before := -1
		for _, caution := range kind.Cautions {
			rank := slices.Index(gravestFirst, caution.Code)
			if rank <= before {
				t.Errorf("caution %q is unknown, given twice, or stands after a lesser one", caution.Code)
			}
			if !isSentence(caution.Words) {
				t.Errorf("caution %q says %q", caution.Code, caution.Words)
			}
			before = rank
		}
	})
}

// A kind that hurts through skin, eyes or sunlight says what to wear or do, since
// the words are what stands beside the plant.
func TestCatalogueContactCautionsSayWhatToDo(t *testing.T) {
	eachKind(t, func(t *testing.T, kind Kind) {
		for _, caution := range kind.Cautions {
			severe := slices.Contains([]string{"poison-skin", "eyes", "sun-burn"}, caution.Code)
			words := strings.ToLower(caution.Words)
			if severe && !strings.Contains(words, "wear") && !strings.Contains(words, "cover") {
				t.Errorf("caution %q does not say what to wear: %s", caution.Code, caution.Words)
			}
		}
	})
}

func hasCaution(kind Kind, code string) bool {
	return slices.ContainsFunc(kind.Cautions, func(c Caution) bool { return c.Code == code })
}
