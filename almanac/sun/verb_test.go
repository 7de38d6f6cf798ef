package sun

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"haulm/garden"
)

func f(x float64) *float64 { return &x }

// question asks for the sun behind a wall 3 m south of the origin, 2 m high.
func question() ShadeQuestion {
	day := garden.DayOf(2026, 6, 21)
	return ShadeQuestion{
		Garden: garden.Garden{Lat: f(51.5), Lon: f(-0.1)},
		Structures: []ShadeCaster{{Structure: garden.Structure{Form: "wall", HeightM: f(2),
			Outline: garden.Outline{{-5, -3}, {5, -3}, {5, -3.2}, {-5, -3.2}}}}},
		Day: &day,
	}
}

func TestShadeAnswersWhatASiteDoes(t *testing.T) {
	q := question()
	q.HeightM = 0.3
	answer, err := ShadeAt(q)
	if err != nil {
		t.Fatal(err)
	}
	prism, ok := PrismOf(q.Structures[0].Structure)
	if !ok {
		t.Fatal("a wall makes no prism")
	}
	point := siteOf(t, Place{Lat: 51.5, Lon: -0.1}, prism).Point(q.Point, 0.3)
	if want := point.Day(*q.Day); answer.Hours != want.Total || answer.Before != want.Before || answer.After != want.After {
		t.Errorf("the verb has %+v, the site %+v", answer, want)
	}
	season := point.GrowingSeason(2026, SeasonAt(51.5))
	if answer.GrowingSeason.Hours != season.Total || answer.GrowingSeason.Class != ClassOf(season.Total) || len(answer.Monthly) != 12 {
		t.Errorf("the verb has %+v, the site's season %+v", answer, season)
	}
	q.Day, q.Month = nil, &ShadeMonth{2026, 12}
	december, err := ShadeAt(q)
	if err != nil {
		t.Fatal(err)
	}
	if december.Hours != answer.Monthly[11] || december.Hours > 3 || answer.Monthly[5] < 16 {
		t.Errorf("December has %g hours; the year's months %v", december.Hours, answer.Monthly)
	}
}

func TestShadeByTheGivenLeafDates(t *testing.T) {
	q := question()
	q.Structures[0].Structure.Leaf, q.Structures[0].Structure.Outline = "deciduous", garden.Outline{{-5, -5}, {5, -5}, {5, 5}, {-5, 5}}
	inLeaf, err := ShadeAt(q)
	if err != nil {
		t.Fatal(err)
	}
	q.Structures[0].LeafOut = &garden.MonthDay{Month: 7, Day: 1}
	bare, err := ShadeAt(q)
	if err != nil {
		t.Fatal(err)
	}
	if inLeaf.Hours != 0 || math.Abs(bare.Hours-16.65*(1-bareShare)) > 0.2 {
		t.Errorf("inside a deciduous hedge on 21 June: %g hours in leaf, %g bare", inLeaf.Hours, bare.Hours)
	}
}

func TestShadeReadsItsWords(t *testing.T) {
	var q ShadeQuestion
	text := `{"garden":{"lat":51.5,"lon":0},"structures":[{"outline":[[0,1],[1,1],[1,2]],"heightM":3,"leaf":"deciduous","leafOut":"04-20"}],"point":[0,0],"month":"2026-06"}`
	if err := json.Unmarshal([]byte(text), &q); err != nil {
		t.Fatal(err)
	}
	if q.Month.Year != 2026 || q.Month.Month != 6 || q.Structures[0].LeafOut.String() != "04-20" || *q.Structures[0].HeightM != 3 {
		t.Errorf("read %+v", q)
	}
	if month, err := json.Marshal(q.Month); err != nil || string(month) != `"2026-06"` {
		t.Errorf("a month is written %s, %v", month, err)
	}
	if err := json.Unmarshal([]byte(`{"month":"June"}`), &q); err == nil || !strings.Contains(err.Error(), `month "June" is not a month written YYYY-MM`) {
		t.Errorf("error %v", err)
	}
}

func TestShadeRefuses(t *testing.T) {
	for _, c := range []struct {
		says  string
		spoil func(q *ShadeQuestion)
	}{
		{`field "garden.lat" is missing`, func(q *ShadeQuestion) { q.Garden.Lat = nil }},
		{`field "garden.lon" is missing`, func(q *ShadeQuestion) { q.Garden.Lon = nil }},
		{"garden.lat 91 is outside -90 to 90", func(q *ShadeQuestion) { q.Garden.Lat = f(91) }},
		{"garden.lon -181 is outside -180 to 180", func(q *ShadeQuestion) { q.Garden.Lon = f(-181) }},
		{"garden.planBearingDeg 400 is outside -360 to 360", func(q *ShadeQuestion) { q.Garden.PlanBearingDeg = 400 }},
		{"garden.normals has 1 months", func(q *ShadeQuestion) { q.Garden.Normals = make([]garden.Normal, 1) }},
		{`field "day" is missing`, func(q *ShadeQuestion) { q.Day = nil }},
		{"day and month are both given", func(q *ShadeQuestion) { q.Month = &ShadeMonth{2026, 6} }},
		{"day is in 2150", func(q *ShadeQuestion) { *q.Day = garden.DayOf(2150, 1, 1) }},
		{"month is in 1899", func(q *ShadeQuestion) { q.Day, q.Month = nil, &ShadeMonth{1899, 6} }},
		{"point[1] 1e+308 is outside", func(q *ShadeQuestion) { q.Point[1] = 1e308 }},
		{"heightM 501 is outside -500 to 500", func(q *ShadeQuestion) { q.HeightM = 501 }},
		{`structures[0]: form "wal" is not known: give wall, fence, hedge`, func(q *ShadeQuestion) { q.Structures[0].Form = "wal" }},
		{`structures[0]: field "heightM" is missing`, func(q *ShadeQuestion) { q.Structures[0].HeightM = nil }},
		{"structures[0]: heightM 501 is outside 0 to 500", func(q *ShadeQuestion) { q.Structures[0].HeightM = f(501) }},
		{"structures[0]: heightM 0 is outside 0 to 500", func(q *ShadeQuestion) { q.Structures[0].HeightM = f(0) }},
		{"structures[0]: baseM -501 is outside -500 to 500", func(q *ShadeQuestion) { q.Structures[0].BaseM = -501 }},
		{"structures[0]: density 1.1 is outside 0 to 1", func(q *ShadeQuestion) { q.Structures[0].Density = f(1.1) }},
		{`structures[0]: leaf "green" is not known`, func(q *ShadeQuestion) { q.Structures[0].Leaf = "green" }},
		{"structures[0]: outline has 2 points: give 3 to 500", func(q *ShadeQuestion) { q.Structures[0].Outline = garden.Outline{{0, 0}, {1, 1}} }},
		{"structures[0]: outline[2] [200000 0] is outside", func(q *ShadeQuestion) { q.Structures[0].Outline[2] = garden.Point{200000, 0} }},
		{"structures[0]: outline crosses itself", func(q *ShadeQuestion) {
			q.Structures[0].Outline = garden.Outline{{0, 0}, {1, 1}, {1, 0}, {0, 1}}
		}},
		{"structures[0]: outline encloses 0 m²", func(q *ShadeQuestion) { q.Structures[0].Outline = garden.Outline{{0, 0}, {1, 1}, {2, 2}} }},
		{"structures has 501 entries", func(q *ShadeQuestion) {
			for len(q.Structures) <= mostPrisms {
				q.Structures = append(q.Structures, q.Structures[0])
			}
		}},
		{"the outlines so far have 5489 points", func(q *ShadeQuestion) {
			q.Structures = q.Structures[:0]
			for range mostAllCorners/mostCorners + 1 {
				q.Structures = append(q.Structures, comb(2))
			}
		}},
	} {
		q := question()
		c.spoil(&q)
		if _, err := ShadeAt(q); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("error %v, want one that says %q", err, c.says)
		}
	}
}

// What a person recorded loosely casts no shade rather than stopping the rest.
func TestPrismOf(t *testing.T) {
	square := garden.Outline{{0, 0}, {2, 0}, {2, 2}, {0, 2}}
	for _, c := range []struct {
		name    string
		s       garden.Structure
		density float64
		ok      bool
	}{
		{"wall", garden.Structure{Form: "wall", Outline: square, HeightM: f(2)}, 1, true},
		{"hedge", garden.Structure{Form: "hedge", Outline: square, HeightM: f(2)}, hedgeDensity, true},
		{"tree", garden.Structure{Form: "tree", Outline: square, HeightM: f(9), BaseM: 2, Leaf: "deciduous"}, treeDensity, true},
		{"thin tree", garden.Structure{Form: "tree", Outline: square, HeightM: f(9), Density: f(0.3)}, 0.3, true},
		{"pergola", garden.Structure{Form: "pergola", Outline: square, HeightM: f(2.5), BaseM: 2.2}, frameDensity, true},
		{"no height", garden.Structure{Form: "wall", Outline: square}, 0, false},
		{"no outline", garden.Structure{Form: "wall", HeightM: f(2)}, 0, false},
		{"top under base", garden.Structure{Form: "arch", Outline: square, HeightM: f(2), BaseM: 2}, 0, false},
		{"crossing", garden.Structure{Form: "wall", Outline: garden.Outline{{0, 0}, {1, 1}, {1, 0}, {0, 1}}, HeightM: f(2)}, 0, false},
	} {
		prism, ok := PrismOf(c.s)
		if ok != c.ok || ok && prism.Density != c.density {
			t.Errorf("%s: density %g, %v; want %g, %v", c.name, prism.Density, ok, c.density, c.ok)
		}
	}
}
