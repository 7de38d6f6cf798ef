package simulate

import (
	"math"

	"haulm/garden"
)

// seasons say how far the season moves flower, smoothly over time: a sum of
// Gaussian bumps with independent normal heights on evenly spaced knots, weighed
// so that its variance is the same on every day.
type seasons struct {
	in              Input
	sky             *sky       // nil where nothing is known of it
	from            garden.Day // of the first knot
	weeks, yearLong []float64  // heights in standard deviations
}

func newSeasons(in Input, from, to garden.Day) (w *seasons, err error) {
	w = &seasons{in: in, from: from - bumpReach*yearLongWidth}
	if in.Weather {
		if w.sky, err = newSky(in, from, to); err != nil {
			return nil, err
		}
	}
	chance := newStream(in.Seed, seasonStream)
	knots := int(float64(to-w.from+bumpReach*yearLongWidth)/knotDays) + 1
	for range knots {
		w.weeks = append(w.weeks, chance.normal(1))
		w.yearLong = append(w.yearLong, chance.normal(1))
	}
	return w, nil
}

// at is how many days late the season is on a day, 1 January 1970 being 0, for what
// heat moves.
func (w *seasons) at(day float64) float64 {
	if w.sky == nil {
		return w.without(day)
	}
	return thousandth(w.without(day) + w.sky.late(day))
}

// without is the same for what heat does not move.
func (w *seasons) without(day float64) float64 {
	ofYear := day - float64(garden.DayOf(yearOf(day), 1, 1)) + 1
	if w.in.with(LateSpring) && yearOf(day) == LastYear {
		return thousandth(lateSpringDays * math.Max(0, math.Min(1, (normalFrom-ofYear)/(normalFrom-lateSpringUntil))))
	}
	if w.in.with(EvenSeason) {
		return thousandth(w.sd(ofYear) * w.yearLong[yearOf(day)-w.from.Year()])
	}
	at := (day - float64(w.from)) / knotDays
	drawn := math.Sqrt(1-yearLongShare)*bumps(w.weeks, at, weeksWidth/knotDays) +
		math.Sqrt(yearLongShare)*bumps(w.yearLong, at, yearLongWidth/knotDays)
	return thousandth(w.sd(ofYear) * drawn)
}

// bumps is the weighed sum at a place, both in knots.
func bumps(heights []float64, at, width float64) float64 {
	sum, square := 0.0, 0.0
	first, last := int(at-bumpReach*width), int(at+bumpReach*width)
	for i := max(0, first); i <= min(len(heights)-1, last); i++ {
		off := (float64(i) - at) / width
		weight := math.Exp(-off * off / 2)
		sum += weight * heights[i]
		square += weight * weight
	}
	return sum / math.Sqrt(square)
}

// sd is the season's standard deviation on a day of the year.
func (w *seasons) sd(ofYear float64) float64 {
	all := sdSeason
	if w.sky != nil {
		all *= math.Sqrt(heatlessShare)
	}
	if !w.in.with(FadingSeason) {
		return all
	}
	const middle, swing = (fadesBy + 1) / 2, (fadesBy - 1) / 2
	phase := math.Cos(math.Pi * fade(ofYear))
	return all * (middle + swing*phase) / math.Sqrt(middle*middle+swing*swing/2)
}

// fade runs from 0 where seasons move most to 1 where they move least and on to
// 2, a year later.
func fade(ofYear float64) float64 {
	since := math.Mod(ofYear-fadesFrom+2*yearDays, yearDays)
	if since < fadesTo-fadesFrom {
		return since / (fadesTo - fadesFrom)
	}
	return 1 + (since-(fadesTo-fadesFrom))/(yearDays-(fadesTo-fadesFrom))
}

func yearOf(day float64) int { return garden.Day(math.Floor(day)).Year() }
