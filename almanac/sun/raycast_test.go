package sun

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"haulm/garden"
)

// Casting rays shares nothing with the reckoning but the sun's algorithm: a ray is
// cut with every side and both ends of every prism, at even clock times through
// the day, with the sun where locate has it at each.

// gardensCast are how many gardens are compared, and castEvery how often a ray is
// cast; two ways of counting may differ by one step of the reckoning's.
const (
	gardensCast = 500
	castEvery   = 60 // seconds
)

func TestHoursAgreeWithRaysCast(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	worst, sum, shaded := 0.0, 0.0, 0
	for i := range gardensCast {
		here, day := randomPlace(random), randomDay(random)
		prisms := randomPrisms(random, 1+random.IntN(15), 12)
		spot, height := [2]float64{random.Float64()*10 - 5, random.Float64()*10 - 5}, random.Float64()*2
		site := siteOf(t, here, prisms...)
		is := site.Point(spot, height).Day(day)
		before, after := castDay(site, spot, height, day)
		off := math.Max(math.Abs(is.Before-before), math.Abs(is.After-after))
		if off > 24.0/stepsPerDay {
			t.Errorf("garden %d, %v on %s: %v, rays give %.3f before and %.3f after noon", i, here, day, is, before, after)
		}
		worst, sum = max(worst, off), sum+off
		open := siteOf(t, here).Point(spot, height).Day(day)
		if is.Total < open.Total-0.5 {
			shaded++
		}
	}
	if shaded < gardensCast/2 {
		t.Errorf("only %d of %d gardens have shade to speak of", shaded, gardensCast)
	}
	t.Logf("worst %.3f h, mean %.4f h; %d of %d gardens shaded", worst, sum/gardensCast, shaded, gardensCast)
}

// castDay counts the hours of a solar day before and after noon.
func castDay(site *Site, spot [2]float64, height float64, day garden.Day) (before, after float64) {
	here := site.here
	noon := sky{here.Lat, here.Lon}.transitNear(midnight(day) + secondsPerDay/2 - here.Lon/360*secondsPerDay)
	for seconds := -secondsPerDay/2 + castEvery/2.0; seconds < secondsPerDay/2; seconds += castEvery {
		elevation, azimuth := locate(apparentSun(at(noon+seconds)), here.Lat, here.Lon)
		if elevation <= 0 {
			continue
		}
		share := 1.0
		bearing := azimuth - here.PlanBearingDeg*degree
		towards := [3]float64{math.Cos(elevation) * math.Sin(bearing), math.Cos(elevation) * math.Cos(bearing), math.Sin(elevation)}
		for _, p := range site.prisms {
			if struck(p, [3]float64{spot[0], spot[1], height}, towards) {
				share *= 1 - p.takes(day)
			}
		}
		if seconds < 0 {
			before += share * castEvery / 3600
		} else {
			after += share * castEvery / 3600
		}
	}
	return before, after
}

// struck says whether a ray from a point meets a prism: it starts inside, or it
// cuts a side, the base or the top.
func struck(p Prism, from, towards [3]float64) bool {
	start := [2]float64{from[0], from[1]}
	if from[2] >= p.BaseM && from[2] <= p.TopM && encloses(p.Outline, start) {
		return true
	}
	for _, level := range []float64{p.BaseM, p.TopM} {
		length := (level - from[2]) / towards[2]
		if length > 0 && encloses(p.Outline, [2]float64{from[0] + length*towards[0], from[1] + length*towards[1]}) {
			return true
		}
	}
	for i, a := range p.Outline {
		b := p.Outline[(i+1)%len(p.Outline)]
		// from + length·towards = a + part·(b − a) on the plan, by Cramer's rule.
		sx, sy := b[0]-a[0], b[1]-a[1]
		determinant := sx*towards[1] - sy*towards[0]
		if determinant == 0 {
			continue
		}
		length := (sx*(a[1]-from[1]) - sy*(a[0]-from[0])) / determinant
		part := (towards[0]*(a[1]-from[1]) - towards[1]*(a[0]-from[0])) / determinant
		level := from[2] + length*towards[2]
		if length > 0 && part >= 0 && part <= 1 && level >= p.BaseM && level <= p.TopM {
			return true
		}
	}
	return false
}

// encloses counts the sides that lie to the right of a point.
func encloses(outline [][2]float64, at [2]float64) bool {
	inside := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a[1] > at[1]) != (b[1] > at[1]) && at[0] < a[0]+(at[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			inside = !inside
		}
	}
	return inside
}

// In single directions there is no step of time: the two ways must agree but for
// those that graze an edge.
func TestDirectionsAgreeWithRaysCast(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	differ, rays, hidden := 0, 0, 0
	for range 300 {
		prisms := randomPrisms(random, 1+random.IntN(8), 6)
		at, height := [2]float64{random.Float64()*8 - 4, random.Float64()*8 - 4}, random.Float64()*4-0.5
		site := siteOf(t, Place{Lat: 50}, prisms...)
		point, passing := site.Point(at, height), make([]float64, len(prisms))
		for i, p := range site.prisms {
			passing[i] = 1 - p.Density
		}
		for range 300 {
			r := towards(random.Float64()*360, math.Asin(random.Float64())/degree)
			want := 1.0
			for i, p := range site.prisms {
				if struck(p, [3]float64{at[0], at[1], height}, [3]float64{r.x, r.y, r.up}) {
					want *= passing[i]
				}
			}
			rays++
			if want < 1 {
				hidden++
			}
			if math.Abs(point.passes(r, passing)-want) > 1e-12 {
				differ++
			}
		}
	}
	if differ > 0 {
		t.Errorf("%d of %d directions differ", differ, rays)
	}
	if hidden < rays/10 {
		t.Errorf("only %d of %d directions are hidden", hidden, rays)
	}
}

// A month is the mean of its days.
func TestMonthIsTheMeanOfItsDays(t *testing.T) {
	random := rand.New(rand.NewPCG(15, 16))
	point := siteOf(t, Place{Lat: 47, Lon: 8}, randomPrisms(random, 12, 8)...).Point([2]float64{0, 0}, 0.2)
	var sum mean
	for d := garden.DayOf(2028, 2, 1); d < garden.DayOf(2028, 3, 1); d++ {
		sum.add(point.day(d))
	}
	is := point.Month(2028, time.February)
	if want := sum.hours(); is != want || sum.days != 29 || is.Total == 0 {
		t.Errorf("February has %v, its %g days %v", is, sum.days, want)
	}
	months, growing := point.Year(2028, SeasonAt(47))
	if months[1] != is || growing != point.GrowingSeason(2028, SeasonAt(47)) {
		t.Errorf("the year has %v for February and %v for the season", months[1], growing)
	}
}
