package sun

import (
	"math"
	"strings"
	"testing"
	"time"

	"haulm/garden"
)

func dayOf(t testing.TB, text string) garden.Day {
	t.Helper()
	day, err := garden.ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return day
}

func mustZone(t testing.TB, name string) *time.Location {
	t.Helper()
	zone, err := Zone(name)
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

func ask(t testing.TB, lat, lon float64, day, zone string) DayAnswer {
	t.Helper()
	answer, err := DayOf(DayQuestion{lat, lon, dayOf(t, day), zone})
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

func TestDayInTheZonesOwnTime(t *testing.T) {
	answer := ask(t, 51.5, -0.1, "2026-06-21", "Europe/London")
	for what, at := range map[string]string{"rise": *answer.Rise, "transit": answer.Transit, "set": *answer.Set} {
		if !strings.HasPrefix(at, "2026-06-21T") || !strings.HasSuffix(at, "+01:00") {
			t.Errorf("%s is %s, want 21 June in summer time", what, at)
		}
	}
	byOffset := ask(t, 51.5, -0.1, "2026-06-21", "+01:00")
	if *byOffset.Rise != *answer.Rise || byOffset.Transit != answer.Transit || *byOffset.Set != *answer.Set {
		t.Errorf("by offset %v, by name %v", byOffset, answer)
	}
}

// A date on which clocks change is as long as it is, and one that a zone left out
// has no sun: Samoa went from 29 to 31 December 2011.
func TestDaysThatAreNotTwentyFourHours(t *testing.T) {
	zone := mustZone(t, "Europe/London")
	for day, hours := range map[string]float64{"2026-03-29": 23, "2026-10-25": 25, "2026-06-21": 24} {
		d := dayOf(t, day)
		near(t, day, (startOf(d+1, zone)-startOf(d, zone))/3600, hours, 0)
	}
	_, err := DayOf(DayQuestion{-13.8, -171.8, dayOf(t, "2011-12-30"), "Pacific/Apia"})
	if err == nil || !strings.Contains(err.Error(), "day 2011-12-30 was left out in Pacific/Apia") {
		t.Errorf("error %v", err)
	}
}

// Where the midnight sun begins and ends a date may have a rise or a set alone, a
// set before the rise, or two of one: found here by stepping every twenty seconds.
func TestDaysAtTheEdgeOfThePolarDay(t *testing.T) {
	var onlyOne, setsFirst, risesTwice, setsTwice int
	zone := mustZone(t, "Europe/Oslo")
	for _, lon := range []float64{18.96, 25, 29, 36} {
		for d := dayOf(t, "2026-05-10"); d < dayOf(t, "2026-08-02"); d++ {
			answer := ask(t, 69.65, lon, d.String(), "Europe/Oslo")
			if answer.Polar != "" || answer.LengthHours < 22 {
				continue
			}
			stepped := steppedDay(sky{69.65, lon}, startOf(d, zone), startOf(d+1, zone))
			near(t, d.String()+" hours up", answer.LengthHours, stepped.up/3600, 0.02)
			sameMoment(t, d.String()+" rise", answer.Rise, stepped.rise)
			sameMoment(t, d.String()+" set", answer.Set, stepped.set)
			switch {
			case stepped.rises > 1:
				risesTwice++
			case stepped.sets > 1:
				setsTwice++
			case answer.Rise == nil || answer.Set == nil:
				onlyOne++
			case *answer.Rise > *answer.Set:
				setsFirst++
			}
		}
	}
	if onlyOne == 0 || setsFirst == 0 || risesTwice == 0 || setsTwice == 0 {
		t.Errorf("%d dates with a rise or a set alone, %d with a set first, %d with two rises, %d with two sets: no sight of one of them", onlyOne, setsFirst, risesTwice, setsTwice)
	}
}

type stepped struct {
	risings
	rises, sets int
}

func steppedDay(s sky, from, to float64) stepped {
	const step = 20
	day := stepped{risings: risings{rise: math.NaN(), set: math.NaN()}}
	was := s.height(from) >= 0
	for unix := from + step; unix <= to; unix += step {
		is := s.height(unix) >= 0
		if is {
			day.up += step
		}
		switch {
		case is && !was:
			if day.rises++; day.rises == 1 {
				day.rise = unix
			}
		case was && !is:
			day.sets++
			day.set = unix
		}
		was = is
	}
	return day
}

func sameMoment(t testing.TB, what string, is *string, want float64) {
	t.Helper()
	if (is == nil) != math.IsNaN(want) {
		t.Errorf("%s: %v, stepped %v", what, is, want)
	} else if is != nil {
		near(t, what, unixOf(t, *is), want, 21)
	}
}

// The sun that shows itself for less than the time between looks is not missed: on
// the day of the solstice it stands highest at its transit, and whether it is up
// there decides whether the date is polar.
func TestShortestDays(t *testing.T) {
	shortest := math.Inf(1)
	for lon := 15.0; lon < 17.5; lon += 0.4 {
		for lat := 67.38; lat < 67.42; lat += 0.001 {
			answer := ask(t, lat, lon, "2026-12-21", "+01:00")
			highest := sky{lat, lon}.height(sky{lat, lon}.transitNear(unixOf(t, answer.Transit)))
			if want := highest >= 0; (answer.Polar == "") != want && math.Abs(highest) > 1e-6 {
				t.Errorf("at %.3f° %.1f° the sun comes up to %.5f° and the date is polar %q", lat, lon, highest, answer.Polar)
			}
			if answer.Polar == "" {
				shortest = min(shortest, answer.LengthHours)
			}
		}
	}
	if shortest > lookSeconds/3600 {
		t.Errorf("the shortest day found is %.2f h: no sight of the edge", shortest)
	}
}

// Whatever the zone, the transit is the one of the date: the sun is on the meridian
// then, and not half a day from the date's middle but for the day that the equation
// of time leaves over.
func TestTransitInAnyZone(t *testing.T) {
	for lon := -180.0; lon <= 180; lon += 45 {
		for _, name := range []string{"Z", "Pacific/Auckland", "Pacific/Honolulu", "-03:30"} {
			for d := dayOf(t, "2026-01-05"); d.Year() == 2026; d += 31 {
				answer := ask(t, -35, lon, d.String(), name)
				transit := unixOf(t, answer.Transit)
				near(t, "hour angle at the transit", hourAngle(apparentSun(at(transit)), lon)/degree, 0, 0.003)
				zone := mustZone(t, name)
				from, to := startOf(d, zone), startOf(d+1, zone)
				if transit < from-60 || transit > to+60 {
					t.Errorf("at %g° east the date %s in %s has its transit %s", lon, d, name, answer.Transit)
				}
			}
		}
	}
}

func TestPoles(t *testing.T) {
	for _, c := range []struct {
		lat        float64
		day, polar string
	}{{90, "2026-06-21", "day"}, {90, "2026-12-21", "night"}, {-90, "2026-12-21", "day"}, {-90, "2026-06-21", "night"}} {
		if answer := ask(t, c.lat, 0, c.day, "Z"); answer.Polar != c.polar {
			t.Errorf("%g° on %s: %+v, want polar %s", c.lat, c.day, answer, c.polar)
		}
	}
	rises := 0
	for d := dayOf(t, "2026-03-10"); d < dayOf(t, "2026-03-30"); d++ {
		if answer := ask(t, 90, 0, d.String(), "Z"); answer.Rise != nil && answer.Set == nil {
			rises++
		}
	}
	if rises != 1 {
		t.Errorf("at the north pole the sun rises %d times in March, want once", rises)
	}
}

func TestSunRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		err  error
		says string
	}{
		{"latitude", errOf(At(Question{91, 0, "2026-06-21T12:00:00Z"})), "lat 91 is outside -90 to 90"},
		{"longitude", errOf(At(Question{0, 1e308, "2026-06-21T12:00:00Z"})), "lon 1e+308 is outside -180 to 180"},
		{"not a number", errOf(At(Question{math.NaN(), 0, "2026-06-21T12:00:00Z"})), "lat NaN"},
		{"time", errOf(At(Question{0, 0, "noon"})), `at "noon" is not a time`},
		{"year", errOf(At(Question{0, 0, "1850-06-21T12:00:00Z"})), "at is in 1850"},
		{"day's latitude", errOf(DayOf(DayQuestion{-91, 0, 0, "Z"})), "lat -91 is outside -90 to 90"},
		{"day's year", errOf(DayOf(DayQuestion{0, 0, garden.DayOf(2150, 1, 1), "Z"})), "day is in 2150"},
		{"zone", errOf(DayOf(DayQuestion{0, 0, 0, "Mars/Olympus"})), `timeZone "Mars/Olympus" is not known`},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%s: error %v, want one that says %q", c.name, c.err, c.says)
		}
	}
}

func errOf[T any](_ T, err error) error { return err }
