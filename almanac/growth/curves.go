package growth

import "math"

// A curve is one model of growth: its coefficients by name, its value with its
// derivatives by them, and vectors to start a fit from.
type curve struct {
	coefficients []string
	// sizes are the indexes of the coefficients that a fit must determine to
	// within a multiple of themselves: the final size and the pace.
	sizes []int
	// positive are the indexes of those that are fitted by their logarithm,
	// which keeps every step of the fit inside the model.
	positive []int
	// at writes the derivatives by the coefficients and gives the value.
	at func(c []float64, x float64, gradient []float64) float64
	// starts gives candidates in a fixed order.
	starts func(x, y []float64) [][]float64
}

// curveOf finds a model by its name in the verb "curve-fit".
func curveOf(model string) (curve, bool) {
	switch model {
	case "logistic":
		return curve{[]string{"asym", "xmid", "scal"}, []int{0, 2}, nil, logistic, logisticStarts}, true
	case "gompertz":
		return curve{[]string{"asym", "b2", "b3"}, []int{0}, []int{1, 2}, gompertz, gompertzStarts}, true
	case "asymptotic":
		return curve{[]string{"asym", "r0", "lrc"}, []int{0}, nil, asymptotic, asymptoticStarts}, true
	case "chapman-richards":
		return curve{[]string{"a", "k", "m"}, []int{0, 1}, []int{1, 2}, chapmanRichards, chapmanRichardsStarts}, true
	}
	return curve{}, false
}

// modelNames are the models in the order in which an error lists them.
const modelNames = "logistic, gompertz, asymptotic or chapman-richards"

// logistic is asym/(1 + exp((xmid − x)/scal)).
func logistic(c []float64, x float64, gradient []float64) float64 {
	asym, xmid, scal := c[0], c[1], c[2]
	share := 1 / (1 + math.Exp((xmid-x)/scal))
	slope := asym * share * (1 - share) / scal
	gradient[0], gradient[1], gradient[2] = share, -slope, slope*(xmid-x)/scal
	return asym * share
}

// gompertz is asym·exp(−b2·b3^x).
func gompertz(c []float64, x float64, gradient []float64) float64 {
	asym, b2, b3 := c[0], c[1], c[2]
	power := math.Pow(b3, x)
	share := math.Exp(-b2 * power)
	gradient[0], gradient[1], gradient[2] = share, -asym*share*power, -asym*share*b2*x*power/b3
	return asym * share
}

// asymptotic is asym + (r0 − asym)·exp(−exp(lrc)·x).
func asymptotic(c []float64, x float64, gradient []float64) float64 {
	asym, r0, rate := c[0], c[1], math.Exp(c[2])
	left := math.Exp(-rate * x)
	gradient[0], gradient[1], gradient[2] = 1-left, left, -(r0-asym)*left*rate*x
	return asym + (r0-asym)*left
}

// chapmanRichards is a·(1 − exp(−k·x))^m, for x ≥ 0.
func chapmanRichards(c []float64, x float64, gradient []float64) float64 {
	a, k, m := c[0], c[1], c[2]
	if x == 0 {
		gradient[0], gradient[1], gradient[2] = 0, 0, 0
		return 0
	}
	left := math.Exp(-k * x)
	share := math.Pow(1-left, m)
	gradient[0], gradient[1], gradient[2] = share, a*m*share/(1-left)*left*x, a*share*math.Log(1-left)
	return a * share
}
