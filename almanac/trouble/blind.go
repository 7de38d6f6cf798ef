package trouble

import "slices"

// blind: this year and the years before it, without a gap, closed without flower.
func blind(c Case) []Trouble {
	years := 0
	for year := c.On.Year(); slices.Contains(c.Blind, year); year-- {
		years++
	}
	if years < blindYears {
		return nil
	}
	return []Trouble{{Say: "blind-years", Grave: true, Count: &years, Check: []string{"light", "pruned-off", "depth", "feed", "divide"}}}
}
