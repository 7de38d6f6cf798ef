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

// Where the midnight sun begins and ends the sun passes the horizon once in a
// date, or shortly below it and back: found here by stepping every ten seconds.
func TestDaysAtTheEdgeOfThePolarDay(t *testing.T) {
	onlyRises, onlySets, setsThenRises, night := 0, 0, 0, 0
	for d := dayOf(t, "2026-01-01"); d.Year() == 2026; d++ {
		answer := ask(t, 69.65, 18.96, d.String(), "Europe/Oslo")
		switch {
		case answer.Rise == nil && answer.Set == nil:
			night++
			continue
		case answer.Set == nil:
			onlyRises++
		case answer.Rise == nil:
			onlySets++
		case *answer.Rise > *answer.Set:
			setsThenRises++
		default:
			continue
		}
		sky, zone := sky{69.65, 18.96}, mustZone(t, "Europe/Oslo")
		up := 0.0
		for unix := startOf(d, zone); unix < startOf(d+1, zone); unix += 10 {
			if sky.height(unix+5) >= 0 {
				up += 10.0 / 3600
			}
		}
		near(t, d.String()+" hours up", answer.LengthHours, up, 0.015)
	}
	if onlyRises+onlySets == 0 || setsThenRises == 0 || night < 90 {
		t.Errorf("%d dates with a rise alone, %d with a set alone, %d with a set before the rise, %d with neither", onlyRises, onlySets, setsThenRises, night)
	}
}

// The sun that shows itself for less than a look's time is not missed: on the
// edge of the polar night every latitude has such a date.
func TestShortestDays(t *testing.T) {
	shortest := math.Inf(1)
	for lat := 67.0; lat < 67.7; lat += 0.002 {
		if answer := ask(t, lat, 20, "2026-12-21", "+01:00"); answer.Polar == "" {
			shortest = min(shortest, answer.LengthHours)
			if answer.Rise == nil || answer.Set == nil || *answer.Rise > answer.Transit || *answer.Set < answer.Transit {
				t.Errorf("at %.3f° the sun rises %v, crosses %s, sets %v", lat, answer.Rise, answer.Transit, answer.Set)
			}
		}
	}
	if shortest > lookSeconds/3600*2 {
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
