package skill

import (
	"testing"

	"haulm/almanac/simulate"
)

// leastWorth is from how many bits on the phone makes a stop.
const leastWorth = 0.02

// lookers are the walkers that are compared.
func lookers(seed uint64) map[string]Chooser {
	return map[string]Chooser{"worth": ByWorth{}, "while": WhileWorth{leastWorth}, "findings": ByFinding{}, "turn": InTurn{}, "random": AtRandom{seed}}
}

// rounds has walkers go through gardens of consecutive seeds.
func (s scenario) rounds(t testing.TB, from uint64, gardens, looks int, who ...string) map[string]Rounds {
	results := make([]map[string]Rounds, gardens)
	onAll(gardens, func(i int) {
		out := s.garden(t, from+uint64(i))
		results[i] = map[string]Rounds{}
		for _, name := range who {
			r, err := Walked(out, lookers(from + uint64(i))[name], looks)
			if err != nil {
				t.Error(err)
			}
			results[i][name] = r
		}
	})
	all := map[string]Rounds{}
	for _, one := range results {
		for name, r := range one {
			sum := all[name]
			sum.add(r.Record)
			sum.Looks += r.Looks
			all[name] = sum
		}
	}
	return all
}

// TestLookingWhereItSettlesMostNamesLatePlantsSooner: with time for one planting in ten
// each week, in gardens on whose seeds nothing was chosen. One late plant in three is
// the margin; by turn each is looked at every ten weeks, which most flower within.
func TestLookingWhereItSettlesMostNamesLatePlantsSooner(t *testing.T) {
	late := 0.2
	gardens := scenario{input: simulate.Input{Plantings: 40, Years: 3, Late: &late}}
	all := gardens.rounds(t, benchSeeds-200, 3, 4, "worth", "while", "turn", "random")
	worth, while, turn, random := all["worth"], all["while"], all["turn"], all["random"]
	if worth.Looks != turn.Looks || worth.Looks != random.Looks {
		t.Fatalf("%d, %d and %d looks", worth.Looks, turn.Looks, random.Looks)
	}
	if worth.Named.Of < 15 || worth.Named.Percent() < 70 || worth.Named.Percent() < turn.Named.Percent()+33 || worth.Named.Percent() < random.Named.Percent()+33 {
		t.Errorf("named: by worth %+v, in turn %+v, at random %+v", worth.Named, turn.Named, random.Named)
	}
	if while.Looks > worth.Looks*3/4 || while.Named.Percent() < worth.Named.Percent()-10 {
		t.Errorf("who goes home when it is hardly worth it looks %d times of %d and names %+v of %+v", while.Looks, worth.Looks, while.Named, worth.Named)
	}
	if worth.False.Percent() > 5 {
		t.Errorf("false alarms %+v", worth.False)
	}
}

// TestWalkersLookAtAsManyAsTheyHaveTimeFor, none twice on one day, and who goes in
// turn at each before any again.
func TestWalkersLookAtAsManyAsTheyHaveTimeFor(t *testing.T) {
	out := scenario{input: simulate.Input{Plantings: 10, Years: 2}}.garden(t, 3)
	all := lookers(1)
	delete(all, "while") // who may go home
	for name, chooser := range all {
		r, err := newRound(out, chooser)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for week := range 3 {
			chosen := chooser.choose(r, on(150+7*week), 4)
			here := map[string]bool{}
			for _, planting := range chosen {
				here[planting], seen[planting] = true, true
			}
			if len(chosen) != 4 || len(here) != 4 {
				t.Errorf("%s chose %v", name, chosen)
			}
			if err := r.visit(on(150+7*week), chosen); err != nil {
				t.Fatal(err)
			}
		}
		if name == "turn" && len(seen) != 10 {
			t.Errorf("in three rounds of four in turn %d of ten were looked at", len(seen))
		}
		if most := chooser.choose(r, on(180), 99); len(most) != 10 {
			t.Errorf("%s: %d of ten chosen by who has time for all", name, len(most))
		}
	}
}

// TestAWalkerSeesWhatIsThere on the days on which it is.
func TestAWalkerSeesWhatIsThere(t *testing.T) {
	opens, ends := 160.4, 181.0
	r := &round{truth: map[string]*Case{"p": {Flush: simulate.Flush{OpensDay: &opens, EndsDay: &ends}}, "blind": {}}}
	for _, c := range []struct {
		planting string
		day      int
		flower   bool
	}{{"p", 160, false}, {"p", 161, true}, {"p", 181, true}, {"p", 182, false}, {"blind", 170, false}} {
		record, err := r.look(c.planting, on(c.day))
		if _, flower := record.Fields["stage"]; err != nil || flower != c.flower {
			t.Errorf("%s on day %d: %v, %v", c.planting, c.day, record.Fields, err)
		}
	}
}
