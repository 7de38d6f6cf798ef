package materials

import (
	"math"
	"slices"
	"strings"
	"testing"

	"haulm/garden"
)

// Facts of the trade, common practice: what everybody who sells or lays the stuff
// reckons with.

func TestACubicMetreCovers20SquareMetresAt5Cm(t *testing.T) {
	out := mulched(t, MulchInput{AreaM2: number(20), DepthCm: 5, BagL: number(50)})
	if out.M3 != 1 || out.Litres != 1000 || *out.Bags != 20 {
		t.Errorf("%+v", out)
	}
}

func TestTwelveFeetAre366Centimetres(t *testing.T) {
	if got := length(t, LengthInput{Feet: 12, NearestCm: number(1)}); got.Cm != 366 || got.M != 3.66 {
		t.Errorf("%+v", got)
	}
	if got := length(t, LengthInput{Feet: 5, Inches: 6}); got.Cm != 167.6 {
		t.Errorf("%+v", got)
	}
}

func TestFiveFeetByFourAre150By120ToTheNearest5Cm(t *testing.T) {
	high, wide := length(t, LengthInput{Feet: 5, NearestCm: number(5)}), length(t, LengthInput{Feet: 4, NearestCm: number(5)})
	if high.Cm != 150 || wide.Cm != 120 {
		t.Errorf("%+v by %+v", high, wide)
	}
}

// The plants to a square metre that growers print beside a spacing.
func TestPlantsToTheSquareMetre(t *testing.T) {
	for _, c := range []struct {
		pattern          string
		spacing, area    float64
		count            int
		perM2, tolerance float64
	}{
		{"square", 50, 12, 48, 4, 0}, {"square", 30, 9, 100, 11.1, 0.05}, {"square", 100, 0.2, 1, 1, 0},
		{"triangular", 50, 10, 46, 4.62, 0.005}, {"triangular", 30, 9, 115, 12.83, 0.005},
	} {
		out, err := Spacing(SpacingInput{AreaM2: &c.area, SpacingCm: c.spacing, Pattern: c.pattern})
		if err != nil || out.Count != c.count || math.Abs(out.PerM2-c.perM2) > c.tolerance {
			t.Errorf("%s at %v cm on %v m²: %+v, %v", c.pattern, c.spacing, c.area, out, err)
		}
	}
}

func TestMulchKeepsOffWhatPlantingsCover(t *testing.T) {
	bed := garden.Outline{{0, 0}, {4, 0}, {4, 3}, {0, 3}}
	shrub := garden.Outline{{1, 1}, {2, 1}, {2, 2}, {1, 2}}
	overlapping := garden.Outline{{1.5, 1}, {2.5, 1}, {2.5, 2}, {1.5, 2}}
	halfOut := garden.Outline{{3.5, 0}, {4.5, 0}, {4.5, 1}, {3.5, 1}}
	for name, c := range map[string]struct {
		minus []garden.Outline
		area  float64
	}{
		"nothing":                   {nil, 12},
		"one":                       {[]garden.Outline{shrub}, 11},
		"two that overlap":          {[]garden.Outline{shrub, overlapping}, 10.5},
		"one half outside":          {[]garden.Outline{halfOut}, 11.5},
		"a triangle":                {[]garden.Outline{{{0, 0}, {2, 0}, {0, 2}}}, 10},
		"one within another":        {[]garden.Outline{shrub, {{1.2, 1.2}, {1.4, 1.2}, {1.4, 1.4}}}, 11},
		"the other way round drawn": {[]garden.Outline{{{1, 2}, {2, 2}, {2, 1}, {1, 1}}}, 11},
	} {
		out := mulched(t, MulchInput{Outline: bed, Minus: c.minus, DepthCm: 5})
		if math.Abs(out.AreaM2-c.area) > 0.002 || math.Abs(out.M3-c.area/20) > 0.0002 {
			t.Errorf("%s: %+v, want %v m²", name, out, c.area)
		}
	}
}

func TestWeightAndCautions(t *testing.T) {
	out := mulched(t, MulchInput{AreaM2: number(20), DepthCm: 5, BagL: number(50), Material: "compost"})
	if *out.Kg != 700 || *out.KgRange != [2]float64{600, 1000} || !slices.Equal(out.Cautions, []string{GlovesMask, Lifting}) {
		t.Errorf("compost: %+v", out)
	}
	for name, c := range map[string]struct {
		in   MulchInput
		want []string
	}{
		"bark in light bags":      {MulchInput{BagL: number(40), Material: "bark"}, []string{GlovesMask}},
		"bags of anything":        {MulchInput{BagL: number(40)}, []string{GlovesMask}},
		"loose, of no known kind": {MulchInput{}, nil},
		"loose gravel":            {MulchInput{Material: "gravel"}, nil},
	} {
		c.in.AreaM2, c.in.DepthCm = number(3), 5
		if got := mulched(t, c.in).Cautions; !slices.Equal(got, c.want) {
			t.Errorf("%s: %v", name, got)
		}
	}
}

func TestBackfillIsTheHoleWithoutTheBall(t *testing.T) {
	holes := 3
	out, err := Backfill(BackfillInput{HoleWidthCm: 60, HoleDepthCm: 40, Shape: "square", BallL: 10, Holes: &holes,
		Amendments: []Amendment{{"compost", 0.25}, {"grit", 0.1}}})
	if err != nil {
		t.Fatal(err)
	}
	// 60 × 60 × 40 cm are 144 l, three holes 432, three balls 30.
	if out.DugL != 432 || out.BallsL != 30 || out.BackfillL != 402 || out.Amendments[0].Litres != 100.5 || out.SoilL != 261.3 {
		t.Errorf("%+v", out)
	}
	if math.Abs(out.SoilL+out.LeftOverL-out.DugL) > 1e-4 || !slices.Equal(out.Cautions, []string{GlovesMask}) {
		t.Errorf("%+v", out)
	}
	round, err := Backfill(BackfillInput{HoleWidthCm: 60, HoleDepthCm: 40})
	if err != nil || math.Abs(round.DugL-144*math.Pi/4) > 1e-4 {
		t.Errorf("a round hole: %+v, %v", round, err)
	}
}

func TestErrorsNameFieldValueAndBound(t *testing.T) {
	mulch := func(change func(*MulchInput)) func() error {
		return func() error {
			in := MulchInput{AreaM2: number(12), DepthCm: 5}
			change(&in)
			_, err := Mulch(in)
			return err
		}
	}
	square := garden.Outline{{0, 0}, {1, 0}, {1, 1}, {0, 1}}
	for want, ask := range map[string]func() error{
		"depthCm 0 is outside 0.1 to 100":       mulch(func(in *MulchInput) { in.DepthCm = 0 }),
		"areaM2 -1 is outside 0.001":            mulch(func(in *MulchInput) { in.AreaM2 = number(-1) }),
		"bagL 0.5 is outside 1 to 2000":         mulch(func(in *MulchInput) { in.BagL = number(0.5) }),
		"either areaM2":                         mulch(func(in *MulchInput) { in.Outline = square }),
		"or outline":                            mulch(func(in *MulchInput) { in.AreaM2 = nil }),
		"outline has 2 points":                  mulch(func(in *MulchInput) { in.AreaM2, in.Outline = nil, square[:2] }),
		"outline[0] [NaN 0]":                    mulch(func(in *MulchInput) { in.AreaM2, in.Outline = nil, garden.Outline{{math.NaN(), 0}, {1, 0}, {1, 1}} }),
		"outline crosses itself":                mulch(func(in *MulchInput) { in.AreaM2, in.Outline = nil, garden.Outline{{0, 0}, {1, 1}, {1, 0}, {0, 1}} }),
		"outline encloses 0 m²":                 mulch(func(in *MulchInput) { in.AreaM2, in.Outline = nil, garden.Outline{{0, 0}, {1, 1}, {2, 2}} }),
		"minus[0] has 1 points":                 mulch(func(in *MulchInput) { in.Minus = []garden.Outline{{{0, 0}}} }),
		"minus covers the whole ground of 1 m²": mulch(func(in *MulchInput) { in.AreaM2, in.Outline, in.Minus = nil, square, []garden.Outline{square} }),
		"minus covers":                          mulch(func(in *MulchInput) { in.AreaM2, in.Minus = number(0.5), []garden.Outline{square} }),
		`material "gold" is not known`:          mulch(func(in *MulchInput) { in.Material = "gold" }),
		`pattern "hexagonal" is not known`: func() error {
			_, err := Spacing(SpacingInput{AreaM2: number(1), SpacingCm: 30, Pattern: "hexagonal"})
			return err
		},
		"spacingCm 0 is outside 1 to 10000": func() error { _, err := Spacing(SpacingInput{AreaM2: number(1), Pattern: "square"}); return err },
		"ballL 200 does not go into a hole of 144.0 litres": func() error {
			_, err := Backfill(BackfillInput{HoleWidthCm: 60, HoleDepthCm: 40, Shape: "square", BallL: 200})
			return err
		},
		"shares of 1.1 together": func() error {
			_, err := Backfill(BackfillInput{HoleWidthCm: 60, HoleDepthCm: 40, Amendments: []Amendment{{"compost", 0.6}, {"grit", 0.5}}})
			return err
		},
		`shape "oval"`: func() error {
			_, err := Backfill(BackfillInput{HoleWidthCm: 60, HoleDepthCm: 40, Shape: "oval"})
			return err
		},
		"feet -1 is outside 0":        func() error { _, err := Length(LengthInput{Feet: -1}); return err },
		"nearestCm 0 is outside 0.1":  func() error { _, err := Length(LengthInput{NearestCm: number(0)}); return err },
		"holes 0 is outside 1 to 100": func() error { none := 0; _, err := Backfill(BackfillInput{60, 40, "", 3, &none, nil}); return err },
	} {
		if err := ask(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v does not say %q", err, want)
		}
	}
}

func mulched(t *testing.T, in MulchInput) MulchOutput {
	t.Helper()
	out, err := Mulch(in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func length(t *testing.T, in LengthInput) LengthOutput {
	t.Helper()
	out, err := Length(in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func number(x float64) *float64 { return &x }
