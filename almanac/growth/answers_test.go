package growth

import (
	"encoding/json"
	"flag"
	"math/rand/v2"
	"testing"

	"haulm/garden"
	"haulm/internal/promise"
)

var update = flag.Bool("update", false, "write the answers anew; read the difference before committing it")

// The answers for a garden of invented plantings, byte for byte.
func TestAnswersAreTheSameToTheByteOnEveryMachine(t *testing.T) {
	type answer struct {
		Kind   string
		Result Result
	}
	answers := []answer{}
	draw := rand.New(rand.NewPCG(trueSeed1, 5))
	kinds := kindsOfEachWay()
	for i := range 48 {
		kind := kinds[i%len(kinds)]
		in := aTruth(draw, kind, rateSD*draw.NormFloat64()*2)
		in.From, in.To = &in.On, &in.On
		if i < len(kinds) { // the weeks of a season
			in.From, in.To = day(garden.DayOf(2015, 4, 1)), day(garden.DayOf(2015, 9, 1))
		}
		answers = append(answers, answer{kind.ID, grow(t, in)})
	}
	got, err := json.MarshalIndent(answers, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	promise.Answers(t, "answers.json", got, *update)
}

// kindsOfEachWay are plain kinds, one for each way of growing, that no change of
// the catalogue touches.
func kindsOfEachWay() []garden.Kind {
	named := func(id string, kind garden.Kind, change func(*garden.Kind)) garden.Kind {
		kind.ID = id
		change(&kind)
		return kind
	}
	return []garden.Kind{
		named("shrub", shrub(), func(*garden.Kind) {}),
		named("tree", shrub(), func(k *garden.Kind) {
			k.Habit, k.HeightCm, k.YearsToSize = "tree", garden.Range{500, 800}, 15
		}),
		named("cut each winter", shrub(), func(k *garden.Kind) {
			k.PruneGroup, k.Bloom = "late-winter-hard", clump().Bloom
		}),
		named("clump", clump(), func(*garden.Kind) {}),
		named("slow clump", clump(), func(k *garden.Kind) { k.Pace, k.YearsToSize = "slow", 4 }),
		named("evergreen clump", clump(), func(k *garden.Kind) { k.Foliage, k.Emerges = "evergreen", nil }),
		named("annual", clump(), func(k *garden.Kind) { k.LifeCycle, k.Pace = "annual", "quick" }),
		named("bulb", clump(), func(k *garden.Kind) { k.Habit, k.PruneGroup = "bulb", "none" }),
	}
}
