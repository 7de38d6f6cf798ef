package stats

import (
	"errors"
	"math"
	"testing"
)

// Anscombe's first set (1973, American Statistician 27:17): intercept 3.0001,
// slope 0.50009, residual error 1.2366, standard errors 1.1247 and 0.11791.
var (
	anscombeX = []float64{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5}
	anscombeY = []float64{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}
)

func TestLeastSquaresOnAnscombesLine(t *testing.T) {
	least, err := LeastSquares([]float64{100, -7}, len(anscombeX), Settled, line(anscombeX, anscombeY))
	if err != nil {
		t.Fatal(err)
	}
	variance := least.Sum / float64(len(anscombeX)-2)
	near(t, "intercept", least.Theta[0], 3.0000909, 1e-6)
	near(t, "slope", least.Theta[1], 0.5000909, 1e-6)
	near(t, "residual error", math.Sqrt(variance), 1.236603, 1e-6)
	near(t, "error of the intercept", math.Sqrt(variance*least.Inverse[0]), 1.124747, 1e-6)
	near(t, "error of the slope", math.Sqrt(variance*least.Inverse[3]), 0.1179055, 1e-6)
	near(t, "symmetry", least.Inverse[1], least.Inverse[2], 1e-12)
}

// Rosenbrock's valley as a sum of squares (1960, Computer Journal 3:175), from
// its usual start, with a constant residual that cannot be lowered.
func TestLeastSquaresDownRosenbrocksValley(t *testing.T) {
	least, err := LeastSquares([]float64{-1.2, 1}, 3, Settled, func(theta, r, j []float64) {
		r[0], r[1], r[2] = 10*(theta[1]-theta[0]*theta[0]), 1-theta[0], 2
		copy(j, []float64{-20 * theta[0], 10, -1, 0, 0, 0})
	})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "x", least.Theta[0], 1, 1e-8)
	near(t, "y", least.Theta[1], 1, 1e-8)
	near(t, "sum", least.Sum, 4, 1e-12)
}

func TestLeastSquaresOnExactPoints(t *testing.T) {
	least, err := LeastSquares([]float64{1, 1}, 4, Settled, line([]float64{1, 2, 3, 4}, []float64{3, 5, 7, 9}))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "intercept", least.Theta[0], 1, 1e-9)
	near(t, "slope", least.Theta[1], 2, 1e-9)
}

func TestLeastSquaresSaysWhenPointsDetermineNothing(t *testing.T) {
	if _, err := LeastSquares([]float64{1, 1}, 3, Settled, line([]float64{2, 2, 2}, []float64{1, 2, 3})); !errors.Is(err, ErrSingular) {
		t.Errorf("a line through one place: error %v, want %v", err, ErrSingular)
	}
	falling := func(theta, r, j []float64) { // e^−θ falls for ever
		r[0], r[1] = math.Exp(-theta[0]), 0
		j[0], j[1] = -r[0], 0
	}
	if _, err := LeastSquares([]float64{0}, 2, Settled, falling); err == nil {
		t.Error("a sum without a least one gave no error")
	}
	nowhere := func(theta, r, j []float64) { r[0], r[1] = math.NaN(), 0 }
	if _, err := LeastSquares([]float64{0}, 2, Settled, nowhere); !errors.Is(err, ErrNotSettled) {
		t.Errorf("a start that is not a number: error %v, want %v", err, ErrNotSettled)
	}
}

func line(x, y []float64) Residuals {
	return func(theta, r, j []float64) {
		for i := range x {
			r[i] = theta[0] + theta[1]*x[i] - y[i]
			j[2*i], j[2*i+1] = 1, x[i]
		}
	}
}
