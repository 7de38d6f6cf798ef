package stats

import "math"

// Unsure is the entropy, in bits, of what is so with chance p: 0 of what is certain,
// 1 of evens (Shannon 1948, Bell System Technical Journal 27:379).
func Unsure(p float64) float64 {
	if p <= 0 || p >= 1 {
		return 0
	}
	return -p*math.Log2(p) - (1-p)*math.Log2(1-p)
}
