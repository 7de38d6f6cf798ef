package trouble

import "haulm/garden"

// fewerStems: in full flower this year there were at most half of the stems of the
// year before. A year in which nobody counted in full flower is no year to compare.
func fewerStems(c Case) []Trouble {
	if c.Colony {
		return nil
	}
	year := c.On.Year()
	now, last := c.mostStems(year), c.mostStems(year-1)
	if now == nil || last == nil || *last.Stems < fewestStems || float64(*now.Stems) > halved*float64(*last.Stems) {
		return nil
	}
	return []Trouble{{Say: "half-the-stems", Grave: true, Day: &now.Day, From: &last.Day, Count: now.Stems, Of: last.Stems,
		Check: []string{"divide", "light", "feed", "water"}}}
}

// mostStems is the look at which most stems of a year were counted, nil where none
// were counted in full flower.
func (c Case) mostStems(year int) *Look {
	var most *Look
	full := false
	for i := range c.Looks {
		look := &c.Looks[i]
		if look.Stems == nil || look.Day < garden.DayOf(year, 1, 1) || look.Day > garden.DayOf(year, 12, 31) {
			continue
		}
		full = full || look.Stage != nil && *look.Stage >= fullFlowerFrom && *look.Stage <= fullFlowerTo
		if most == nil || *look.Stems > *most.Stems {
			most = look
		}
	}
	if !full {
		return nil
	}
	return most
}
