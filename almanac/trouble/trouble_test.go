package trouble

import (
	"slices"
	"testing"

	"haulm/garden"
)

var today = garden.DayOf(2015, 7, 10)

func ptr[T any](v T) *T { return &v }

// grades are looks at vigour, each some days before today.
func grades(pairs ...[2]int) (looks []Look) {
	for _, p := range pairs {
		looks = append(looks, Look{Day: today - garden.Day(p[0]), Minute: 600, Vigour: ptr(p[1])})
	}
	return looks
}

func sighted(minute int, daysAgo garden.Day, names ...string) Look {
	return Look{Day: today - daysAgo, Minute: minute, Signs: names}
}

// graves names what is grave, and passing what is told beside it.
func told(c Case) (graves, passing []string) {
	c.On = today
	for _, t := range Find(c) {
		name := t.Say
		if t.What != "" {
			name += " " + t.What
		}
		if t.Grave {
			graves = append(graves, name)
		} else {
			passing = append(passing, name)
		}
	}
	return graves, passing
}

func TestTroublesAreTold(t *testing.T) {
	afternoon, dawn := 15*60, 7*60
	full := ptr(65)
	for name, c := range map[string]struct {
		Case
		grave, passing []string
	}{
		"nothing seen":                            {Case: Case{}},
		"falls from strong to poor":               {Case: Case{Looks: grades([2]int{400, 5}, [2]int{380, 5}, [2]int{300, 4}, [2]int{90, 3}, [2]int{10, 2})}, grave: []string{"vigour-falling"}},
		"poor all the time":                       {Case: Case{Looks: grades([2]int{400, 2}, [2]int{380, 2}, [2]int{300, 3}, [2]int{90, 2}, [2]int{10, 2})}},
		"three grades are no trend":               {Case: Case{Looks: grades([2]int{400, 5}, [2]int{90, 3}, [2]int{10, 2})}},
		"one bad day":                             {Case: Case{Looks: grades([2]int{400, 4}, [2]int{380, 4}, [2]int{300, 4}, [2]int{200, 4}, [2]int{90, 4}, [2]int{10, 2})}},
		"fell and is fair":                        {Case: Case{Looks: grades([2]int{400, 5}, [2]int{380, 5}, [2]int{300, 4}, [2]int{90, 3}, [2]int{10, 3})}},
		"fell long ago":                           {Case: Case{Looks: grades([2]int{1500, 5}, [2]int{1480, 5}, [2]int{1400, 5}, [2]int{90, 2}, [2]int{10, 2})}},
		"failing":                                 {Case: Case{Looks: grades([2]int{10, 1})}, grave: []string{"vigour-failing"}},
		"failing in spring, good since":           {Case: Case{Looks: grades([2]int{40, 1}, [2]int{10, 4})}},
		"wilts at dawn":                           {Case: Case{Looks: []Look{sighted(dawn, 3, "wilting")}}, grave: []string{"sign wilting-at-dawn"}},
		"wilts one afternoon":                     {Case: Case{Looks: []Look{sighted(afternoon, 3, "wilting")}}, passing: []string{"sign wilting"}},
		"wilts two afternoons":                    {Case: Case{Looks: []Look{sighted(afternoon, 9, "wilting"), sighted(afternoon, 3, "wilting")}}, grave: []string{"sign-again wilting"}},
		"twice on one day":                        {Case: Case{Looks: []Look{sighted(afternoon, 3, "aphid"), sighted(afternoon+5, 3, "aphid")}}, passing: []string{"sign aphid"}},
		"watered since":                           {Case: Case{Looks: []Look{sighted(dawn, 3, "wilting")}, Work: []Work{{today - 2, "water"}}}},
		"watered before":                          {Case: Case{Looks: []Look{sighted(dawn, 3, "wilting")}, Work: []Work{{today - 4, "water"}}}, grave: []string{"sign wilting-at-dawn"}},
		"long ago":                                {Case: Case{Looks: []Look{sighted(dawn, 60, "dieback")}}},
		"dieback":                                 {Case: Case{Looks: []Look{sighted(afternoon, 3, "dieback")}}, grave: []string{"sign dieback"}},
		"dead centre, divided since":              {Case: Case{Looks: []Look{sighted(afternoon, 30, "dead-centre")}, Work: []Work{{today - 9, "divide"}}}},
		"suckers below a graft":                   {Case: Case{Grafted: true, Looks: []Look{sighted(afternoon, 3, "sucker")}}, grave: []string{"sign sucker"}},
		"suckers of its own":                      {Case: Case{Looks: []Look{sighted(afternoon, 3, "sucker")}}},
		"reversion":                               {Case: Case{Looks: []Look{sighted(afternoon, 3, "reversion")}}, grave: []string{"sign reversion"}},
		"a shrub rocks":                           {Case: Case{Woody: true, Looks: []Look{sighted(afternoon, 3, "wind-rock")}}, grave: []string{"sign wind-rock"}},
		"a lily leans":                            {Case: Case{Looks: []Look{sighted(afternoon, 3, "wind-rock")}}, passing: []string{"sign wind-rock"}},
		"greenfly on a poor plant":                {Case: Case{Looks: append(grades([2]int{5, 2}), sighted(afternoon, 3, "aphid"))}, grave: []string{"sign aphid"}},
		"mildew, and strong since":                {Case: Case{Looks: append([]Look{sighted(afternoon, 20, "mildew")}, grades([2]int{5, 4})...)}},
		"half the stems":                          {Case: Case{Looks: []Look{{Day: today - 365, Stage: full, Stems: ptr(12)}, {Day: today, Stage: full, Stems: ptr(6)}}}, grave: []string{"half-the-stems"}},
		"over half the stems":                     {Case: Case{Looks: []Look{{Day: today - 365, Stage: full, Stems: ptr(12)}, {Day: today, Stage: full, Stems: ptr(7)}}}},
		"stems only begin":                        {Case: Case{Looks: []Look{{Day: today - 365, Stage: full, Stems: ptr(12)}, {Day: today, Stage: ptr(61), Stems: ptr(2)}}}},
		"stems of a colony":                       {Case: Case{Colony: true, Looks: []Look{{Day: today - 365, Stage: full, Stems: ptr(12)}, {Day: today, Stage: full, Stems: ptr(2)}}}},
		"half died":                               {Case: Case{Planted: ptr(6), Looks: []Look{{Day: today, Alive: ptr(3)}}}, grave: []string{"lost"}},
		"one of three died":                       {Case: Case{Planted: ptr(3), Looks: []Look{{Day: today, Alive: ptr(1)}}}},
		"a colony thins":                          {Case: Case{Colony: true, Planted: ptr(12), Looks: []Look{{Day: today, Alive: ptr(2)}}}},
		"two blind years":                         {Case: Case{Blind: []int{2014, 2015}}, grave: []string{"blind-years"}},
		"one blind year":                          {Case: Case{Blind: []int{2015}}},
		"two blind years with a good one between": {Case: Case{Blind: []int{2013, 2015}}},
	} {
		t.Run(name, func(t *testing.T) {
			graves, passing := told(c.Case)
			if !slices.Equal(graves, c.grave) || !slices.Equal(passing, c.passing) {
				t.Errorf("grave %v, passing %v; want %v, %v", graves, passing, c.grave, c.passing)
			}
		})
	}
}

func TestEverySignHasItsRule(t *testing.T) {
	known := knownSigns()
	for _, name := range garden.Signs() {
		if !slices.ContainsFunc(known, func(s sign) bool { return s.name == name }) {
			t.Errorf("the sign %q of an observation has no rule", name)
		}
	}
	if len(known) != len(garden.Signs()) {
		t.Errorf("%d rules for %d signs", len(known), len(garden.Signs()))
	}
}

func TestEveryTroubleSaysWhatToCheck(t *testing.T) {
	looks := append(grades([2]int{400, 5}, [2]int{380, 5}, [2]int{300, 4}, [2]int{90, 3}), sighted(400, 3, garden.Signs()...))
	looks = append(looks, Look{Day: today, Minute: 600, Vigour: ptr(1), Alive: ptr(1), Stems: ptr(1), Stage: ptr(65)})
	looks = append([]Look{{Day: today - 380, Stems: ptr(9), Stage: ptr(65)}}, looks...)
	all := Find(Case{On: today, Looks: looks, Grafted: true, Woody: true, Planted: ptr(9), Blind: []int{2014, 2015}})
	if len(all) != len(garden.Signs())+5 {
		t.Errorf("%d troubles: %+v", len(all), all)
	}
	for _, trouble := range all {
		if len(trouble.Check) == 0 || trouble.Say == "" {
			t.Errorf("%+v", trouble)
		}
	}
}
