package suit

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"haulm/garden"
	"pgregory.net/rapid"
)

// known is a kind of the catalogue.
func known(t testing.TB, id string) candidate {
	t.Helper()
	kind, found := inCatalogue(catalogue(t), id)
	if !found {
		t.Fatalf("the catalogue has no %s", id)
	}
	return candidate{kind: kind}
}

// Common practice: what is known of these kinds and places.
func TestRightPlantRightPlace(t *testing.T) {
	shade := Spot{SunHours: number(1.5), Soil: "clay loam", Drainage: "good", MinWinterC: number(-8)}
	gravel := Spot{SunHours: number(9), Soil: "sand", Drainage: "quick", MinWinterC: number(-8)}
	for _, c := range []struct {
		spot          Spot
		better, worse string
	}{
		{shade, "dryopteris-filix-mas", "lavandula-angustifolia"},
		{shade, "convallaria-majalis", "papaver-orientale"},
		{gravel, "lavandula-angustifolia", "astilbe-arendsii"},
		{gravel, "stachys-byzantina", "hosta-sieboldiana"},
	} {
		better, worse := c.spot.fit(known(t, c.better)), c.spot.fit(known(t, c.worse))
		if better < 0.5 || better < 2*worse {
			t.Errorf("%s suits by %v and %s by %v", c.better, better, c.worse, worse)
		}
	}
}

// fit is 0 for a kind that is ruled out.
func (s Spot) fit(c candidate) float64 {
	factors, out := s.judge(c)
	if len(out) > 0 {
		return 0
	}
	return fitOf(factors)
}

func TestWhatRulesAKindOutIsNamed(t *testing.T) {
	no := false
	for name, c := range map[string]struct {
		spot Spot
		kind string
		says string
	}{
		"cold":                        {Spot{MinWinterC: number(-20)}, "agapanthus-campanulatus", TooCold},
		"cold in a pot":               {Spot{MinWinterC: number(-10), Container: true}, "agapanthus-campanulatus", TooCold},
		"wet ground":                  {Spot{Drainage: "wet"}, "lavandula-angustifolia", TooWet},
		"wet ground as said":          {Spot{Moisture: "wet"}, "nepeta-racemosa", TooWet},
		"shade":                       {Spot{SunHours: number(2)}, "lavandula-angustifolia", TooShady},
		"chalk":                       {Spot{PH: number(8.5)}, "daboecia", TooLimy},
		"nothing to climb":            {Spot{Support: &no}, "wisteria-sinensis", NothingToClimb},
		"no room":                     {Spot{RoomCm: number(60)}, "wisteria-sinensis", TooWide},
		"a tree where a metre is set": {Spot{HeightCm: &garden.Range{40, 100}}, "taxus-baccata", TooTall},
	} {
		t.Run(name, func(t *testing.T) {
			kind := candidate{kind: garden.Kind{PH: garden.Range{4.5, 6.5}}}
			if c.kind != "daboecia" {
				kind = known(t, c.kind)
			}
			_, out := c.spot.judge(kind)
			if len(out) != 1 || out[0].Say != c.says {
				t.Errorf("ruled out by %+v, want %s alone", out, c.says)
			}
		})
	}
}

func TestWhatIsLiftedOrGoneBeforeWinterIsNotTooCold(t *testing.T) {
	spot := Spot{MinWinterC: number(-20)}
	dahlia, out := spot.cold(known(t, "dahlia-bishop-of-llandaff"))
	if out || dahlia.Say != LiftForWinter || *dahlia.Score != lifted {
		t.Errorf("a dahlia, lifted each autumn: %+v", dahlia)
	}
	cosmos, out := spot.cold(known(t, "cosmos-bipinnatus"))
	if out || cosmos.Say != Fits {
		t.Errorf("an annual: %+v", cosmos)
	}
}

func TestWhatIsNotKnownCountsNeitherWayAndIsNamed(t *testing.T) {
	result := suited(t, Input{})
	if len(result.Excluded) != 0 || len(result.Ranked) != len(catalogue(t)) {
		t.Fatalf("%d ranked and %d ruled out", len(result.Ranked), len(result.Excluded))
	}
	want := []string{Cold, Sun, Moisture, PH, Height, Room, Support, Colour, Weeks}
	if !slices.Equal(result.Unknown, want) {
		t.Errorf("unknown %v, want %v", result.Unknown, want)
	}
	for i, one := range result.Ranked {
		if one.Score != 1 || one.Fit != 1 {
			t.Errorf("%s has %v where nothing is known", one.Kind, one.Score)
		}
		if i > 0 && one.Kind <= result.Ranked[i-1].Kind {
			t.Errorf("%s stands after %s of the same score", one.Kind, result.Ranked[i-1].Kind)
		}
	}
	empty, err := wholeKind(json.RawMessage(`{"id":"bare"}`))
	if err != nil {
		t.Fatal(err)
	}
	all := Spot{SunHours: number(1), Soil: "clay", PH: number(4), MinWinterC: number(-30), RoomCm: number(10), HeightCm: &garden.Range{1, 2}, Colours: []string{"#000000"}}
	if got := all.fit(empty); got != 1 {
		t.Errorf("a kind of which nothing is known suits by %v", got)
	}
}

func TestCautionsGoAlongAndRuleNothingOut(t *testing.T) {
	result := suited(t, Input{Kinds: []json.RawMessage{[]byte(`"aconitum-napellus"`), []byte(`"lilium-regale"`), []byte(`"euphorbia-epithymoides"`)}})
	for id, code := range map[string]string{"aconitum-napellus": "poison-skin", "lilium-regale": "cats", "euphorbia-epithymoides": "eyes"} {
		if got := result.ranked(t, id).Cautions; !slices.Contains(got, code) {
			t.Errorf("%s goes with %v, without %s", id, got, code)
		}
	}
	cold := suited(t, Input{Spot: Spot{MinWinterC: number(-40)}, Kinds: []json.RawMessage{[]byte(`"aconitum-napellus"`)}})
	if out, found := cold.excluded("aconitum-napellus"); !found || !slices.Contains(out.Cautions, "poison") {
		t.Errorf("ruled out: %+v", cold.Excluded)
	}
}

// More sun never does a plant good that has its most already, nor harm to one that
// has less than its least; and so for every other factor of a range.
func TestFurtherFromWhatAKindWantsIsNeverBetter(t *testing.T) {
	kinds := catalogue(t)
	rapid.Check(t, func(t *rapid.T) {
		c := candidate{kind: rapid.SampledFrom(kinds).Draw(t, "kind")}
		at := func(set func(*Spot, float64), value float64) float64 {
			var spot Spot
			set(&spot, value)
			return spot.fit(c)
		}
		for _, one := range []struct {
			name   string
			wants  garden.Range
			lo, hi float64
			set    func(*Spot, float64)
		}{
			{"sun", c.kind.SunHours, 0, 24, func(s *Spot, v float64) { s.SunHours = &v }},
			{"ph", c.kind.PH, 2, 11, func(s *Spot, v float64) { s.PH = &v }},
			{"cold", garden.Range{c.kind.MinWinterC + coldMarginC, 100}, -60, 20, func(s *Spot, v float64) { s.MinWinterC = &v }},
			{"room", garden.Range{c.kind.SpreadCm[1], 1e9}, 0, 1000, func(s *Spot, v float64) { s.RoomCm = &v }},
		} {
			near, far := rapid.Float64Range(one.lo, one.hi).Draw(t, one.name), rapid.Float64Range(one.lo, one.hi).Draw(t, one.name+" too")
			if outside(one.wants, near) > outside(one.wants, far) {
				near, far = far, near
			}
			if (near < one.wants[0]) != (far < one.wants[0]) && outside(one.wants, near) > 0 {
				continue // on the two sides of the range
			}
			if better, worse := at(one.set, near), at(one.set, far); worse > better+1e-9 {
				t.Fatalf("%s of %v suits %s by %v, and %v, further from %v, by %v", one.name, near, c.kind.ID, better, far, one.wants, worse)
			}
		}
	})
}

func outside(wants garden.Range, value float64) float64 {
	return max(0, wants[0]-value, value-wants[1])
}

func TestAfternoonSunIsHotterThanTheMornings(t *testing.T) {
	hosta := known(t, "hosta-sieboldiana")
	hours := hosta.kind.SunHours[1] + 1
	morning, _ := Spot{SunHours: &hours, SunMorning: &hours}.sun(hosta)
	evening, _ := Spot{SunHours: &hours, SunMorning: number(0)}.sun(hosta)
	if !(*evening.Score < *morning.Score) || evening.Say != TooSunny {
		t.Errorf("%v h in the morning score %v, in the afternoon %v", hours, *morning.Score, *evening.Score)
	}
}

func TestSoilDrainageAndWateringMakeMoisture(t *testing.T) {
	for name, c := range map[string]struct {
		spot Spot
		want float64
	}{
		"sand":            {Spot{Soil: "sand"}, 0},
		"clay":            {Spot{Soil: "clay"}, 2},
		"quick clay":      {Spot{Soil: "clay", Drainage: "quick"}, 1.3},
		"slow loam":       {Spot{Soil: "loam", Drainage: "slow"}, 1.8},
		"irrigated sand":  {Spot{Soil: "sand", Irrigated: true}, 0.5},
		"a bog":           {Spot{Soil: "sand", Drainage: "wet"}, 3},
		"a pot":           {Spot{Soil: "clay", Drainage: "wet", Container: true}, potMoisture},
		"as said":         {Spot{Soil: "sand", Moisture: "moist"}, 2},
		"drainage alone":  {Spot{Drainage: "good"}, 1.3},
		"quick, dry sand": {Spot{Soil: "sand", Drainage: "quick"}, 0},
	} {
		if got := c.spot.moistureHere(); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("%s is %v, want %v", name, got, c.want)
		}
	}
}

func TestThePHOfAPotIsChosen(t *testing.T) {
	factor, out := Spot{PH: number(8.5), Container: true}.acidity(known(t, "camellia-sasanqua"))
	if out || factor.Say != ByTheCompost || factor.Score != nil {
		t.Errorf("got %+v", factor)
	}
}

func TestErrorsNameFieldValueAndBound(t *testing.T) {
	for in, want := range map[string]string{
		`{"spot":{"lat":91}}`:                                   "spot.lat 91 is outside -90 to 90",
		`{"spot":{"latenessDays":200}}`:                         "spot.latenessDays 200 is outside -183 to 183",
		`{"spot":{"sunHours":25}}`:                              "spot.sunHours 25 is outside 0 to 24",
		`{"spot":{"sunHours":3,"sunMorning":4}}`:                "spot.sunMorning 4 is a part of sunHours",
		`{"spot":{"ph":1e308}}`:                                 "spot.ph 1e+308 is outside 2 to 11",
		`{"spot":{"minWinterC":-100}}`:                          "spot.minWinterC -100 is outside -60 to 25",
		`{"spot":{"roomCm":-1}}`:                                "spot.roomCm -1 is outside 0 to 5000",
		`{"spot":{"heightCm":[100,50]}}`:                        "spot.heightCm [100 50] must be two heights in order",
		`{"spot":{"soil":"mud"}}`:                               `soil "mud" is not allowed`,
		`{"spot":{"drainage":"none"}}`:                          `drainage "none" is not allowed`,
		`{"spot":{"moisture":"damp"}}`:                          `moisture "damp" is not allowed`,
		`{"spot":{"colours":["red"]}}`:                          `spot.colours[0] "red" is not a colour written #rrggbb`,
		`{"spot":{},"choose":31}`:                               "choose 31 is outside 0 to 30",
		`{"spot":{},"areaM2":-2}`:                               "areaM2 -2 is outside 0 to 10000",
		`{"spot":{},"kinds":["rosa-nonsuch"]}`:                  `kinds[0]: "rosa-nonsuch" is not in the catalogue`,
		`{"spot":{},"kinds":["iris-sibirica","iris-sibirica"]}`: `kinds has "iris-sibirica" twice`,
		`{"spot":{},"kinds":[{"name":"x"}]}`:                    `kinds[0]: field "id" is missing`,
		`{"spot":{},"kinds":[7]}`:                               "kinds[0]: a kind is its slug or an object",
		`{"spot":{},"kinds":[{"id":"x","sunHours":[5,99]}]}`:    "kinds[0]: x: sunHours [5,99] is not allowed",
		`{"spot":{},"kinds":[{"id":"x","heigthCm":[5,99]}]}`:    `kinds[0]: x: field "heigthCm" is not known in a kind`,
		`{"spot":{},"have":{"kinds":["rosa-nonsuch"]}}`:         `have.kinds has "rosa-nonsuch"`,
		`{"spot":{},"have":{"weeks":[1,2]}}`:                    "have.weeks has 2 values where 52 are wanted",
		`{"spot":{},"have":{"windows":[{"from":"06-01","to":"07-01","colours":["blue"]}]}}`: `have.windows[0].colours[0] "blue"`,
	} {
		var input Input
		if err := json.Unmarshal([]byte(in), &input); err != nil {
			t.Fatal(err)
		}
		if _, err := Suit(input); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want one with %q", in, err, want)
		}
	}
}

// The longest question: as many whole kinds as are ranked at once, for the longest set.
func BenchmarkSuitAtItsLongest(b *testing.B) {
	in := Input{Spot: Spot{SunHours: number(5), Colours: slices.Repeat([]string{"#7566b0"}, mostColours)}, Choose: whole(mostChosen), Have: &Have{}}
	for i := range mostKinds {
		kind := catalogue(b)[i%100]
		kind.ID += strings.Repeat("x", i/100)
		text, err := json.Marshal(kind)
		if err != nil {
			b.Fatal(err)
		}
		in.Kinds = append(in.Kinds, text)
	}
	in.Have.Kinds = slices.Repeat([]string{"iris-sibirica"}, mostHave)
	in.Have.Windows = slices.Repeat([]Flowering{{From: monthDay("05-01"), To: monthDay("06-01"), Colours: []string{"#7566b0"}}}, mostHave)
	for b.Loop() {
		suited(b, in)
	}
}
