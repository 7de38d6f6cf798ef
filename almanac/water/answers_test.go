package water

import (
	"bytes"
	"flag"
	"fmt"
	"testing"

	"haulm/garden"
	"haulm/internal/promise"
)

var update = flag.Bool("update", false, "write the answers anew; read the difference before committing it")

// The answers for invented plantings in Seattle's weather, byte for byte.
func TestAnswersAreTheSameToTheByteOnEveryMachine(t *testing.T) {
	w := inSeattle(t, "2015-12-31")
	var got bytes.Buffer
	for i, habit := range []string{"shrub", "tree", "climber", "perennial", "bulb", "annual", "grass", "fern"} {
		for j, form := range []string{"pot", "bare-root", "plug"} {
			plant := Plant{Form: form, Soil: []string{"sand", "loam", "clay"}[(i+j)%3], Container: (i+2*j)%4 == 3, Planted: date("2014-10-20"),
				Kind: garden.Kind{Habit: habit, Foliage: []string{"deciduous", "evergreen", "dies-down"}[i%3], SpreadCm: garden.Range{60, 90},
					YearsToSize: 4, Moisture: []string{"dry", "drained", "moist", "wet"}[(i+j)%4]},
				Mulch: []Mulch{{Day: on("2015-03-10"), DepthCm: number(4)}}, Given: []Given{{Day: on("2015-06-20"), Litres: number(3)}}}
			for _, plant.On = range []garden.Day{on("2015-05-10"), on("2015-07-05"), on("2015-09-20")} {
				fmt.Fprintf(&got, "%s %s %s\n", habit, form, shown(reckoned(t, w, plant)))
			}
		}
	}
	promise.Answers(t, "answers.txt", got.Bytes(), *update)
}
