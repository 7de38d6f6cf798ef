package garden

import (
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// The forms are those of the International Code of Nomenclature for Cultivated
// Plants, 9th edition (2016); italics are marked by underscores.
func TestNamePartsSetsEachFormOfName(t *testing.T) {
	cases := map[string]struct{ name, want string }{
		"species":                         {"Iris sibirica", "_Iris sibirica_"},
		"genus alone":                     {"Iris", "_Iris_"},
		"hybrid species":                  {"Helleborus × hybridus", "_Helleborus_ × _hybridus_"},
		"the letter x as the sign":        {"Aster x frikartii", "_Aster_ x _frikartii_"},
		"the sign against the epithet":    {"Geranium ×magnificum", "_Geranium_ ×_magnificum_"},
		"hybrid genus":                    {"× Heucherella tiarelloides", "× _Heucherella tiarelloides_"},
		"hybrid genus, sign against it":   {"×Fatshedera lizei", "×_Fatshedera lizei_"},
		"graft-chimaera":                  {"+ Laburnocytisus ‘Adamii’", "+ _Laburnocytisus_ ‘Adamii’"},
		"hybrid formula":                  {"Digitalis lutea × D. purpurea", "_Digitalis lutea_ × _D. purpurea_"},
		"cultivar of a genus":             {"Rosa ‘Ballerina’", "_Rosa_ ‘Ballerina’"},
		"cultivar in straight quotes":     {"Rosa 'Mutabilis'", "_Rosa_ 'Mutabilis'"},
		"cultivar of several words":       {"Clematis ‘Queen of the night’", "_Clematis_ ‘Queen of the night’"},
		"cultivar with an apostrophe":     {"Geranium ‘Johnson’s Blue’", "_Geranium_ ‘Johnson’s Blue’"},
		"cultivar with a sign in it":      {"Rosa ‘Love x peace’", "_Rosa_ ‘Love x peace’"},
		"cultivar of a hybrid":            {"Aster × frikartii ‘Mönch’", "_Aster_ × _frikartii_ ‘Mönch’"},
		"cultivar crossed":                {"Rosa ‘Ballerina’ × Rosa gallica", "_Rosa_ ‘Ballerina’ × _Rosa gallica_"},
		"cultivar without its last quote": {"Rosa ‘Old pink", "_Rosa_ ‘Old pink"},
		"subspecies":                      {"Euphorbia characias subsp. wulfenii", "_Euphorbia characias_ subsp. _wulfenii_"},
		"variety and cultivar":            {"Rudbeckia fulgida var. sullivantii ‘Goldsturm’", "_Rudbeckia fulgida_ var. _sullivantii_ ‘Goldsturm’"},
		"form":                            {"Wisteria floribunda f. alba", "_Wisteria floribunda_ f. _alba_"},
		"author before a rank":            {"Salvia nemorosa L. subsp. tesquicola", "_Salvia nemorosa_ L. subsp. _tesquicola_"},
		"Group":                           {"Delphinium Elatum Group", "_Delphinium_ Elatum Group"},
		"Group in brackets":               {"Delphinium (Elatum Group) ‘Faust’", "_Delphinium_ (Elatum Group) ‘Faust’"},
		"Group of a species":              {"Brassica oleracea Capitata Group", "_Brassica oleracea_ Capitata Group"},
		"selling name":                    {"Rosa ROALD DAHL (‘Ausowlish’)", "_Rosa_ ROALD DAHL (‘Ausowlish’)"},
		"of gardens":                      {"Helleborus orientalis hort.", "_Helleborus orientalis_ hort."},
		"species unknown":                 {"Heuchera sp.", "_Heuchera_ sp."},
		"two spaces":                      {"Iris  sibirica ", "_Iris sibirica_"},
		"somebody's own words":            {"pink one from Mum", "pink one from Mum"},
		"nothing":                         {"", ""},
	}
	for form, c := range cases {
		t.Run(form, func(t *testing.T) {
			if got := marked(NameParts(c.name)); got != c.want {
				t.Errorf("%q is set as %q, want %q", c.name, got, c.want)
			}
		})
	}
}

func TestNamePartsLosesNoLetterAndAlternates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.SampledFrom([]string{"Rosa", "gallica", "×", "×alba", "x", "+", "‘Old", "Pink’", "'Blue'", "subsp.", "f.", "L.", "Group", "hort.", "(", "’", "'", "ROSE", "é"})).Draw(t, "words")
		name := strings.Join(words, " ")
		var joined strings.Builder
		parts := NameParts(name)
		for i, part := range parts {
			joined.WriteString(part.Text)
			if part.Text == "" || i > 0 && part.Italic == parts[i-1].Italic {
				t.Fatalf("%q: part %d of %v is empty or in the style of the one before", name, i, parts)
			}
		}
		if joined.String() != name {
			t.Fatalf("%q became %q", name, joined.String())
		}
	})
}

func TestNamePartsOfAnyTextIsSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.String().Draw(t, "name")
		var joined string
		for _, part := range NameParts(name) {
			joined += part.Text
		}
		if want := strings.Join(strings.FieldsFunc(name, unicode.IsSpace), " "); joined != want {
			t.Fatalf("%q became %q", name, joined)
		}
	})
}

func marked(parts []NamePart) string {
	var out strings.Builder
	for _, part := range parts {
		if part.Italic {
			out.WriteString("_" + part.Text + "_")
		} else {
			out.WriteString(part.Text)
		}
	}
	return out.String()
}
