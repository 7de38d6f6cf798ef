package stats

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"haulm/internal/reference"
)

// robustStats is testdata/reference/robust_stats.json: results of R and scipy.
type robustStats struct {
	TheilSen map[string]struct {
		X, Y      []float64
		Slope     float64
		Intercept float64 `json:"intercept_med_y_minus_slope_med_x"`
	} `json:"theil_sen"`
	Summaries map[string]struct {
		X         json.RawMessage
		Median    float64
		MAD       float64 `json:"mad_raw"`
		Scaled    float64 `json:"mad_1.4826"`
		Quantiles map[string]map[string]float64
	}
	Interval map[string]struct {
		Lower, Upper []string
		Gaussian     struct{ Mean, Scale, Loglik float64 }
	}
}

func TestTheilSenOfRAndScipy(t *testing.T) {
	cases := robust(t).TheilSen
	if len(cases) < 3 {
		t.Fatalf("only %d reference lines", len(cases))
	}
	for name, c := range cases {
		line, err := TheilSen(c.X, c.Y)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" slope", line.Slope, c.Slope, 1e-9)
		near(t, name+" intercept", line.Intercept, c.Intercept, 1e-9)
	}
}

func TestTheilSenSaysWhatItCannotFit(t *testing.T) {
	long := make([]float64, longestTheilSen+1)
	for name, c := range map[string]struct {
		x, y []float64
		want string
	}{
		"lengths":   {[]float64{1, 2}, []float64{1}, "x has 2 values and y has 1"},
		"one x":     {[]float64{3, 3, 3}, []float64{1, 2, 3}, "different x"},
		"nothing":   {nil, nil, "different x"},
		"infinite":  {[]float64{1, math.Inf(1)}, []float64{1, 2}, "x[1] +Inf is outside -1e+12 to 1e+12"},
		"no number": {[]float64{1, 2}, []float64{math.NaN(), 2}, "y[0] NaN is outside"},
		"too steep": {[]float64{0, 5e-324}, []float64{0, 1}, "too steep"},
		"too many":  {long, long, "thin them out"},
	} {
		if _, err := TheilSen(c.x, c.y); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", name, err, c.want)
		}
	}
}

func TestSummariesOfR(t *testing.T) {
	compared := 0
	for name, c := range robust(t).Summaries {
		var values []float64
		if json.Unmarshal(c.X, &values) != nil {
			var one float64
			if err := json.Unmarshal(c.X, &one); err != nil {
				t.Fatal(err)
			}
			values = []float64{one}
		}
		near(t, name+" median", Median(values), c.Median, 1e-12)
		near(t, name+" mad", MAD(values), c.MAD, 1e-12)
		if c.Scaled != 0 { // R multiplies by 1.4826, rounded
			near(t, name+" mad scaled", ConsistentMAD*MAD(values), c.Scaled, 2e-6)
		}
		for kind, by := range map[string]QuantileType{"type2": Averaged, "type7": Interpolated, "type8": MedianUnbiased} {
			for p, want := range c.Quantiles[kind] {
				level, known := map[string]float64{"p05": 0.05, "p10": 0.1, "p25": 0.25, "p50": 0.5, "p75": 0.75, "p90": 0.9, "p95": 0.95}[p]
				if !known {
					t.Fatalf("%s has a level %s that is not compared", name, p)
				}
				compared++
				near(t, name+" "+kind+" "+p, Quantile(values, level, by), want, 1e-9)
			}
		}
	}
	if want := 2 * 3 * 7; compared != want { // sets, types and levels
		t.Errorf("%d quantiles were compared, want %d", compared, want)
	}
}

func TestQuantileOfNothingIsNaN(t *testing.T) {
	if got := Quantile(nil, 0.5, Interpolated); !math.IsNaN(got) {
		t.Errorf("got %v, want NaN", got)
	}
	if got := Quantile([]float64{1}, 1.5, Interpolated); !math.IsNaN(got) {
		t.Errorf("p of 1.5 gave %v, want NaN", got)
	}
}

// At the estimates of R's survival::survreg the log-likelihood must be survreg's
// and its slope in the mean 0.
func TestNormalIntervalAgainstSurvreg(t *testing.T) {
	for name, c := range robust(t).Interval {
		mean, sd := c.Gaussian.Mean, c.Gaussian.Scale
		total, pull := 0.0, 0.0
		for i := range c.Lower {
			lo, hi := bound(t, c.Lower[i]), bound(t, c.Upper[i])
			if lo == hi {
				z := (lo - mean) / sd
				total += LogNormalPDF(z) - math.Log(sd)
				pull += z
				continue
			}
			logP, slope, _ := NormalInterval((lo-mean)/sd, (hi-mean)/sd)
			total, pull = total+logP, pull+slope
		}
		near(t, name+" log-likelihood", total, c.Gaussian.Loglik, 1e-8)
		near(t, name+" slope at the maximum", pull, 0, 1e-4)
	}
}

func bound(t *testing.T, text string) float64 {
	t.Helper()
	var x float64
	switch text {
	case "-Inf":
		return math.Inf(-1)
	case "Inf":
		return math.Inf(1)
	}
	if err := json.Unmarshal([]byte(text), &x); err != nil {
		t.Fatal(err)
	}
	return x
}

func robust(t *testing.T) robustStats {
	t.Helper()
	var stats robustStats
	reference.JSON(t, "robust_stats.json", &stats)
	if len(stats.TheilSen)*len(stats.Summaries)*len(stats.Interval) == 0 {
		t.Fatal("a section of the reference is empty")
	}
	return stats
}
