package growth

import (
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
// its own. It fails, saying why, on a model it does not know, on points that are
// not numbers, too few or more than mostPoints, and when the points do not determine the curve.
func CurveFit(s Series) (Fit, error) {
	model, known := curveOf(s.Model)
	if !known {
		return Fit{}, fmt.Errorf("model %q is not known: give %s", s.Model, modelNames)
	}
	if err := s.check(len(model.coefficients)); err != nil {
		return Fit{}, err
	}
	best, found := model.bestStart(s.X, s.Y)
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
		if slices.Contains(model.sizes, i) && se > leastDetermined*math.Abs(value) {
			return Fit{}, s.unfit(fmt.Sprintf("%s would be %.4g with a standard error of %.4g", name, value, se))
		}
		fit.Coefficients[name], fit.StandardErrors[name] = stats.Round7(value), stats.Round7(se)
	}
	return fit, nil
}

// mostPoints keeps a fit under a second; a plant measured every day for a
// century has fewer.
const mostPoints = 40_000

func (s Series) check(coefficients int) error {
	if len(s.X) != len(s.Y) {
		return fmt.Errorf("x has %d values and y has %d: give one y for each x", len(s.X), len(s.Y))
	}
	if len(s.X) > mostPoints {
		return fmt.Errorf("%d points are more than the %d that a curve is fitted to: thin them out", len(s.X), mostPoints)
	}
	for i := range s.X {
		if notFinite(s.X[i]) || notFinite(s.Y[i]) {
			return fmt.Errorf("point %d (%v, %v) is not a pair of numbers", i+1, s.X[i], s.Y[i])
		}
		if s.Model == "chapman-richards" && s.X[i] < 0 {
			return fmt.Errorf("x of point %d is %v: an age for chapman-richards is 0 or more", i+1, s.X[i])
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
