package place

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"haulm/garden"
)

func everyone(int, int) bool { return true }

func crowding(stands []Stand, crowds func(by, of int) bool) [][]Taken {
	rooms := make([]Room, len(stands))
	for i, s := range stands {
		rooms[i] = s.Room
	}
	return Crowding(rooms, Neighbours(stands, crowds))
}

// lens is the share of a circle of radius 1 that an equal one covers at a
// distance: the area of a symmetric lens, from geometry.
func lens(apart float64) float64 {
	half := apart / 2
	return (2*math.Acos(half) - 2*half*math.Sqrt(1-half*half)) / math.Pi
}

func TestTwoEqualDiscsShareALens(t *testing.T) {
	for _, apart := range []float64{0, 0.5, 1, 1.5, 1.9, 2.1} {
		got := crowding([]Stand{{Disc(garden.Point{3, 4}, 1), 50}, {Disc(garden.Point{3 + apart, 4}, 1), 80}}, everyone)
		want := 0.0
		if apart < 2 {
			want = lens(apart)
		}
		for i, list := range got {
			if math.Abs(Total(list)-want) > 0.04 {
				t.Errorf("at %g radii stand %d has %v taken; geometry says %.3f", apart, i, list, want)
			}
		}
	}
}

func TestOverOneSpotTheTallestHasIt(t *testing.T) {
	low, tall, of := Stand{Disc(garden.Point{0, 0}, 3), 60}, Stand{Disc(garden.Point{0, 0}, 3), 200}, Stand{Disc(garden.Point{0, 0}, 1), 40}
	got := crowding([]Stand{low, tall, of}, everyone)[2]
	if len(got) != 1 || got[0] != (Taken{1, 1}) {
		t.Errorf("taken by %v; want all by the tallest", got)
	}
}

func TestWhatDoesNotCrowdTakesNothing(t *testing.T) {
	stands := []Stand{{Disc(garden.Point{0, 0}, 1), 50}, {Disc(garden.Point{0, 0}, 1), 50}}
	if got := crowding(stands, func(by, _ int) bool { return by == 0 }); len(got[0]) > 0 || Total(got[1]) != 1 {
		t.Errorf("taken: %v", got)
	}
}

func TestAnOutlineTakesItsPartOfAnother(t *testing.T) {
	square := Ground(garden.Outline{{0, 0}, {4, 0}, {4, 4}, {0, 4}})
	strip := Ground(garden.Outline{{3, -1}, {9, -1}, {9, 5}, {3, 5}})
	got := crowding([]Stand{{square, 50}, {strip, 50}}, everyone)
	if math.Abs(Total(got[0])-0.25) > 0.03 {
		t.Errorf("a quarter of the square is under the strip; told %v", got[0])
	}
	if square.Middle() != (garden.Point{2, 2}) {
		t.Errorf("its middle is %v", square.Middle())
	}
}

func TestSharesAreShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		metres := rapid.Float64Range(-1e4, 1e4)
		var stands []Stand
		for range rapid.IntRange(0, 12).Draw(t, "stands") {
			stand := Stand{Disc(garden.Point{metres.Draw(t, "x"), metres.Draw(t, "y")}, rapid.Float64Range(0, 20).Draw(t, "radius")), rapid.Float64Range(0, 5000).Draw(t, "tall")}
			if rapid.Bool().Draw(t, "outlined") {
				outline := garden.Outline{}
				for range rapid.IntRange(3, 90).Draw(t, "corners") {
					outline = append(outline, garden.Point{metres.Draw(t, "x"), metres.Draw(t, "y")})
				}
				stand.Room = Ground(outline)
			}
			stands = append(stands, stand)
		}
		check := func(lists [][]Taken) {
			for of, list := range lists {
				sum := 0.0
				for _, one := range list {
					sum += one.Share
					if one.By == of || one.By < 0 || one.By >= len(stands) || !(one.Share > 0 && one.Share <= 1) {
						t.Fatalf("%+v of stand %d", one, of)
					}
				}
				if sum > 1.05 { // sixty shares, each rounded to 0.001
					t.Fatalf("stand %d has %g of itself taken", of, sum)
				}
			}
		}
		check(crowding(stands, everyone))
		rooms := make([]Room, len(stands))
		for i, s := range stands {
			rooms[i] = s.Room
		}
		eye := garden.Point{metres.Draw(t, "eye x"), metres.Draw(t, "eye y")}
		check(Hidden(eye, rooms, func(of int) float64 { return stands[of].TallCM }, func(by, _ int) float64 { return stands[by].TallCM }))
	})
}

// seen lays two plants in a line from the eye, at distances in metres.
func seen(near, nearCM, far, farCM, aside float64) [][]Taken {
	rooms := []Room{Disc(garden.Point{aside, near}, 0.5), Disc(garden.Point{0, far}, 0.5)}
	tall := []float64{nearCM, farCM}
	return Hidden(garden.Point{0, 0}, rooms, func(of int) float64 { return tall[of] }, func(by, _ int) float64 { return tall[by] })
}

func TestOnlyWhatStandsOverTheLineOfSightHides(t *testing.T) {
	for name, c := range map[string]struct {
		near, nearCM, far, farCM, aside float64
		hidden                          float64
	}{
		// Over the top of 120 cm at 2 m an eye at 160 cm looks at the ground at
		// 8 m, and at 80 cm at 4 m.
		"taller in front":            {2, 120, 4, 90, 0, 1},
		"seen over it":               {2, 120, 4, 110, 0, 0},
		"over the eye hides more":    {2, 200, 4, 230, 0, 1},
		"lower in front":             {2, 40, 4, 90, 0, 0},
		"far aside":                  {2, 200, 4, 90, 3, 0},
		"side by side":               {4, 200, 4.3, 90, 0.9, 0},
		"the nearer is never hidden": {2, 20, 4, 300, 0, 0},
	} {
		t.Run(name, func(t *testing.T) {
			got := seen(c.near, c.nearCM, c.far, c.farCM, c.aside)
			if Total(got[1]) != c.hidden || len(got[0]) > 0 {
				t.Errorf("hidden: %v; want %g of the second", got, c.hidden)
			}
		})
	}
}

func TestAPartIsHiddenAsAPart(t *testing.T) {
	got := Total(seen(2, 200, 4, 90, 0.5)[1])
	if got < 0.3 || got > 0.8 {
		t.Errorf("half aside it hides %g", got)
	}
}

func TestWithinReachesAsFarAsItSays(t *testing.T) {
	square := Ground(garden.Outline{{0, 0}, {4, 0}, {4, 4}, {0, 4}})
	for at, apart := range map[garden.Point]float64{{2, 2}: 0, {6, 2}: 2, {7, 8}: 5, {2, -0.5}: 0.5} {
		if !square.Within(apart, at) || apart > 0 && square.Within(apart-0.01, at) {
			t.Errorf("%v is not %g m apart from a square", at, apart)
		}
	}
	disc := Disc(garden.Point{0, 0}, 1)
	if !disc.Within(0.5, garden.Point{1.4, 0}) || disc.Within(0.5, garden.Point{1.2, 1.2}) {
		t.Error("a disc does not reach as far as it should")
	}
}

// Rooms as no plan has them are given up on, from the end of the list.
func TestRoomsWithoutEndAreGivenUp(t *testing.T) {
	var stands []Stand
	for i := range mostCorners {
		at := float64(i)
		stands = append(stands, Stand{Disc(garden.Point{at, 0}, 1), 100})
	}
	outline := make(garden.Outline, mostCorners)
	for i := range outline {
		outline[i] = garden.Point{float64(i), float64(i%2) * 0.01}
	}
	for range 8000 {
		stands = append(stands, Stand{Ground(outline), 50})
	}
	taken := crowding(stands, everyone)
	if len(taken[0]) == 0 || taken[len(taken)-1] != nil {
		t.Errorf("the first has %v taken, the last %v", taken[0], taken[len(taken)-1])
	}
}
