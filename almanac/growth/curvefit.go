package growth

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"haulm/almanac/stats"
)

// A Series is what the verb "curve-fit" takes: a model ("logistic", "gompertz",
// "asymptotic" or "chapman-richards") and points.
type Series struct {
	Model string    `json:"model"`
	X     []float64 `json:"x"`
	Y     []float64 `json:"y"`
}

// A Fit is what the verb "curve-fit" gives, to 7 significant figures, by the
// names of the coefficients:
//
//   - logistic asym/(1+exp((xmid−x)/scal)), as R's SSlogis: asym, xmid, scal
//   - gompertz asym·exp(−b2·b3^x), as SSgompertz: asym, b2, b3
//   - asymptotic asym+(r0−asym)·exp(−exp(lrc)·x), as SSasymp: asym, r0, lrc
//   - chapman-richards a·(1−exp(−k·x))^m: a, k, m
//
// Standard errors are those of nonlinear least squares, from the Jacobian at the
// minimum; the residual error is √(sum of squares/(points − 3)).
type Fit struct {
	Coefficients   map[string]float64 `json:"coefficients"`
	StandardErrors map[string]float64 `json:"standardErrors"`
	ResidualError  float64            `json:"residualError"`
}

// CurveFit answers the verb "curve-fit" by least squares with starting values of
// its own. It fails, saying why, on a model it does not know, on points beyond
// ±10¹² (ages below 0 for chapman-richards), on too few or more than 20,000 of them,
// and when they do not determine the curve.
func CurveFit(s Series) (Fit, error) {
	model, known := curveOf(s.Model)
	if !known {
		return Fit{}, fmt.Errorf("model %q is not known: give %s", s.Model, modelNames)
	}
	if err := s.check(len(model.coefficients)); err != nil {
		return Fit{}, err
	}
	best, found := model.bestStart(s.toStart())
	if !found {
		return Fit{}, s.unfit("x is too far from 0: count it from the first point")
	}
	model.toLogs(best)
	least, err := stats.LeastSquares(best, len(s.X), stats.Settled, model.residuals(s.X, s.Y))
	if err != nil {
		return Fit{}, s.unfit(err.Error())
	}
	return s.fit(model, least)
}

func (s Series) fit(model curve, least stats.Minimum) (Fit, error) {
	p := len(model.coefficients)
	residual := math.Sqrt(least.Sum / float64(len(s.X)-p))
	fit := Fit{map[string]float64{}, map[string]float64{}, stats.Round7(residual)}
	for i, name := range model.coefficients {
		value, se := least.Theta[i], residual*math.Sqrt(least.Inverse[i*p+i])
		if slices.Contains(model.positive, i) {
			value = math.Exp(value)
			se *= value // exact, since the Jacobian by the value is that by its logarithm over the value
		}
		if notFinite(value) || notFinite(se) {
			return Fit{}, s.unfit(fmt.Sprintf("%s has no bound", name))
		}
		if slices.Contains(model.sizes, i) && se > leastDetermined*math.Abs(value) {
			return Fit{}, s.unfit(fmt.Sprintf("%s would be %.4g with a standard error of %.4g", name, value, se))
		}
		fit.Coefficients[name], fit.StandardErrors[name] = stats.Round7(value), stats.Round7(se)
	}
	return fit, nil
}

// What CurveFit takes.
const (
	// mostPoints, one each day for half a century, keep a fit well under a second.
	mostPoints = 20_000
	// enoughToStart points, evenly through the series, are as good as all to start
	// from: the fit itself goes through all.
	enoughToStart = 500
	// largestValue keeps squares and products far from overflow.
	largestValue = 1e12
)

func (s Series) check(coefficients int) error {
	if len(s.X) != len(s.Y) {
		return fmt.Errorf("x has %d values and y has %d: give one y for each x", len(s.X), len(s.Y))
	}
	if len(s.X) > mostPoints {
		return fmt.Errorf("x has %d values, more than the %d that a curve is fitted to: thin them out", len(s.X), mostPoints)
	}
	for i := range s.X {
		if err := s.checkPoint(i); err != nil {
			return err
		}
	}
	places := slices.Clone(s.X)
	slices.Sort(places)
	if len(s.X) <= coefficients || len(slices.Compact(places)) < coefficients {
		return fmt.Errorf("%d points are too few for a %s curve: give at least %d, at %d or more different x",
			len(s.X), s.Model, coefficients+1, coefficients)
	}
	return nil
}

func (s Series) checkPoint(i int) error {
	least := -float64(largestValue)
	if s.Model == "chapman-richards" {
		least = 0 // an age
	}
	if !(s.X[i] >= least && s.X[i] <= largestValue) {
		return fmt.Errorf("x[%d] %v is outside %g to %g for %s", i, s.X[i], least, float64(largestValue), s.Model)
	}
	if !(math.Abs(s.Y[i]) <= largestValue) {
		return fmt.Errorf("y[%d] %v is outside %g to %g", i, s.Y[i], -float64(largestValue), float64(largestValue))
	}
	return nil
}

// toStart are points enough to choose a start by, evenly through the order of x.
func (s Series) toStart() (x, y []float64) {
	if len(s.X) <= enoughToStart {
		return s.X, s.Y
	}
	order := make([]int, len(s.X))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.X[a], s.X[b]) })
	for i := range enoughToStart {
		at := order[i*(len(order)-1)/(enoughToStart-1)]
		x, y = append(x, s.X[at]), append(y, s.Y[at])
	}
	return x, y
}

func (s Series) unfit(why string) error {
	return fmt.Errorf("a %s curve cannot be fitted to these %d points: %s; measure nearer to the full size, or try another model",
		s.Model, len(s.X), why)
}

// bestStart is the candidate with the least sum of squares, the first of equals.
func (c curve) bestStart(x, y []float64) (best []float64, found bool) {
	least := math.Inf(1)
	gradient := make([]float64, len(c.coefficients))
	for _, start := range c.starts(x, y) {
		sum := 0.0
		for i := range x {
			off := c.at(start, x[i], gradient) - y[i]
			sum += off * off
		}
		if sum < least {
			best, least = start, sum
		}
	}
	return best, best != nil
}

// residuals gives the fit's own view of the curve, some coefficients by their
// logarithm.
func (c curve) residuals(x, y []float64) stats.Residuals {
	p := len(c.coefficients)
	values := make([]float64, p)
	return func(theta, residuals, jacobian []float64) {
		copy(values, theta)
		for _, j := range c.positive {
			values[j] = math.Exp(theta[j])
		}
		for i := range x {
			row := jacobian[i*p : (i+1)*p]
			residuals[i] = c.at(values, x[i], row) - y[i]
			for _, j := range c.positive {
				row[j] *= values[j]
			}
		}
	}
}

func (c curve) toLogs(coefficients []float64) {
	for _, j := range c.positive {
		coefficients[j] = math.Log(coefficients[j])
	}
}

func notFinite(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) }
