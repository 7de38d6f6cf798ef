package suit

import (
	"math"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

func TestTheWeeksOfAWindowHaveItsDays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, length := rapid.Float64Range(0, 364).Draw(t, "from"), rapid.Float64Range(0, 364).Draw(t, "length")
		days := 0.0
		for week := range weeksOfYear {
			days += shareOf(week, from, length) * daysIn(week)
		}
		if math.Abs(days-length) > 1e-9 {
			t.Fatalf("%v days make weeks of %v", length, days)
		}
	})
}

func daysIn(week int) float64 {
	if week == weeksOfYear-1 {
		return daysOfWeek + 1
	}
	return daysOfWeek
}

func TestAWindowOverNewYearIsInBothYearsEnds(t *testing.T) {
	got := Spot{}.flowerOf(flowering1("12-18", "01-14")).weeks()
	want := []int{1, 2, 51, 52}
	if len(got) != len(want) || got[0] != 1 || got[3] != 52 {
		t.Errorf("weeks %v, want %v", got, want)
	}
}

func TestTheSouthIsHalfAYearOn(t *testing.T) {
	kind := flowering1("06-04", "07-01")
	north, south := Spot{Lat: number(51.5)}.flowerOf(kind), Spot{Lat: number(-41)}.flowerOf(kind)
	if first := north.weeks()[0]; first != 23 {
		t.Errorf("June begins with week %d in the north, want 23", first)
	}
	if weeks := south.weeks(); weeks[0] != 49 || len(weeks) != 4 {
		t.Errorf("weeks %v in the south, want four from 49, early December", weeks)
	}
	later := Spot{Lat: number(51.5), LatenessDays: 14}.flowerOf(kind)
	if first := later.weeks()[0]; first != 25 {
		t.Errorf("a fortnight later is week %d, want 25", first)
	}
	autumn := flowering1("10-01", "10-28")
	if late, usual := (Spot{LatenessDays: 14}).flowerOf(autumn).weeks()[0], (Spot{}).flowerOf(autumn).weeks()[0]; late != usual {
		t.Errorf("a late spring moves October from week %d to %d", usual, late)
	}
}

func TestAFlushThatNeedsWorkIsWorthLess(t *testing.T) {
	kind := flowering1("06-04", "07-01")
	kind.Bloom[0].Needs = "deadhead"
	plain, needs := Spot{}.flowerOf(flowering1("06-04", "07-01")), Spot{}.flowerOf(kind)
	if got := needs.all[23] / plain.all[23]; got != needsWork {
		t.Errorf("it is worth %v of one that comes by itself", got)
	}
}

func TestAPlantingOfTwoColoursIsSharedBetweenThem(t *testing.T) {
	both := shadesOf([]string{"#fdfdfb", "#3f57b5", "#4a57b0"})
	if both[white] != 0.5 || both[blue] != 0.5 || both[red] != 0 {
		t.Errorf("white and two blues are %v", both)
	}
}

// flowering1 is a kind of one window.
func flowering1(from, to string) garden.Kind {
	return garden.Kind{Bloom: []garden.BloomWindow{{From: monthDay(from), To: monthDay(to)}}}
}

func monthDay(text string) garden.MonthDay {
	day, err := garden.ParseMonthDay(text)
	if err != nil {
		panic(err)
	}
	return day
}
