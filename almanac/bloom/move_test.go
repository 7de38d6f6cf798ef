package bloom

import (
	"math"
	"slices"
	"testing"

	"haulm/garden"
)

func gardenAt(lat, altitude float64) Here {
	return Here{Garden: garden.Garden{Lat: &lat, AltitudeM: &altitude}}
}

// opensOn is when a window that starts on a day opens in a garden: the day and
// year of the flush of 2025 or so.
func opensOn(g Here, from string, year int) (Flush, bool) {
	kind := kindOf("k", window(from, "12-31", ""))
	kind.Bloom[0].To = kind.Bloom[0].From
	p := plantOf("p", "k", notYet(day(2020, 1, 1)))
	for _, f := range Flushes(g, []garden.Kind{kind}, []Plant{p}, day(2026, 12, 31)) {
		if f.Year == year {
			return f, true
		}
	}
	return Flush{}, false
}

// TestHopkins: 4 days later for each degree poleward and each 400 feet up in
// spring (Hopkins 1918), half of that in the middle of the fading, none in autumn.
func TestHopkins(t *testing.T) {
	for _, c := range []struct {
		name          string
		lat, altitude float64
		from          string
		want          float64 // day of 2025
	}{
		{"the reference site", 51.5, 50, "05-01", 121},
		{"three degrees north", 54.5, 50, "05-01", 133},
		{"four degrees south", 47.5, 50, "05-01", 105},
		{"four hundred feet up", 51.5, 50 + 121.92, "05-01", 125},
		{"half faded", 54.5, 50, "07-24", 205 + 12*(244-205.0)/(244-166.0)},
		{"autumn", 54.5, 50, "09-20", 263},
		{"winter, half returned", 54.5, 50, "12-24", 358 + 12*(358-319.0)/(397-319.0)},
		{"February", 54.5, 50, "02-10", 53},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, ok := opensOn(gardenAt(c.lat, c.altitude), c.from, 2025)
			if !ok || math.Abs(f.Expected-c.want) > 1e-6 {
				t.Errorf("opens on %g, %g expected", f.Expected, c.want)
			}
		})
	}
}

// TestTheSouthIsHalfAYearOn: a May window opens at the end of October, seasons
// are widest in mid-August, and every year has its flush once.
func TestTheSouthIsHalfAYearOn(t *testing.T) {
	f, ok := opensOn(gardenAt(-51.5, 50), "05-01", 2025)
	if !ok || math.Abs(f.Expected-(121+182.625)) > 1e-6 {
		t.Errorf("%+v", f)
	}
	if sd := SeasonSD(46+182.625, true); sd != seasonSDLargest {
		t.Errorf("season sd %g in mid-August", sd)
	}
	for _, from := range []string{"07-02", "07-03", "01-01", "02-28", "03-01", "12-31"} {
		for year := 2020; year <= 2026; year++ {
			f, ok := opensOn(gardenAt(-38, 0), from, year)
			if !ok || f.Expected < -1 || f.Expected > 368 {
				t.Errorf("window from %s in %d: %v %g", from, year, ok, f.Expected)
			}
		}
	}
}

func TestBeyondItsLatitudesTheCatalogueIsNotTrusted(t *testing.T) {
	for lat, trusted := range map[float64]bool{24.9: false, 25: true, 65: true, 65.1: false, -24: false, -40: true, -70: false} {
		f, _ := opensOn(gardenAt(lat, 0), "05-01", 2025)
		if (f.Standing.Kind != NoExpectation) != trusted {
			t.Errorf("latitude %g: %+v", lat, f.Standing)
		}
	}
}

// TestSeasonSD holds the ends that the constants name and that it falls between.
func TestSeasonSD(t *testing.T) {
	if february, september := SeasonSD(46, false), SeasonSD(258, false); february != 9 || math.Abs(september-4.5) > 1e-9 {
		t.Errorf("%g in February, %g in September", february, september)
	}
	for d := 47.0; d <= 258; d++ {
		if SeasonSD(d, false) >= SeasonSD(d-1, false) {
			t.Fatalf("does not fall at day %g", d)
		}
	}
	if a, b := SeasonSD(-30, false), SeasonSD(335.25, false); math.Abs(a-b) > 1e-9 {
		t.Errorf("New Year cuts: %g and %g", a, b)
	}
}

// TestNormalsMove: a garden with the reference site's normals keeps its dates
// whatever its latitude says; two degrees warmer it is two to four weeks earlier
// in mid-April and not at all in October; in the far cold and the far warm the
// move has its bound; half a year later in the south.
func TestNormalsMove(t *testing.T) {
	at := func(warmer, lat float64, from string) float64 {
		here := gardenAt(lat, 50)
		for _, n := range referenceNormals() {
			here.Normals = append(here.Normals, garden.Normal{MinC: n.MinC + warmer, MaxC: n.MaxC + warmer})
		}
		if lat < 0 {
			here.Normals = append(slices.Clone(here.Normals[6:]), here.Normals[:6]...)
		}
		f, found := opensOn(here, from, 2025)
		if !found {
			t.Fatal("no flush of 2025")
		}
		return f.Expected
	}
	for _, c := range []struct {
		name             string
		warmer, lat      float64
		from             string
		earliest, latest float64
	}{
		{"the same heat further north", 0, 57, "04-15", 104.5, 105.5},
		{"warmer in spring", 2, 51.5, "04-15", 77, 91},
		{"warmer in autumn", 2, 51.5, "10-01", 273.5, 274.5},
		{"cold", -12, 51.5, "04-15", 105 + greatestMove - 0.1, 105 + greatestMove + 0.1},
		{"warm winters", 12, 30, "03-01", 60 - greatestMove - 0.1, 60 - greatestMove + 0.1},
		{"south", 0, -51.5, "04-15", 105 + halfYearDays - 2.5, 105 + halfYearDays + 2.5},
	} {
		if got := at(c.warmer, c.lat, c.from); got < c.earliest || got > c.latest {
			t.Errorf("%s: %g is outside %g to %g", c.name, got, c.earliest, c.latest)
		}
	}
}
