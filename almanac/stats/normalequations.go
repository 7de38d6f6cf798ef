package stats

import "math"

// project refreshes gradient and normal matrix.
func (s *search) project() {
	clear(s.gradient)
	clear(s.normal)
	for i, r := range s.r {
		row := s.jac[i*s.p : (i+1)*s.p]
		for j, d := range row {
			s.gradient[j] += d * r
			for k := 0; k <= j; k++ {
				s.normal[j*s.p+k] += d * row[k]
			}
		}
	}
}

// factor writes the Cholesky factor of the normal matrix, scaled to a diagonal
// of ones and damped, into work; false when it is singular.
func (s *search) factor(damping float64) bool {
	p, l := s.p, s.work
	for j := range p {
		for k := 0; k <= j; k++ {
			sum := s.normal[j*p+k] / math.Sqrt(s.normal[j*p+j]*s.normal[k*p+k])
			if j == k {
				sum = 1 + damping
			}
			for m := 0; m < k; m++ {
				sum -= l[j*p+m] * l[k*p+m]
			}
			if j != k {
				l[j*p+k] = sum / l[k*p+k]
				continue
			}
			if !(sum > singularPivot) || !(s.normal[j*p+j] > 0) {
				return false
			}
			l[j*p+j] = math.Sqrt(sum)
		}
	}
	return true
}

// solve writes the solution for a right-hand side by the factor in work.
func (s *search) solve(into, right []float64) {
	p, l := s.p, s.work
	for j := range p {
		sum := right[j] / math.Sqrt(s.normal[j*p+j])
		for k := 0; k < j; k++ {
			sum -= l[j*p+k] * into[k]
		}
		into[j] = sum / l[j*p+j]
	}
	for j := p - 1; j >= 0; j-- {
		sum := into[j]
		for k := j + 1; k < p; k++ {
			sum -= l[k*p+j] * into[k]
		}
		into[j] = sum / l[j*p+j]
	}
	for j := range p {
		into[j] /= math.Sqrt(s.normal[j*p+j])
	}
}
