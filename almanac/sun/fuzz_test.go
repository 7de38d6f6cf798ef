package sun

import (
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"haulm/garden"
)

// sound holds that an answer can be written and an error says something. A call
// that hangs is ended by the fuzzing engine itself.
func sound[Out any](t *testing.T, answer Out, err error) {
	t.Helper()
	if err != nil {
		if strings.TrimSpace(err.Error()) == "" {
			t.Fatal("an error that says nothing")
		}
		return
	}
	if _, err := json.Marshal(answer); err != nil { // JSON has no NaN and no infinity
		t.Fatalf("%+v: %v", answer, err)
	}
}

func FuzzAt(f *testing.F) {
	f.Add(51.5, -0.1, "2026-06-21T12:00:00Z")
	f.Add(-90.0, 180.0, "1900-01-01T00:00:00+14:00")
	f.Add(90.0, -180.0, "2149-12-31T23:59:59.999999999-12:00")
	f.Fuzz(func(t *testing.T, lat, lon float64, at string) {
		answer, err := At(Question{lat, lon, at})
		sound(t, answer, err)
		if err == nil && !(math.Abs(answer.ElevationDeg) <= 90 && answer.AzimuthDeg >= 0 && answer.AzimuthDeg < 360) {
			t.Fatalf("%+v", answer)
		}
	})
}

func FuzzDayOf(f *testing.F) {
	f.Add(51.5, -0.1, int32(20000), "Europe/London")
	f.Add(-90.0, 180.0, int32(15338), "Pacific/Apia")
	f.Add(69.65, 18.96, int32(20590), "-12:00")
	f.Fuzz(func(t *testing.T, lat, lon float64, day int32, zone string) {
		answer, err := DayOf(DayQuestion{lat, lon, garden.Day(day), zone})
		sound(t, answer, err)
		if err != nil {
			return
		}
		polar := answer.Rise == nil && answer.Set == nil
		if polar != (answer.Polar != "") || answer.LengthHours < 0 || answer.LengthHours > 26 {
			t.Fatalf("%+v", answer)
		}
		if answer.Polar == "night" && answer.LengthHours != 0 {
			t.Fatalf("%+v", answer)
		}
		for _, text := range []*string{answer.Rise, answer.Set, &answer.Transit} {
			if text == nil {
				continue
			}
			if _, err := time.Parse(time.RFC3339, *text); err != nil {
				t.Fatal(err)
			}
		}
	})
}

func FuzzShadeAt(f *testing.F) {
	f.Add([]byte(`{"garden":{"lat":51.5,"lon":0,"planBearingDeg":20},"structures":[{"form":"tree","outline":[[0,1],[1,1],[1,2]],"baseM":1,"heightM":3,"leaf":"deciduous","leafOut":"04-20"}],"point":[0.5,1.1],"heightM":0.2,"month":"2026-06"}`))
	f.Add([]byte(`{"garden":{"lat":-90,"lon":180,"normals":[{"minC":1,"maxC":2}]},"structures":[{"outline":[[0,0],[1e-3,0],[0,1e-3]],"heightM":500,"density":0.5}],"point":[0,0],"day":"2149-12-31"}`))
	f.Add([]byte(`{"garden":{"lat":0,"lon":0},"structures":[{"outline":[[-1,-1],[-1,-1],[1,-1],[1,1],[1,0],[-1,1]],"baseM":-1,"heightM":1e-300}],"point":[-1,-1],"heightM":-1,"day":"2026-03-20"}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var q ShadeQuestion
		if json.Unmarshal(text, &q) != nil {
			return
		}
		answer, err := ShadeAt(q)
		sound(t, answer, err)
		if err == nil && !(answer.Hours >= 0 && answer.Hours <= 24) {
			t.Fatalf("%+v", answer)
		}
	})
}

// The largest garden that is taken, drawn to be as costly as can be: combs raised
// from the ground, all in one line behind each other.
func TestLargestGardenIsTaken(t *testing.T) {
	q := question()
	q.Structures = nil
	for i := range mostAllCorners / mostCorners {
		q.Structures = append(q.Structures, comb(float64(i)*40+2))
	}
	answer, err := ShadeAt(q)
	if err != nil {
		t.Fatal(err)
	}
	if len(answer.Monthly) != 12 || answer.Hours <= 0 {
		t.Errorf("%+v", answer)
	}
}

// comb is an outline of mostCorners points whose teeth stand across the way of
// whoever looks along x.
func comb(x float64) ShadeCaster {
	c := question().Structures[0]
	c.Outline, c.BaseM, c.HeightM = nil, 3, f(3.5)
	const teeth = (mostCorners - 2) / 4
	for i := range teeth {
		at := x + float64(i)*0.2
		c.Outline = append(c.Outline, [2]float64{at, -1}, [2]float64{at, 1}, [2]float64{at + 0.1, 1}, [2]float64{at + 0.1, -1})
	}
	c.Outline = append(c.Outline, [2]float64{x + teeth*0.2, -1}, [2]float64{x + teeth*0.2, -1.1}, [2]float64{x, -1.1})
	return c
}

// BenchmarkLargestGarden is how long the costliest question takes.
func BenchmarkLargestGarden(b *testing.B) {
	q := question()
	q.Structures = nil
	for i := range mostAllCorners / mostCorners {
		q.Structures = append(q.Structures, comb(float64(i)*40+2))
	}
	for b.Loop() {
		if _, err := ShadeAt(q); err != nil {
			b.Fatal(err)
		}
	}
}
