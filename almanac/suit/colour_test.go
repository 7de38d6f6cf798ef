package suit

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"haulm/internal/reference"
)

// The 34 pairs of Sharma, Wu & Dalal (2005), Color Research & Application 30:21,
// table 1. In pair 10, on the hue discontinuity, a last bit decides, and either
// value may come out.
func TestColourDifferencesOfSharmaWuAndDalal(t *testing.T) {
	const discontinuity, otherSide = "10", 7.2195
	rows := reference.Table(t, "colour_ciede2000_sharma.csv")
	if len(rows) != 34 {
		t.Fatalf("%d pairs, want 34", len(rows))
	}
	for _, row := range rows {
		at := func(column string) float64 { return row.Float(column) / 100 }
		one, other := colorful.Lab(at("L1"), at("a1"), at("b1")), colorful.Lab(at("L2"), at("a2"), at("b2"))
		got, want := 100*one.DistanceCIEDE2000(other), row.Float("dE00_published_4dp")
		if row.Text("pair") == discontinuity && math.Abs(got-otherSide) < 1e-3 {
			continue
		}
		if math.Abs(got-want) > 1e-3 {
			t.Errorf("pair %s: %.4f, published %.4f", row.Text("pair"), got, want)
		}
	}
}

// 24 colours by the formula of CIE 15 with the sRGB matrix of IEC 61966-2-1. White
// points and matrices rounded to other digits differ by 0.02, a five-hundredth of
// what passes for the same colour.
func TestColoursInCIELAB(t *testing.T) {
	rows := reference.Table(t, "colour_srgb_lab.csv")
	if len(rows) != 24 {
		t.Fatalf("%d colours, want 24", len(rows))
	}
	for _, row := range rows {
		at := row.Float
		l, a, b := colorful.Color{R: at("r") / 255, G: at("g") / 255, B: at("b") / 255}.Lab()
		for of, off := range map[string]float64{"L": 100*l - at("L_D65_cie"), "a": 100*a - at("a_D65_cie"), "b": 100*b - at("b_D65_cie")} {
			if math.Abs(off) > 0.02 {
				t.Errorf("%s: %s is off by %.4f", row.Text("name"), of, off)
			}
		}
	}
}

// Kinds whose colour everyone knows.
func TestColoursFallWhereGardenersNameThem(t *testing.T) {
	for id, want := range map[string]shade{
		"galanthus-nivalis": white, "leucanthemum-superbum": white, "lonicera-purpusii": white,
		"narcissus-february-gold": yellow, "primula-vulgaris": yellow, "rudbeckia-fulgida-goldsturm": yellow, "alchemilla-mollis": yellow,
		"calendula-officinalis": orange, "eschscholzia-californica": orange,
		"dahlia-bishop-of-llandaff": red, "chaenomeles-speciosa": red, "papaver-orientale": red,
		"rosa-ballerina": pink, "paeonia-lactiflora-sarah-bernhardt": pink, "nerine-bowdenii": pink, "rosa-rugosa": pink,
		"lavandula-angustifolia": purple, "allium-hollandicum-purple-sensation": purple, "clematis-jackmanii": purple, "wisteria-sinensis": purple, "viola-odorata": purple,
		"iris-sibirica": blue, "scilla-siberica": blue, "muscari-armeniacum": blue, "agapanthus-campanulatus": blue, "nepeta-racemosa": blue,
		"dryopteris-filix-mas": green, "tulipa-queen-of-night": dark,
	} {
		for _, kind := range catalogue(t) {
			if kind.ID != id {
				continue
			}
			if got := shadesOf(kind.Colours[:1])[want]; got != 1 {
				t.Errorf("%s, %s, is not of shade %d", id, kind.Colours[0], want)
			}
		}
	}
}

func TestTheNearestOfTheColoursWantedCounts(t *testing.T) {
	spot := Spot{Colours: []string{"#ffffff", "#7566b0"}}
	lavender, _ := spot.colour(known(t, "lavandula-angustifolia"))
	poppy, _ := spot.colour(known(t, "papaver-orientale"))
	if *lavender.Score != 1 || lavender.Say != Fits {
		t.Errorf("lavender where its own colour is wanted: %+v", lavender)
	}
	if *poppy.Score > 0.5 || poppy.Say != OtherColour {
		t.Errorf("a scarlet poppy where white or lavender is wanted: %+v", poppy)
	}
}
