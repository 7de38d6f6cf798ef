package materials

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// beside is a metre cane of 500 pixels beside a plant of 900.
func beside() PhotoInput {
	return PhotoInput{CaneCm: 100, CaneTop: [2]float64{100, 500}, CaneFoot: [2]float64{100, 1000},
		PlantTop: [2]float64{400, 100}, PlantFoot: [2]float64{400, 1000}}
}

func measured(t *testing.T, in PhotoInput) PhotoOutput {
	t.Helper()
	out, err := HeightFromPhoto(in)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestAPlantBesideTheCaneIsInProportion(t *testing.T) {
	out := measured(t, beside())
	if out.HeightCm != 180 || len(out.Assumed) != 1 || !(out.ErrorCm > 5 && out.ErrorCm < 15) {
		t.Errorf("%+v", out)
	}
}

func TestAPlantFartherThanTheCaneIsHigherThanItLooks(t *testing.T) {
	in := beside()
	in.CaneDistanceM, in.PlantDistanceM = number(3), number(4)
	if out := measured(t, in); out.HeightCm != 240 || len(out.Assumed) != 0 {
		t.Errorf("%+v", out)
	}
}

// A pinhole camera, turned askew, of a plant and a cane at known distances.
func TestAnUprightPlantThroughAPinhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		caneCm, plantCm := rapid.Float64Range(100, 250).Draw(t, "cane"), rapid.Float64Range(20, 400).Draw(t, "plant")
		caneM, plantM := rapid.Float64Range(2, 6).Draw(t, "cane's distance"), rapid.Float64Range(2, 6).Draw(t, "plant's distance")
		askew, eyeCm := rapid.Float64Range(-1, 1).Draw(t, "askew"), rapid.Float64Range(0, 180).Draw(t, "eye")
		sin, cos := math.Sincos(askew)
		project := func(asideM, heightCm, distanceM float64) [2]float64 {
			const focal = 3000
			x, y := focal*asideM/distanceM, -focal*(heightCm-eyeCm)/100/distanceM
			return [2]float64{cos*x - sin*y + 1500, sin*x + cos*y + 2000}
		}
		out, err := HeightFromPhoto(PhotoInput{CaneCm: caneCm, CaneTop: project(0, caneCm, caneM), CaneFoot: project(0, 0, caneM),
			PlantTop: project(0.4, plantCm, plantM), PlantFoot: project(0.4, 0, plantM), CaneDistanceM: &caneM, PlantDistanceM: &plantM})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(out.HeightCm-plantCm) > 0.06 || !(out.ErrorCm > 0 && out.ErrorCm < plantCm) {
			t.Fatalf("a plant of %v cm: %+v", plantCm, out)
		}
	})
}

// Taps and paced distances that stray as the constants say must make heights stray
// as the error says.
func TestTheErrorIsHowFarRepeatedMeasuresStray(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for name, truth := range map[string]PhotoInput{
		"beside":     beside(),
		"leaning":    func() PhotoInput { in := beside(); in.PlantTop[0] += 500; return in }(),
		"short cane": func() PhotoInput { in := beside(); in.CaneTop[1] = 900; return in }(),
		"two paced": func() PhotoInput {
			in := beside()
			in.CaneDistanceM, in.PlantDistanceM = number(3), number(4)
			return in
		}(),
		"rough finger": func() PhotoInput { in := beside(); in.PixelError = number(25); return in }(),
	} {
		said := measured(t, truth)
		// What rises above the cane has an error of its own that is no chance here.
		beyond := beyondShare * math.Max(0, 900/math.Abs(truth.CaneTop[1]-truth.CaneFoot[1])-1) * said.HeightCm
		var sum, squares float64
		const times = 4000
		for range times {
			h := measured(t, strayed(truth, random)).HeightCm
			sum, squares = sum+h, squares+h*h
		}
		strays := math.Sqrt(squares/times - sum/times*sum/times)
		if expected := math.Sqrt(said.ErrorCm*said.ErrorCm - beyond*beyond); math.Abs(strays/expected-1) > 0.12 {
			t.Errorf("%s: strays by %.2f cm, said %.2f", name, strays, expected)
		}
	}
}

func strayed(in PhotoInput, random *rand.Rand) PhotoInput {
	pixels := in.pixelError()
	lean := leanDeg * math.Pi / 180 * random.NormFloat64()
	in.CaneTop[0] += math.Sin(lean) * math.Abs(in.CaneTop[1]-in.CaneFoot[1])
	for _, at := range []*[2]float64{&in.CaneTop, &in.CaneFoot, &in.PlantTop, &in.PlantFoot} {
		at[0], at[1] = at[0]+pixels*random.NormFloat64(), at[1]+pixels*random.NormFloat64()
	}
	if in.CaneDistanceM != nil {
		cane, plant := *in.CaneDistanceM*(1+distanceShare*random.NormFloat64()), *in.PlantDistanceM*(1+distanceShare*random.NormFloat64())
		in.CaneDistanceM, in.PlantDistanceM = &cane, &plant
	} else {
		in.CaneCm *= 1 + besideShare*random.NormFloat64()
	}
	return in
}

func TestPicturesThatTellNothingAreRefused(t *testing.T) {
	for want, change := range map[string]func(*PhotoInput){
		"give or take":                        func(in *PhotoInput) { in.PixelError = number(150) },
		"caneCm 0 is outside 10 to 1000":      func(in *PhotoInput) { in.CaneCm = 0 },
		"0.0 pixels apart, less than 20":      func(in *PhotoInput) { in.CaneTop = in.CaneFoot },
		"is it the right way up":              func(in *PhotoInput) { in.PlantTop, in.PlantFoot = in.PlantFoot, in.PlantTop },
		"more than 45° aside":                 func(in *PhotoInput) { in.PlantTop[0] += 1000 },
		"less than two pixel errors":          func(in *PhotoInput) { in.PlantTop = [2]float64{400, 995} },
		"give caneDistanceM and plant":        func(in *PhotoInput) { in.CaneDistanceM = number(3) },
		"plantDistanceM 0 is outside 0.3":     func(in *PhotoInput) { in.CaneDistanceM, in.PlantDistanceM = number(3), number(0) },
		"caneTop[0] NaN is outside":           func(in *PhotoInput) { in.CaneTop[0] = math.NaN() },
		"pixelError 0 is outside 0.1 to 200":  func(in *PhotoInput) { in.PixelError = number(0) },
		"plantFoot[1] 1e+09 is outside -1000": func(in *PhotoInput) { in.PlantFoot[1] = 1e9 },
	} {
		in := beside()
		change(&in)
		if out, err := HeightFromPhoto(in); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v, %v does not say %q", out, err, want)
		}
	}
}
