package skill

import (
	"slices"
	"time"

	"haulm/almanac/assess"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// A Struggle counts the growth findings of many gardens' last seasons.
type Struggle struct {
	Named Share          // of struggling plants, within the season
	False Share          // of the others
	Words map[string]int // first findings of struggling plants, by verdict
}

// struggles are the findings that say that a plant does poorly.
func struggles() []string { return []string{"small-for-age", "stalled", "troubled"} }

// Count assesses a garden at the beginning of each month of the last growing season,
// and at its end, and takes what is found of growth and vigour.
func (s *Struggle) Count(out simulate.Output) error {
	engine, err := assess.New()
	if err != nil {
		return err
	}
	engine.Upsert(out.Records)
	found := map[string]string{}
	for month := time.April; month <= time.November; month++ {
		for _, f := range engine.Assess(garden.DayOf(simulate.LastYear, month, 1)).Findings {
			if found[f.Planting] == "" && slices.Contains(struggles(), f.Verdict) {
				found[f.Planting] = f.Verdict
			}
		}
	}
	for _, f := range out.Truth.Flushes {
		if f.Year == simulate.LastYear {
			s.plant(f.Struggling, found[f.Planting])
		}
	}
	return nil
}

func (s *Struggle) plant(struggling bool, word string) {
	if !struggling {
		s.False.count(word != "")
		return
	}
	s.Named.count(word != "")
	if s.Words == nil {
		s.Words = map[string]int{}
	}
	s.Words[word]++
}

// Add adds another's counts.
func (s *Struggle) Add(o Struggle) {
	s.Named.add(o.Named)
	s.False.add(o.False)
	if s.Words == nil {
		s.Words = map[string]int{}
	}
	for word, n := range o.Words {
		s.Words[word] += n
	}
}
