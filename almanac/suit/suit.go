package suit

import (
	"cmp"
	"slices"

	"haulm/almanac/stats"
	"haulm/garden"
)

// Suit answers the verb "suit". It fails, naming field, value and bound, on an
// input that is out of range, on a kind that is not in the catalogue or cannot be
// read, and on lists that are too long.
func Suit(in Input) (Result, error) {
	if err := in.check(); err != nil {
		return Result{}, err
	}
	catalogue, _, err := garden.Catalogue()
	if err != nil {
		return Result{}, err
	}
	kinds, err := in.candidates(catalogue)
	if err != nil {
		return Result{}, err
	}
	have, err := in.have(kinds, catalogue)
	if err != nil {
		return Result{}, err
	}
	result := Result{Ranked: []Ranked{}, Excluded: []Excluded{}, Unknown: in.unknown()}
	likely := []candidate{}
	for _, c := range kinds {
		factors, out := in.Spot.judge(c)
		if len(out) > 0 {
			result.Excluded = append(result.Excluded, Excluded{c.kind.ID, c.kind.Name, out, c.cautions()})
			continue
		}
		c.fit = stats.RoundProbability(fitOf(factors)) // the same on every machine from here on
		c.flower = in.Spot.flowerOf(c.kind)
		weeks := in.weeksFactor(have, c)
		result.Ranked = append(result.Ranked, Ranked{Kind: c.kind.ID, Name: c.kind.Name, Fit: c.fit,
			Score: stats.RoundProbability(c.fit * weight(weeks, weightDecides)), Factors: append(factors, weeks), Cautions: c.cautions()})
		likely = append(likely, c)
	}
	slices.SortFunc(result.Ranked, func(a, b Ranked) int {
		return cmp.Or(cmp.Compare(b.Score, a.Score), cmp.Compare(a.Kind, b.Kind))
	})
	result.Set = in.set(have, likely)
	return result, nil
}
