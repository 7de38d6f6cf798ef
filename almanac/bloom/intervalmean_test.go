package bloom

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"haulm/internal/reference"
	"pgregory.net/rapid"
)

// TestIntervalMeanAgainstSurvreg checks against survreg of R's survival 3.5-3,
// Surv(lower, upper, type = "interval2"), gaussian (testdata/reference).
func TestIntervalMeanAgainstSurvreg(t *testing.T) {
	var file struct {
		Interval map[string]struct {
			Name         string
			Lower, Upper []string
			Gaussian     struct {
				Mean   float64
				MeanSE float64 `json:"mean_se"`
				Scale  float64
			}
		}
	}
	reference.JSON(t, "robust_stats.json", &file)
	if len(file.Interval) != 4 {
		t.Fatalf("%d sets, 4 expected", len(file.Interval))
	}
	for name, set := range file.Interval {
		t.Run(name, func(t *testing.T) {
			var in MeanInput
			for i := range set.Lower {
				in.Intervals = append(in.Intervals, [2]*float64{end(t, set.Lower[i]), end(t, set.Upper[i])})
			}
			got, err := IntervalMean(in)
			if err != nil {
				t.Fatal(err)
			}
			within(t, "mean", got.Mean, set.Gaussian.Mean, 1e-5)
			within(t, "sd", got.SD, set.Gaussian.Scale, 1e-5)
			within(t, "standard error", got.StandardError, set.Gaussian.MeanSE, 1e-4)
		})
	}
}

func within(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s %.10g, R has %.10g", what, got, want)
	}
}

func end(t *testing.T, text string) *float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	if math.IsInf(v, 0) {
		return nil
	}
	return &v
}

func TestIntervalMeanSaysWhatIsWrong(t *testing.T) {
	a, b, nan := 1.0, 2.0, math.NaN()
	for _, c := range []struct {
		name, want string
		intervals  [][2]*float64
	}{
		{"none", "at least 2 are needed", nil},
		{"all open above", "at least 2 are needed", [][2]*float64{{&a, nil}, {&b, nil}}},
		{"wrong way round", "intervals[1]: 2 is after 1", [][2]*float64{{&a, &b}, {&b, &a}}},
		{"not a number", "intervals[0]", [][2]*float64{{&nan, &b}, {&a, &b}}},
		{"one value twice", "do not settle", [][2]*float64{{&a, &a}, {&a, &a}}},
		{"all in one interval", "do not settle", [][2]*float64{{&a, &b}, {&a, &b}, {&a, nil}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := IntervalMean(MeanInput{c.intervals})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%v, %v: expected an error with %q", got, err, c.want)
			}
		})
	}
}

// TestIntervalMeanShiftsAndScales: days counted from another day, or in weeks,
// give the same answer in those terms.
func TestIntervalMeanShiftsAndScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		shift, scale := rapid.Float64Range(-200, 200).Draw(t, "shift"), rapid.Float64Range(0.1, 10).Draw(t, "scale")
		var in, moved MeanInput
		for range n {
			lo := rapid.Float64Range(50, 250).Draw(t, "lo")
			hi := lo + rapid.Float64Range(0, 20).Draw(t, "width")
			mlo, mhi := shift+scale*lo, shift+scale*hi
			in.Intervals = append(in.Intervals, [2]*float64{&lo, &hi})
			moved.Intervals = append(moved.Intervals, [2]*float64{&mlo, &mhi})
		}
		a, err := IntervalMean(in)
		b, errMoved := IntervalMean(moved)
		if err != nil || errMoved != nil {
			return
		}
		if math.Abs(b.Mean-(shift+scale*a.Mean)) > 1e-3*scale || math.Abs(b.SD-scale*a.SD) > 1e-3*b.SD {
			t.Fatalf("%+v moved by %g and scaled by %g gives %+v", a, shift, scale, b)
		}
	})
}
