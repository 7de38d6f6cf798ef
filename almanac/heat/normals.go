package heat

import (
	"fmt"
	"math"
	"time"

	"haulm/garden"
)

// How the days of one season stray from the normals of their dates. All three
// were found in the daily series for Seattle 2012 to 2015 (NOAA National
// Climatic Data Center), a maritime temperate climate like the reference site's:
// daily means about the interpolated monthly means.
const (
	strayC      = 2.7  // standard deviation of a day's mean, °C
	strayLasts  = 0.75 // correlation of one day with the next
	straySeason = 0.08 // share of the variance that whole seasons have in common
)

// Normals are a garden's long-term monthly means of the daily minimum and
// maximum, January first.
type Normals [12]struct{ MinC, MaxC float64 }

// NewNormals takes a garden's normals; it fails unless there are twelve,
// plausible, each minimum at most its maximum.
func NewNormals(months []garden.Normal) (Normals, error) {
	var normals Normals
	if len(months) != len(normals) {
		return normals, fmt.Errorf("normals has %d months: give twelve, January first", len(months))
	}
	for i, m := range months {
		if !plausible(m.MinC) || !plausible(m.MaxC) || m.MinC > m.MaxC {
			return normals, fmt.Errorf("normals of %s: minC %v and maxC %v must be in order and within %d to %d °C",
				time.Month(i+1), m.MinC, m.MaxC, coldestC, hottestC)
		}
		normals[i].MinC, normals[i].MaxC = m.MinC, m.MaxC
	}
	return normals, nil
}

// On gives the usual minimum and maximum of a date, interpolated between the
// middles of the months.
func (n Normals) On(day garden.Day) (minC, maxC float64) {
	const daysInMonth = 365.25 / 12
	position := (float64(day.OfYear())-0.5)/daysInMonth - 0.5
	whole := math.Floor(position)
	part := position - whole
	before, after := n[(int(whole)+12)%12], n[(int(whole)+13)%12]
	return before.MinC + part*(after.MinC-before.MinC), before.MaxC + part*(after.MaxC-before.MaxC)
}

// usual gives a date's expected degree-days and their standard deviation from
// year to year. The mean over days that stray matters: near the base, warm days
// count and cold ones do not, so the degree-days of the mean would be too few.
// Three-point Gauss–Hermite quadrature serves.
func (s Scale) usual(n Normals, day garden.Day) (mean, sd float64) {
	minC, maxC := n.On(day)
	const reach = 1.7320508075688772 * strayC // √3 standard deviations
	cold, mid, warm := s.Of(minC-reach, maxC-reach), s.Of(minC, maxC), s.Of(minC+reach, maxC+reach)
	mean = (cold + 4*mid + warm) / 6
	square := (cold*cold + 4*mid*mid + warm*warm) / 6
	return mean, math.Sqrt(math.Max(0, square-mean*mean))
}

// strayOfSum is the standard deviation of the sum of n days in units of one
// day's, for a first-order autoregression and what the season has in common.
func strayOfSum(n float64) float64 {
	const r = strayLasts
	run := n*(1+r)/(1-r) - 2*r*(1-math.Pow(r, n))/((1-r)*(1-r))
	return math.Sqrt(math.Max(0, (1-straySeason)*run+straySeason*n*n))
}
