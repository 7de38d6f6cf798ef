package tie

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

func origin() garden.Place { return garden.Place{Lat: 47.6, Lon: -122.3} }

func ptr[T any](v T) *T { return &v }

// photoAt is a photograph from a point of the plan.
func photoAt(x, y, accuracyM float64) Photo {
	place := Plan{Origin: origin()}.ToEarth(garden.Point{x, y})
	return Photo{Lat: &place.Lat, Lon: &place.Lon, AccuracyM: &accuracyM, Seen: "2026-06-02T09:15:00-07:00"}
}

func plantingAt(id string, x, y float64) Planting { return Planting{ID: id, At: &garden.Point{x, y}} }

func inGarden(photo Photo, plantings ...Planting) Input {
	return Input{Photo: photo, Garden: Ground{PlanOrigin: ptr(origin())}, Plantings: plantings}
}

func mustTie(t testing.TB, in Input) Result {
	t.Helper()
	result, err := Tie(in)
	if err != nil {
		t.Fatal(err)
	}
	return result
}

func probabilityOf(r Result, id string) float64 {
	for _, c := range r.Candidates {
		if c.Planting == id {
			return c.Probability
		}
	}
	return 0
}

func wantTied(t *testing.T, r Result, id string) {
	t.Helper()
	if r.Tied == nil || *r.Tied != id {
		t.Errorf("not tied to %s: %+v", id, r)
	}
}

func wantUntied(t *testing.T, r Result) {
	t.Helper()
	if r.Tied != nil {
		t.Errorf("tied to %s with %g", *r.Tied, r.Sure)
	}
}

func TestAPlantByItselfIsTied(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(1, 0, 3), plantingAt("rose", 0, 0), plantingAt("yew", 30, 0)))
	wantTied(t, r, "rose")
	if r.Sure < sureEnough || len(r.Candidates) != 1 || math.Abs(*r.Candidates[0].DistanceM-1) > 1e-6 {
		t.Errorf("%+v", r)
	}
}

func TestNeighboursAreNotGuessed(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(0.2, 0, 4), plantingAt("b", 0, 0), plantingAt("a", 0.8, 0)))
	wantUntied(t, r)
	if len(r.Candidates) != 2 || r.Candidates[0].Planting != "b" || r.Candidates[1].Probability < 0.3 {
		t.Errorf("both are to be offered, the nearer first: %+v", r)
	}
}

func TestEqualOnesAreOrderedByTheirName(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(0, 0, 4), plantingAt("b", 1, 0), plantingAt("a", -1, 0), plantingAt("c", 0, 1)))
	if got := r.Candidates[0].Planting + r.Candidates[1].Planting + r.Candidates[2].Planting; got != "abc" {
		t.Errorf("order %s", got)
	}
}

// By hand: with accuracy 4 m the variance along each axis is (4/1.5096)² + 1² +
// 0.8² + 1.5²/2 = 9.786 m²; the plantings' densities at 2 and 4 m from the camera
// are exp(−4/19.57) and exp(−16/19.57) over 2π·9.786, that of none is
// 1/(26·20 + 2π·9.786); the shares before are 0.45, 0.45 and 0.1.
func TestTheWeightsByHand(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(0, 0, 4), plantingAt("near", 2, 0), plantingAt("far", -4, 0)))
	for id, want := range map[string]float64{"near": 0.638, "far": 0.345} {
		if got := probabilityOf(r, id); math.Abs(got-want) > 0.0011 {
			t.Errorf("%s %.3f, want %.3f", id, got, want)
		}
	}
	if math.Abs(r.None-0.017) > 0.0011 || r.Others != 0 {
		t.Errorf("none %.3f, others %.3f, want 0.017 and 0", r.None, r.Others)
	}
}

func TestFarFromEverythingIsNoneOfThese(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(5000, 0, 5), plantingAt("rose", 0, 0)))
	wantUntied(t, r)
	if r.None < 0.999 || len(r.Candidates) != 0 {
		t.Errorf("%+v", r)
	}
}

func TestAPoorFixTellsNothing(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(0, 0, 2000), plantingAt("a", 0, 0), plantingAt("b", 20, 0)))
	wantUntied(t, r)
	if math.Abs(probabilityOf(r, "a")-0.45) > 0.01 || math.Abs(r.None-noneShare) > 0.01 {
		t.Errorf("%+v, want what it was before", r)
	}
}

func TestWhatWasJustLoggedIsLikelier(t *testing.T) {
	plantings := []Planting{plantingAt("a", 0, 0), plantingAt("b", 1, 0), plantingAt("c", 2, 0)}
	share := func(lastSeen string) float64 {
		photo := photoAt(1, 1, 4)
		photo.LastPlanting, photo.LastSeen = ptr("c"), &lastSeen
		return probabilityOf(mustTie(t, inGarden(photo, plantings...)), "c")
	}
	alone := probabilityOf(mustTie(t, inGarden(photoAt(1, 1, 4), plantings...)), "c")
	atOnce, later, muchLater := share("2026-06-02T09:14:50-07:00"), share("2026-06-02T09:11:00-07:00"), share("2026-06-01T09:15:00-07:00")
	if !(atOnce > later && later > muchLater && atOnce > alone+0.2) || muchLater != alone {
		t.Errorf("at once %g, 4 minutes later %g, a day later %g, without %g", atOnce, later, muchLater, alone)
	}
	if ahead := share("2026-06-02T16:19:00Z"); ahead != later {
		t.Errorf("4 minutes before and after differ: %g, %g", ahead, later)
	}
}

func TestPlaceOutweighsHabit(t *testing.T) {
	photo := photoAt(30, 0, 4)
	photo.LastPlanting, photo.LastSeen = ptr("a"), ptr("2026-06-02T09:14:50-07:00")
	wantTied(t, mustTie(t, inGarden(photo, plantingAt("a", 0, 0), plantingAt("b", 31, 0))), "b")
}

func TestFlowersAreLikelierWhenKnown(t *testing.T) {
	a, b := plantingAt("a", -1, 0), plantingAt("b", 1, 0)
	a.InFlower, b.InFlower = ptr(true), ptr(false)
	r := mustTie(t, inGarden(photoAt(0, 0, 4), a, b))
	ratio := probabilityOf(r, "a") / probabilityOf(r, "b")
	if math.Abs(ratio-flowerFactor) > 0.02 {
		t.Errorf("flower counts %.3f times, want %g", ratio, flowerFactor)
	}
}

func TestTheBearingSaysWhatIsInView(t *testing.T) {
	photo := photoAt(0, 0, 2)
	photo.BearingDeg = ptr(90.0) // east
	r := mustTie(t, inGarden(photo, plantingAt("east", 1.5, 0), plantingAt("west", -1.5, 0)))
	if east, west := probabilityOf(r, "east"), probabilityOf(r, "west"); east < 3*west {
		t.Errorf("east %g, west %g", east, west)
	}
	turned := inGarden(photo, plantingAt("ahead", 0, 1.5), plantingAt("behind", 0, -1.5))
	turned.Garden.PlanBearingDeg = 90 // y points east, and the camera with it
	if r := mustTie(t, turned); probabilityOf(r, "ahead") < 3*probabilityOf(r, "behind") {
		t.Errorf("on a turned plan %+v", r)
	}
}

func TestAnAreaIsWeighedAsAWhole(t *testing.T) {
	drift := Planting{ID: "drift", Area: garden.Outline{{-4, -2}, {4, -2}, {4, 2}, {-4, 2}}}
	inside := mustTie(t, inGarden(photoAt(3, 1, 3), drift, plantingAt("far", 40, 0)))
	wantTied(t, inside, "drift")
	if d := inside.Candidates[0].DistanceM; d == nil || *d != 0 {
		t.Errorf("distance within it %v", d)
	}
	beside := mustTie(t, inGarden(photoAt(6, 0, 3), drift))
	if d := beside.Candidates[0].DistanceM; d == nil || math.Abs(*d-2) > 1e-6 {
		t.Errorf("distance beside it %v, want 2", d)
	}
	shrub := plantingAt("shrub", 3, 1) // standing in the drift, where the camera is
	r := mustTie(t, inGarden(photoAt(3, 1, 2), drift, shrub))
	if r.Candidates[0].Planting != "shrub" {
		t.Errorf("one plant at the place is likelier than a drift of 32 m² about it: %+v", r)
	}
}

func TestASliverOfAnAreaStillStandsSomewhere(t *testing.T) {
	edging := Planting{ID: "edging", Area: garden.Outline{{0, 0}, {10, 0}, {10, 10}, {9.99, 0.01}}}
	if r := mustTie(t, inGarden(photoAt(10, 0.5, 3), edging)); probabilityOf(r, "edging") < 0.95 {
		t.Errorf("its place says nothing: %+v", r)
	}
}

func TestWhatIsLackingIsSaid(t *testing.T) {
	rose := plantingAt("rose", 0, 0)
	noPlace := Photo{Seen: "2026-06-02T09:15:00-07:00"}
	noOrigin := inGarden(photoAt(0, 0, 3), rose)
	noOrigin.Garden.PlanOrigin = nil
	cases := map[Lacking]Input{
		LacksPlantings: inGarden(photoAt(0, 0, 3)),
		LacksPosition:  inGarden(noPlace, rose),
		LacksOrigin:    noOrigin,
	}
	for want, in := range cases {
		r := mustTie(t, in)
		if r.Lacking != want || len(r.Candidates) != 0 {
			t.Errorf("lacking %q, want %q; candidates %v", r.Lacking, want, r.Candidates)
		}
		wantUntied(t, r)
	}
	if r := mustTie(t, inGarden(photoAt(0, 0, 3))); r.None != 1 {
		t.Errorf("without plantings none has %g", r.None)
	}
}

func TestWithoutAPlaceTheLastIsOfferedButNotTied(t *testing.T) {
	photo := Photo{Seen: "2026-06-02T09:15:00-07:00", LastPlanting: ptr("b"), LastSeen: ptr("2026-06-02T09:15:00-07:00")}
	r := mustTie(t, inGarden(photo, plantingAt("a", 0, 0), plantingAt("b", 1, 0)))
	wantUntied(t, r)
	if len(r.Candidates) != 1 || r.Candidates[0].Planting != "b" || r.Candidates[0].DistanceM != nil {
		t.Errorf("%+v", r.Candidates)
	}
	if want := (1-noneShare)*sameShare + (1-noneShare)*(1-sameShare)/2; math.Abs(r.Sure-want) > 0.0006 {
		t.Errorf("sure %g, want %g", r.Sure, want)
	}
	if r := mustTie(t, inGarden(photo, plantingAt("b", 1, 0))); r.Tied != nil {
		t.Error("the only planting was tied without a place")
	}
}

func TestAPlantingNobodyPlacedIsNotForgotten(t *testing.T) {
	r := mustTie(t, inGarden(photoAt(0, 0, 30), plantingAt("placed", 0, 0), Planting{ID: "somewhere"}))
	wantUntied(t, r)
	if probabilityOf(r, "somewhere") < 0.05 {
		t.Errorf("%+v", r)
	}
}

func TestWrongInputsAreNamed(t *testing.T) {
	good := func() Input { return inGarden(photoAt(0, 0, 3), plantingAt("a", 0, 0)) }
	cases := map[string]struct {
		change func(*Input)
		says   string
	}{
		"half a place":         {func(in *Input) { in.Photo.Lon = nil }, "photo.lat and photo.lon"},
		"beyond the pole":      {func(in *Input) { in.Photo.Lat = ptr(91.0) }, "photo.lat 91"},
		"not a number":         {func(in *Input) { in.Photo.Lon = ptr(math.NaN()) }, "photo.lon"},
		"no accuracy":          {func(in *Input) { in.Photo.AccuracyM = ptr(0.0) }, "photo.accuracyM 0"},
		"endless accuracy":     {func(in *Input) { in.Photo.AccuracyM = ptr(math.Inf(1)) }, "photo.accuracyM"},
		"a bearing too far":    {func(in *Input) { in.Photo.BearingDeg = ptr(361.0) }, "photo.bearingDeg 361"},
		"no time":              {func(in *Input) { in.Photo.Seen = "" }, "photo.seen"},
		"a time without zone":  {func(in *Input) { in.Photo.Seen = "2026-06-02T09:15:00" }, "photo.seen"},
		"last without when":    {func(in *Input) { in.Photo.LastPlanting = ptr("a") }, "photo.lastSeen"},
		"last at no time":      {func(in *Input) { in.Photo.LastPlanting, in.Photo.LastSeen = ptr("a"), ptr("noon") }, "photo.lastSeen"},
		"a plan at the pole":   {func(in *Input) { in.Garden.PlanOrigin.Lat = 90 }, "garden.planOrigin.lat 90"},
		"a plan beyond":        {func(in *Input) { in.Garden.PlanOrigin.Lon = 200 }, "garden.planOrigin.lon 200"},
		"a plan turned to far": {func(in *Input) { in.Garden.PlanBearingDeg = 400 }, "garden.planBearingDeg 400"},
		"no id":                {func(in *Input) { in.Plantings[0].ID = "" }, "plantings[0].id"},
		"an id twice":          {func(in *Input) { in.Plantings = append(in.Plantings, in.Plantings[0]) }, "plantings[1].id"},
		"two corners":          {func(in *Input) { in.Plantings[0].Area = garden.Outline{{0, 0}, {1, 1}} }, "plantings[0].area"},
		"no point":             {func(in *Input) { in.Plantings[0].At = &garden.Point{math.NaN(), 0} }, "plantings[0]"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			in := good()
			c.change(&in)
			if _, err := Tie(in); err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, want it to name %s", err, c.says)
			}
		})
	}
}

// Whatever the garden: the shares add up to one, the order holds, what is tied is
// the first and sure enough, and the order in which plantings are given does not
// matter.
func TestSharesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyInput(t)
		r, err := Tie(in)
		if err != nil {
			t.Fatal(err)
		}
		total := r.None + r.Others
		for i, c := range r.Candidates {
			total += c.Probability
			if i > 0 && c.Probability > r.Candidates[i-1].Probability {
				t.Fatalf("out of order: %+v", r.Candidates)
			}
		}
		if math.Abs(total-1) > 0.0006*float64(len(r.Candidates)+2) {
			t.Fatalf("shares add up to %g: %+v", total, r)
		}
		if r.Tied != nil && (*r.Tied != r.Candidates[0].Planting || r.Sure < sureEnough || r.Lacking != LacksNothing) {
			t.Fatalf("tied %+v", r)
		}
		reversed := in
		reversed.Plantings = nil
		for i := range in.Plantings {
			reversed.Plantings = append(reversed.Plantings, in.Plantings[len(in.Plantings)-1-i])
		}
		if again, err := Tie(reversed); err != nil || fmt.Sprint(tidy(again)) != fmt.Sprint(tidy(r)) {
			t.Fatalf("the order matters: %+v, %+v, %v", r, again, err)
		}
	})
}

func tidy(r Result) string {
	text := fmt.Sprintf("%.2f %.2f %s", r.None, r.Sure, r.Lacking)
	if r.Tied != nil {
		text += *r.Tied
	}
	return text
}

func anyInput(t *rapid.T) Input {
	metres := rapid.Float64Range(-60, 60)
	photo := Photo{Seen: "2026-06-02T09:15:00Z"}
	if rapid.Bool().Draw(t, "placed") {
		photo = photoAt(metres.Draw(t, "x"), metres.Draw(t, "y"), rapid.Float64Range(0.1, 5000).Draw(t, "accuracy"))
	}
	in := inGarden(photo)
	for i := range rapid.IntRange(0, 30).Draw(t, "plantings") {
		p := Planting{ID: fmt.Sprint("p", i)}
		x, y := metres.Draw(t, "x"), metres.Draw(t, "y")
		switch rapid.IntRange(0, 3).Draw(t, "shape") {
		case 0:
			side := rapid.Float64Range(0, 10).Draw(t, "side")
			p.Area = garden.Outline{{x, y}, {x + side, y}, {x + side, y + side}}
		case 1, 2:
			p.At = &garden.Point{x, y}
		}
		in.Plantings = append(in.Plantings, p)
	}
	if len(in.Plantings) > 0 && rapid.Bool().Draw(t, "last") {
		in.Photo.LastPlanting, in.Photo.LastSeen = &in.Plantings[0].ID, ptr("2026-06-02T09:14:00Z")
	}
	return in
}

// Nine plants in flower stand about a late one in bud: it is the nearest, and
// must be offered although each of them is the likelier subject.
func TestTheNearestAreOfferedWhateverFlowers(t *testing.T) {
	plantings := []Planting{plantingAt("late", 0, 0.5)}
	for i := range 9 {
		angle := float64(i) * 2 * math.Pi / 9
		p := plantingAt(fmt.Sprintf("flowering %d", i), 2*math.Cos(angle), 2*math.Sin(angle))
		p.InFlower = ptr(true)
		plantings = append(plantings, p)
	}
	r := mustTie(t, inGarden(photoAt(0, 0, 6), plantings...))
	if len(r.Candidates) != mostShown || r.Candidates[0].Planting == "late" || probabilityOf(r, "late") == 0 {
		t.Errorf("offered %+v", r.Candidates)
	}
}
