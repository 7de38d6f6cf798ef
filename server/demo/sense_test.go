package demo

import (
	"strings"
	"testing"

	"haulm/garden"
)

// What a gardener would smile at. The bounds are common practice.

// inFlowerFrom is the principal growth stage of flowering (BBCH 6).
const inFlowerFrom = 60

// flowers says whether an open flower was seen on a planting within a year,
// and, by the day given, on or before it.
func (a all) flowers(planting string, on garden.Day) bool {
	for _, o := range a.observations {
		day, err := o.Day()
		if err == nil && o.Planting == planting && o.Stage != nil && *o.Stage >= inFlowerFrom && day.Year() == on.Year() && day <= on {
			return true
		}
	}
	return false
}

func TestNobodyDeadheadsWhatHasNotFlowered(t *testing.T) {
	a := everything(t)
	done := 0
	for _, w := range a.works {
		if w.What != "deadhead" {
			continue
		}
		done++
		if !a.flowers(w.Planting, *w.Day) {
			t.Errorf("%s is deadheaded on %s, before a flower was seen on it", w.Planting, *w.Day)
		}
	}
	if done < 20 {
		t.Errorf("deadheaded %d times in four seasons", done)
	}
}

// Plants go in level with their pot; a clematis goes deeper, so that it can rise
// again after wilt.
func TestPotsAreNotBuried(t *testing.T) {
	const clematisCm = 10
	for id, p := range everything(t).plantings {
		if p.Form != "pot" || p.DepthCm == nil {
			continue
		}
		deepest := 0.0
		if strings.HasPrefix(p.Kind, "clematis") {
			deepest = clematisCm
		}
		if *p.DepthCm > deepest {
			t.Errorf("%s stands %g cm too deep", id, *p.DepthCm)
		}
	}
}

// A false phlox flowers in May, and at its height then.
func TestWhatFlowersHasRisen(t *testing.T) {
	const shortest = 40 // cm, of dame's rocket in flower
	for _, o := range everything(t).observations {
		if o.Planting == "phlox" && o.Stage != nil && *o.Stage >= inFlowerFrom && o.HeightCm != nil && *o.HeightCm < shortest {
			t.Errorf("%s: in flower at %g cm", o.ID, *o.HeightCm)
		}
	}
}

// Beds were laid out by somebody who gardens: what likes shade has some, and what
// is tall stands behind. One slip is human.
func TestPlantsStandWhereTheyWouldBePut(t *testing.T) {
	const slips = 1
	for _, verdict := range []string{"scorched", "shaded", "taller-in-front", "crowded"} {
		var found []string
		for _, f := range assessed(t, Today()).Findings {
			if f.Verdict == verdict {
				found = append(found, line(f))
			}
		}
		if len(found) > slips {
			t.Errorf("%d plantings are %s: %q", len(found), verdict, found)
		}
	}
}
