package suit

import (
	"encoding/json"
	"testing"

	"haulm/garden"
)

func TestAnswersFromTextAsTheVerbDoes(t *testing.T) {
	const asked = `{"spot":{"lat":51.5,"sunHours":3.5,"soil":"clay loam","drainage":"good","ph":6.8,"minWinterC":-10,"roomCm":80,"heightCm":[40,120],"support":false},
		"kinds":["astrantia-major","helleborus-hybridus","lavandula-angustifolia",
			{"id":"ours","name":"Anemone ours","habit":"perennial","lifeCycle":"long-lived","heightCm":[60,90],"spreadCm":[40,60],"sunHours":[3,8],"moisture":"moist","bloom":[{"from":"08-20","to":"10-10"}],"colours":["#f3dbe6"],"cautions":[{"code":"skin","words":"Sap can irritate skin."}]}],
		"have":{"kinds":["iris-sibirica"],"windows":[{"from":"05-20","to":"06-20","colours":["#c2568e"]}]},"choose":2,"areaM2":3}`
	var in Input
	if err := json.Unmarshal([]byte(asked), &in); err != nil {
		t.Fatal(err)
	}
	result := suited(t, in)
	if len(result.Ranked)+len(result.Excluded) != 4 || len(result.Set.Chosen) != 2 {
		t.Fatalf("%d ranked, %d excluded, set %+v", len(result.Ranked), len(result.Excluded), result.Set)
	}
	ours := result.ranked(t, "ours")
	if got := ours.factor(Cold); got.Say != KindUnknown || got.Score != nil {
		t.Errorf("a kind that says nothing of cold is judged %+v", got)
	}
	if len(ours.Cautions) != 1 || ours.Cautions[0] != "skin" {
		t.Errorf("cautions %v, want skin", ours.Cautions)
	}
	if got := result.ranked(t, "lavandula-angustifolia"); got.Score >= ours.Score {
		t.Errorf("lavender in half shade scores %v, above %v", got.Score, ours.Score)
	}
}

// suited fails the test on an error.
func suited(t testing.TB, in Input) Result {
	t.Helper()
	result, err := Suit(in)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func (r Result) ranked(t testing.TB, id string) Ranked {
	t.Helper()
	for _, one := range r.Ranked {
		if one.Kind == id {
			return one
		}
	}
	t.Fatalf("%s is not ranked", id)
	return Ranked{}
}

func (r Result) excluded(id string) (Excluded, bool) {
	for _, one := range r.Excluded {
		if one.Kind == id {
			return one, true
		}
	}
	return Excluded{}, false
}

func (r Ranked) factor(name string) Factor {
	for _, f := range r.Factors {
		if f.Factor == name {
			return f
		}
	}
	return Factor{}
}

// catalogue gives the kinds that ship.
func catalogue(t testing.TB) []garden.Kind {
	t.Helper()
	kinds, _, err := garden.Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	return kinds
}

func number(x float64) *float64 { return &x }

func whole(n int) *int { return &n }
