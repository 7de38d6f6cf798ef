package stats

import (
	"errors"
	"math"
)

// A Residuals fills in, for one vector of parameters, the residuals and their
// derivatives: jacobian[i*len(theta)+j] is that of residual i by parameter j.
// A step to where a residual is not finite is not taken.
type Residuals func(theta, residuals, jacobian []float64)

// A Minimum is where a sum of squares is least.
type Minimum struct {
	Theta []float64
	Sum   float64 // of the squared residuals
	// Inverse is (JᵀJ)⁻¹ there, row by row: the covariance of Theta once
	// multiplied by the residual variance.
	Inverse []float64
}

// What LeastSquares fails with.
var (
	// ErrSingular says that some combination of parameters changes nothing.
	ErrSingular = errors.New("the parameters are not determined by the points")
	// ErrNotSettled says that no least sum was found.
	ErrNotSettled = errors.New("the parameters do not settle on values")
)

const (
	// settledByRounding is the offset that is taken for done when rounding
	// leaves no step that still lowers the sum.
	settledByRounding = 1e-5
	// still and stillByRounding are the same for a perfect fit, whose offset is
	// 0 by 0: the squared length of the next step against that of the vector of
	// parameters, both as they show in the residuals.
	still           = 1e-24
	stillByRounding = 1e-18

	// sameSum is the share by which rounding may raise a sum.
	sameSum = 1e-13

	// mostSteps is many times what a fit that settles takes; mostDamping leaves a
	// step too small to change anything.
	mostSteps   = 200
	mostDamping = 1e12

	singularPivot   = 1e-13 // of a matrix scaled to a diagonal of ones
	startingDamping = 1e-3
	leastDamping    = 1e-15
)

// Settled is the offset to which LeastSquares fits, far below what is ever printed.
const Settled = 1e-10

// LeastSquares minimises the sum of n squared residuals from a starting vector
// until the relative offset of Bates & Watts (1981), Technometrics 23:179, is under
// settled: the distance to go in units of the parameters' confidence region. It goes
// by Levenberg–Marquardt (Marquardt 1963, Journal of SIAM 11:431), the columns
// of the Jacobian scaled to the same length. There must be more residuals than
// parameters. It fails with ErrSingular or ErrNotSettled; with the latter the
// Minimum is where it got to, its Inverse nil when there is none.
func LeastSquares(start []float64, n int, settled float64, residuals Residuals) (Minimum, error) {
	p := len(start)
	s := newSearch(start, n, residuals)
	if !(s.sum < math.Inf(1)) || n <= p {
		return Minimum{}, ErrNotSettled
	}
	for range mostSteps {
		offset, move, ok := s.stationary()
		if ok && (offset < settled || move < still) {
			return s.minimum(), nil
		}
		if s.step(ok && offset < settledByRounding) {
			continue
		}
		switch {
		case !ok:
			return Minimum{}, ErrSingular
		case offset < settledByRounding || move < stillByRounding:
			s.factor(0)
			return s.minimum(), nil
		}
		break
	}
	if !s.factor(0) {
		return Minimum{Theta: s.theta, Sum: s.sum}, ErrNotSettled
	}
	return s.minimum(), ErrNotSettled
}

// A search is where a minimisation has got to.
type search struct {
	n, p       int
	residuals  Residuals
	theta      []float64
	r, jac     []float64
	sum        float64
	damping    float64
	gradient   []float64 // Jᵀr
	normal     []float64 // JᵀJ
	tried      []float64
	triedR     []float64
	triedJ     []float64
	work, move []float64
}

func newSearch(start []float64, n int, residuals Residuals) *search {
	p := len(start)
	room := make([]float64, 4*p+2*n+2*n*p+2*p*p)
	take := func(length int) []float64 {
		part := room[:length:length]
		room = room[length:]
		return part
	}
	s := &search{n: n, p: p, residuals: residuals, damping: startingDamping,
		theta: take(p), gradient: take(p), tried: take(p), move: take(p),
		r: take(n), triedR: take(n), jac: take(n * p), triedJ: take(n * p), normal: take(p * p), work: take(p * p)}
	copy(s.theta, start)
	residuals(s.theta, s.r, s.jac)
	s.sum = sumOfSquares(s.r)
	s.project()
	return s
}

// stationary gives the relative offset and the relative squared length of the
// next step, and leaves the factor of the normal matrix in work; false when the
// matrix is singular.
func (s *search) stationary() (offset, move float64, ok bool) {
	if !s.factor(0) {
		return 0, 0, false
	}
	s.solve(s.move, s.gradient)
	toGo, length := 0.0, 0.0
	for j, g := range s.gradient {
		toGo += g * s.move[j]
		length += s.theta[j] * s.theta[j] * s.normal[j*s.p+j]
	}
	rest := math.Max(0, s.sum-toGo)
	return math.Sqrt(toGo / float64(s.p) / (rest / float64(s.n-s.p))), toGo / length, true
}

// minimum gives the result, with the inverse by the factor in work.
func (s *search) minimum() Minimum {
	inverse := make([]float64, s.p*s.p)
	unit := make([]float64, s.p)
	for j := range s.p {
		clear(unit)
		unit[j] = 1
		s.solve(inverse[j*s.p:(j+1)*s.p], unit)
	}
	return Minimum{s.theta, s.sum, inverse}
}

// step moves to a lower sum, damping as much as it takes; false when there is
// none. Near the minimum the same sum will do: the sum is flat there and shows half
// the digits of the parameters. How well the last step did what the tangent
// promised sets the damping of the next (Nielsen 1999, Damping parameter in
// Marquardt's method, IMM-REP-1999-05, Technical University of Denmark).
func (s *search) step(near bool) bool {
	for harder := 2.0; s.damping < mostDamping; harder *= 2 {
		if s.factor(s.damping) {
			promised := s.try()
			if sum := sumOfSquares(s.triedR); sum < s.sum || near && sum <= s.sum*(1+sameSum) {
				s.accept(sum, promised, near)
				return true
			}
		}
		s.damping *= harder
	}
	return false
}

// try reckons the residuals a step away and gives how much less their sum should be.
func (s *search) try() (promised float64) {
	s.solve(s.move, s.gradient)
	for j, move := range s.move {
		s.tried[j] = s.theta[j] - move
		promised += move*s.gradient[j] + s.damping*move*move*s.normal[j*s.p+j]
	}
	s.residuals(s.tried, s.triedR, s.triedJ)
	return promised
}

// accept takes the step. Near the minimum, where sums show nothing, what it gained
// is known from the slopes at its two ends.
func (s *search) accept(sum, promised float64, near bool) {
	gained := s.sum - sum
	if near {
		gained = s.slope()
	}
	s.theta, s.tried = s.tried, s.theta
	s.r, s.triedR = s.triedR, s.r
	s.jac, s.triedJ = s.triedJ, s.jac
	s.sum = sum
	s.project()
	if near {
		gained += s.slope()
	}
	if promised > 0 {
		s.damping *= math.Max(1.0/3, 1-math.Pow(2*gained/promised-1, 3))
		s.damping = math.Max(leastDamping, s.damping)
	}
}

// slope is half the rate at which the sum falls along the step.
func (s *search) slope() float64 {
	slope := 0.0
	for j, move := range s.move {
		slope += move * s.gradient[j]
	}
	return slope
}

func sumOfSquares(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v * v
	}
	if math.IsNaN(sum) {
		return math.Inf(1)
	}
	return sum
}
