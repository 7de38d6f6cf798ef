package skill

import (
	"flag"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

var (
	tuneGardens  = flag.Int("gardens", 0, "how many gardens TestTune walks for each scenario; 0 leaves it out")
	tuneFrom     = flag.Uint64("from", 1, "their first seed, of the tuning seeds")
	tuneOnly     = flag.String("only", "", "the scenarios of TestTune, by name, with commas between; all where empty")
	tuneFrontier = flag.Bool("frontier", false, "whether TestTune shows what other points of speaking would make of the same expectations")
	tuneCases    = flag.Bool("cases", false, "whether TestTune lists late plants not named in time and healthy ones named")
)

// TestTune writes one line of figures a scenario, on seeds that constants may be
// chosen by:
//
//	go test ./almanac/simulate/skill -run TestTune -v -args -gardens 40 -only base
func TestTune(t *testing.T) {
	if *tuneGardens == 0 {
		t.Skip("asked for by -args -gardens 40")
	}
	if last := *tuneFrom + uint64(*tuneGardens); last > tuningSeeds {
		t.Fatalf("seeds up to %d: those from %d on are not for tuning", last, tuningSeeds)
	}
	fmt.Println(heading)
	for _, s := range scenarios() {
		if !asked(s.name) {
			continue
		}
		score, walks := s.walk(t, *tuneFrom, *tuneGardens)
		fmt.Println(line(s.name, score))
		if *tuneFrontier {
			frontier(walks)
		}
		if *tuneCases {
			listCases(*tuneFrom, walks)
		}
	}
	if asked("kyoto") {
		fmt.Println(line("kyoto", kyoto(t, 0, 1)))
		fmt.Println(line("kyoto late", kyoto(t, kyotoLate, 1)))
	}
	if asked("struggling") {
		found := struggling().struggles(t, *tuneFrom, *tuneGardens)
		fmt.Printf("%-16s | %.1f %% named, %.2f false, first as %v\n", "struggling", found.Named.Percent(), found.False.Percent(), found.Words)
	}
}

// asked says whether TestTune is to show a scenario.
func asked(name string) bool {
	return *tuneOnly == "" || slices.Contains(strings.Split(*tuneOnly, ","), name)
}

const heading = "scenario         | haulm: named  days false | notebook             | oracle               | band before after | how late  at least | season 1sd 2sd | blind"

func line(name string, s Score) string {
	judge := func(r Record) string {
		return fmt.Sprintf("%5.1f %% %5.1f %5.2f", r.Named.Percent(), r.MedianDays(), r.False.Percent())
	}
	return fmt.Sprintf("%-16s |  %s    | %s | %s | %8.1f %8.1f | %7.1f %8.1f  | %6.1f %6.1f  | %5.1f", name, judge(s.Haulm), judge(s.Notebook), judge(s.Oracle),
		s.Before.Percent(), s.After.Percent(), s.HowLate.Percent(), s.AtLeast.Percent(), s.Season.Percent(), s.SeasonTwice.Percent(), s.Blind.Percent())
}

// frontier writes what a judge would be scored who asks of Haulm's bands what the
// oracle asks of the truth, by the chance at which it speaks.
func frontier(walks []Walk) {
	var cases []Case
	for _, w := range walks {
		cases = append(cases, w.Cases...)
	}
	for _, chance := range []float64{0.01, 0.02, 0.03, 0.04, 0.05, 0.06} {
		r := At(chance, cases)
		fmt.Printf("    at %.2f: %5.1f %% named, %5.1f days, %5.2f false\n", chance, r.Named.Percent(), r.MedianDays(), r.False.Percent())
	}
}

// listCases writes the plants that Haulm missed or named for nothing.
func listCases(from uint64, walks []Walk) {
	for i, w := range walks {
		for _, c := range w.Cases {
			missed := c.TrulyLate() && (c.Haulm == nil || c.Haulm.Day > *c.OpensDay+inTime)
			if !missed && !(c.Healthy() && c.Haulm != nil) {
				continue
			}
			what := "false"
			if missed {
				what = "missed"
			}
			fmt.Printf("%s seed %d %s %s: stated %.0f to %.0f, own %.1f (season %.1f), late %.1f, opened %.1f to %.1f; band %v then %v; haulm %v oracle %v notebook %v; %v\n",
				what, from+uint64(i), c.Planting, c.Kind, c.StatedDay, c.StatedEnd, c.ExpectedDay, c.SeasonDays, c.LateDays, *c.OpensDay, *c.EndsDay,
				c.Before, c.After, named(c.Haulm), named(c.Oracle), named(c.Notebook), c.Verdicts)
		}
	}
}

func named(n *Naming) float64 {
	if n == nil {
		return math.NaN()
	}
	return n.Day
}
