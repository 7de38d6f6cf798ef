package sun

import (
	"math"
	"testing"
	"time"

	"haulm/garden"
)

// Monthly means of the daily minimum and maximum, rounded to half a degree (from
// memory), and when street trees there usually come into leaf (from memory): what
// the constants were chosen by, so this holds them where they are.
func TestLeafDatesByHeat(t *testing.T) {
	for _, c := range []struct {
		name     string
		lat      float64
		min, max [12]float64
		out      string
	}{
		{"London", 51.5, [12]float64{2.5, 2.5, 4, 5.5, 8.5, 11.5, 13.5, 13.5, 11, 8.5, 5, 3}, [12]float64{8, 8.5, 11.5, 14.5, 18, 21, 23.5, 23, 20, 15.5, 11, 8.5}, "2001-04-20"},
		{"Rome", 41.9, [12]float64{3, 3.5, 6, 8.5, 12.5, 16, 19, 19, 16, 12, 7.5, 4}, [12]float64{12, 13, 15.5, 18.5, 23.5, 27.5, 31, 31, 27, 22, 16.5, 12.5}, "2001-04-05"},
		{"New York", 40.7, [12]float64{-3, -2, 1.5, 7, 12, 17.5, 20.5, 20, 16, 10, 4.5, 0}, [12]float64{4, 6, 10, 16.5, 22, 27, 29.5, 28.5, 24.5, 18.5, 12.5, 6.5}, "2001-04-20"},
		{"Minneapolis", 45, [12]float64{-13.5, -11, -4.5, 2.5, 9, 15, 18, 16.5, 11.5, 4.5, -3, -10.5}, [12]float64{-4.5, -1.5, 5.5, 14, 21, 26, 28.5, 27, 22.5, 14.5, 5.5, -2}, "2001-05-01"},
		{"Helsinki", 60.2, [12]float64{-6.5, -7.5, -4, 0.5, 6, 11, 14, 13, 9, 4, 0.5, -3.5}, [12]float64{-1, -1.5, 2, 8, 15, 19, 22, 20.5, 15.5, 9, 4, 1}, "2001-05-15"},
	} {
		var normals, turned []garden.Normal
		for i := range c.min {
			normals = append(normals, garden.Normal{MinC: c.min[i], MaxC: c.max[i]})
		}
		turned = append(append(turned, normals[6:]...), normals[:6]...)
		out, fall := LeafDates(c.lat, normals)
		want := dayOf(t, c.out)
		if off := out.In(2001) - want; off < -10 || off > 10 {
			t.Errorf("%s comes into leaf on %s, want within 10 days of %s", c.name, out, c.out)
		}
		if fall.In(2001) < garden.DayOf(2001, 10, 1) || fall.In(2001) > garden.DayOf(2001, 11, 15) {
			t.Errorf("%s is bare on %s", c.name, fall)
		}
		south, southFall := LeafDates(-c.lat, turned)
		near(t, c.name+"'s leaf turned to the south", float64(south.In(2001)-out.In(2001)), halfYear, 4)
		near(t, c.name+"'s fall turned to the south", math.Abs(float64(southFall.In(2001)-fall.In(2001))), daysOfYear-halfYear, 4)
	}
}

func TestLeafDatesByLatitude(t *testing.T) {
	for _, c := range []struct {
		lat       float64
		out, fall string
	}{{51.5, "04-20", "11-15"}, {56.5, "05-10", "11-05"}, {-41, "09-07", "06-06"}, {0, "02-13", "12-18"}, {80, "06-13", "10-19"}} {
		out, fall := LeafDates(c.lat, nil)
		if out.String() != c.out || fall.String() != c.fall {
			t.Errorf("at %g° in leaf from %s to %s, want %s to %s", c.lat, out, fall, c.out, c.fall)
		}
	}
	arctic := make([]garden.Normal, 12)
	if out, _ := LeafDates(71, arctic); out.String() != "06-13" {
		t.Errorf("where no summer is warm, in leaf from %s: want the latitude's", out)
	}
}

func TestSeasons(t *testing.T) {
	for _, c := range []struct {
		lat  float64
		days int
		has  string
	}{{51.5, 183, "2026-07-01"}, {-40, 182, "2026-01-01"}, {-40, 182, "2026-12-31"}, {10, 365, "2026-12-31"}} {
		season, days := SeasonAt(c.lat), 0
		for d := dayOf(t, "2026-01-01"); d.Year() == 2026; d++ {
			if season.Has(d) {
				days++
			}
		}
		if days != c.days || !season.Has(dayOf(t, c.has)) {
			t.Errorf("at %g° the season %v has %d days, want %d with %s among them", c.lat, season, days, c.days, c.has)
		}
	}
}

// Full sun is six hours, part shade three to six (common practice).
func TestClasses(t *testing.T) {
	for hours, want := range map[float64]Class{6: FullSun, 5.99: PartSun, 3: PartSun, 2.99: Shade, 0: Shade} {
		if is := ClassOf(hours); is != want {
			t.Errorf("%g hours are %s, want %s", hours, is, want)
		}
	}
	open := siteOf(t, Place{Lat: 51.5}).Point([2]float64{}, 0)
	if is := ClassOf(open.GrowingSeason(2026, SeasonAt(51.5)).Total); is != FullSun {
		t.Errorf("an open field is %s", is)
	}
	if june := open.Month(2026, time.June); june.Total < 16 || june.Total > 17 {
		t.Errorf("June has %v", june)
	}
}
