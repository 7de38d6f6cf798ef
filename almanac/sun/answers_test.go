package sun

import (
	"encoding/json"
	"math/rand/v2"
	"testing"
	"time"

	"haulm/garden"
	"haulm/internal/promise"
)

// The answers for invented places and gardens, byte for byte.
func TestAnswersAreTheSameToTheByteOnEveryMachine(t *testing.T) {
	type answer struct {
		Position Position
		Day      DayAnswer
		Shade    ShadeAnswer
	}
	var answers []answer
	random := rand.New(rand.NewPCG(17, 18))
	zones := []string{"Europe/London", "America/St_Johns", "+05:45", "Pacific/Apia", "Australia/Lord_Howe"}
	for i := range 40 {
		here, day := randomPlace(random), randomDay(random)
		moment := time.Unix(int64(day)*secondsPerDay+random.Int64N(secondsPerDay), 0).UTC()
		position, err1 := At(Question{here.Lat, here.Lon, moment.Format(time.RFC3339)})
		risen, err2 := DayOf(DayQuestion{here.Lat, here.Lon, day, zones[i%len(zones)]})
		shade, err3 := ShadeAt(randomQuestion(random, here, day))
		for _, err := range []error{err1, err2, err3} {
			if err != nil {
				t.Fatal(err)
			}
		}
		answers = append(answers, answer{position, risen, shade})
	}
	got, err := json.MarshalIndent(answers, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	promise.Answers(t, "answers.json", got, *update)
}

// randomQuestion asks about a point among a dozen invented structures.
func randomQuestion(random *rand.Rand, here Place, day garden.Day) ShadeQuestion {
	q := ShadeQuestion{Garden: garden.Garden{Lat: &here.Lat, Lon: &here.Lon, PlanBearingDeg: here.PlanBearingDeg},
		Point: garden.Point{random.Float64()*8 - 4, random.Float64()*8 - 4}, HeightM: 0.3, Day: &day}
	for _, p := range randomPrisms(random, 12, 10) {
		s := ShadeCaster{Structure: garden.Structure{BaseM: p.BaseM, HeightM: &p.TopM, Density: &p.Density, Leaf: string(p.Leaf)}}
		for _, corner := range p.Outline {
			s.Outline = append(s.Outline, corner)
		}
		q.Structures = append(q.Structures, s)
	}
	return q
}
