package bloom

import "testing"

// BenchmarkFitAndJudge is the bloom part of an assessment: 500 plantings of 150
// kinds over 5 years, fitted and each judged in the last.
func BenchmarkFitAndJudge(b *testing.B) {
	flushes, err := simulate(1, 150, 500, 5).input.check()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		m, _ := modelInOrder(flushes, make([]float64, len(flushes)))
		for i, f := range m.flushes {
			if f.Year == 2024 {
				m.forecast(i)
			}
		}
	}
}
