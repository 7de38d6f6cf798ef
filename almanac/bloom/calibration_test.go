package bloom

import (
	"math"
	"testing"

	"haulm/internal/reference"
)

// A tally counts how often something held.
type tally struct{ held, of float64 }

func (c *tally) count(held bool) {
	if c.of++; held {
		c.held++
	}
}

func (c tally) share() float64 { return c.held / c.of }

// TestBandsHoldTheTruth: in forty simulated gardens whose truth is known, the
// 80 % band of a left-out flush holds its true opening in 78 to 86 of a hundred
// (82 when this was written), and less than one healthy flush in a hundred would
// be called late.
func TestBandsHoldTheTruth(t *testing.T) {
	var band, alarm tally
	for seed := range uint64(40) {
		m, truth := simulate(100+seed, 20, 60, 4).model()
		for i := range m.flushes {
			cast := m.forecast(i)
			open := cast.opening()
			band.count(truth[i] > open.P10 && truth[i] <= open.P90)
			alarm.count(cast.beyond(bound(m.flushes[i].After, -1)) <= lateByLuck)
		}
	}
	if share := band.share(); share < 0.78 || share > 0.86 {
		t.Errorf("80 %% bands hold %.3f of %g flushes", share, band.of)
	}
	if share := alarm.share(); share > 0.01 {
		t.Errorf("%.4f of %g healthy flushes called late", share, alarm.of)
	}
}

// TestTheSeasonIsRecovered: the true season lies within the stated band, twice
// its sd, in nine years of ten or more, and within one sd in six or more.
func TestTheSeasonIsRecovered(t *testing.T) {
	var once, twice tally
	for seed := range uint64(40) {
		s := simulate(200+seed, 20, 60, 4)
		m, _ := s.model()
		for year := 2020; year < 2024; year++ {
			told := m.wholeYear(year)
			off := math.Abs(told.Days - s.seasonOf(year))
			once.count(off < told.SD)
			twice.count(off < 2*told.SD)
			if told.SD > 4 {
				t.Errorf("seed %d %d: the season is told as %.1f ± %.1f by 60 plants", 200+seed, year, told.Days, told.SD)
			}
		}
	}
	if once.share() < 0.6 || twice.share() < 0.9 {
		t.Errorf("within one sd %.2f, within two %.2f of %g seasons", once.share(), twice.share(), twice.of)
	}
}

// TestKyotoCherry takes cherry at Kyoto (testdata/reference) as one plant of one
// kind, looked at every fourth day, in stretches of 20 years, each year judged by
// the others of its stretch: the 80 % band holds between 80 and 96 of a hundred
// (93 when this was written: one tree in Kyoto's even springs varies less from
// year to year than the spreads stated for gardens, and twenty looks at one plant
// cannot tell season from chance). The book is given as 5 days late.
func TestKyotoCherry(t *testing.T) {
	years, days := kyoto(t)
	var band tally
	for from := 0; from+20 <= len(years); from += 20 {
		in := Input{Kinds: map[string]KindInput{"cherry": {ExpectedDay: 110}}}
		for i := from; i < from+20; i++ {
			after := 4 * math.Floor((days[i]-0.5)/4)
			by := after + 4
			in.Flushes = append(in.Flushes, FlushInput{Planting: "a", Kind: "cherry", Year: years[i], After: &after, By: &by})
		}
		out, err := FirstFlower(in)
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range out.Flushes {
			band.count(days[from+i] > f.P10 && days[from+i] <= f.P90)
		}
	}
	if share := band.share(); share < 0.8 || share > 0.96 || band.of != 820 {
		t.Errorf("80 %% bands hold %.3f of %g years", share, band.of)
	}
}

func kyoto(t *testing.T) (years []int, days []float64) {
	t.Helper()
	for _, row := range reference.Table(t, "phenology_kyoto_full_flowering.csv") {
		years, days = append(years, row.Int("year")), append(days, row.Float("full_flowering_day_of_year"))
	}
	return years, days
}
