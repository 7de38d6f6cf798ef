package httpapi

import (
	"math"
	"testing"
)

func TestRangesAsRFC9110HasThem(t *testing.T) {
	const size = 10_000 // bytes, as in the examples of section 14.1.2
	cases := []struct {
		header   string
		found    bool
		from, to int64
	}{
		{"bytes=0-499", true, 0, 499},
		{"bytes=500-999", true, 500, 999},
		{"bytes=-500", true, 9500, 9999},
		{"bytes=9500-", true, 9500, 9999},
		{"bytes=0-0", true, 0, 0},
		{"bytes=-1", true, 9999, 9999},
		{"Bytes=0-1", true, 0, 1},
		{"bytes=9000-20000", true, 9000, 9999},
		{"bytes=-99999999", true, 0, 9999},
		{"bytes=0-99999999999999999999999", true, 0, 9999},
		{"bytes=-99999999999999999999999", true, 0, 9999},
		{"bytes=10000-", true, 10_000, 9999},
		{"bytes=99999999999999999999999-", true, math.MaxInt64, 9999},
		{"bytes=-0", true, 10_000, 9999},
		{"", false, 0, 0},
		{"bytes", false, 0, 0},
		{"=", false, 0, 0},
		{"bytes=", false, 0, 0},
		{"bytes=-", false, 0, 0},
		{"bytes=5-2", false, 0, 0},
		{"bytes=a-b", false, 0, 0},
		{"bytes=a-5", false, 0, 0},
		{"bytes=+1-5", false, 0, 0},
		{"bytes=1--5", false, 0, 0},
		{"bytes=0-1,5-6", false, 0, 0},
		{"seconds=0-1", false, 0, 0},
	}
	for _, c := range cases {
		t.Run(c.header, func(t *testing.T) {
			asked, found := parseRange(c.header)
			if found != c.found {
				t.Fatalf("found %v", found)
			}
			if from, to := asked.within(size); found && (from != c.from || to != c.to) {
				t.Errorf("%d to %d, want %d to %d", from, to, c.from, c.to)
			}
		})
	}
}
