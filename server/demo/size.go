package demo

import (
	"math"
	"slices"
	"time"

	"haulm/garden"
)

// Heights as they really are. The forms are those on which growth is commonly
// described, a Chapman–Richards curve for what adds wood to wood and a logistic
// for what rises anew each spring; the paces are ours.
const (
	paceStray    = 0.12        // of one plant against its kind, by its logarithm
	shapeOfWood  = 1.3         // the curve's exponent, for shrubs
	usualStart   = 30          // cm, of a new shrub whose height nobody wrote down
	stumpCm      = 30          // left of shrubs that are cut to a stump each winter
	roseCutShare = 0.45        // of its height, left of a rose that is pruned
	wakesBefore  = 75          // days from the first shoot to full height
	wakesWoody   = 120         // the same for shrubs that grow anew
	shootsStop   = time.August // when what is woody, or never flowers, has its year's height
)

// growsAnew are the pruning groups of woody kinds that are cut hard every winter.
var growsAnew = []string{"late-winter-hard", "clematis-3", "rose-repeating"}

func (p plant) woody() bool {
	return slices.Contains([]string{"shrub", "climber", "tree"}, p.kind.Habit)
}

// addsWood says whether it keeps last year's height.
func (p plant) addsWood() bool { return p.woody() && !slices.Contains(growsAnew, p.kind.PruneGroup) }

// eventualCm is where a plant ends, within its kind's range.
func (p plant) eventualCm() float64 {
	part := 0.25 + 0.5*share("size", p.ID)
	if p.Truth.Size != nil {
		part = *p.Truth.Size
	}
	return p.kind.HeightCm[0] + part*(p.kind.HeightCm[1]-p.kind.HeightCm[0])
}

func (p plant) pace() float64 {
	pace := math.Exp(stray(paceStray, "pace", p.ID))
	if p.Truth.Pace > 0 {
		pace *= p.Truth.Pace
	}
	return pace
}

// heightCm is a plant's height on a day.
func (g *grower) heightCm(p plant, day garden.Day) float64 {
	if p.Truth.StandsFrom != nil {
		day = min(day, *p.Truth.StandsFrom)
	}
	if !p.addsWood() {
		return g.risenCm(p, day)
	}
	for _, c := range slices.Backward(p.Truth.Cuts) {
		if c.Day < day {
			return p.woodCm(c.LeftCm, seasonsBetween(c.Day, day))
		}
	}
	if p.season(day.Year()) >= longEstablished {
		return p.eventualCm()
	}
	start := float64(usualStart)
	if p.HeightCm != nil {
		start = *p.HeightCm
	}
	return p.woodCm(start, rooted(seasonsBetween(p.since(), day)))
}

// woodCm grows wood from a height by a number of full seasons.
func (p plant) woodCm(start, seasons float64) float64 {
	end := p.eventualCm()
	if start >= end {
		return start
	}
	k := -math.Log(1-math.Pow(0.95, 1/shapeOfWood)) / p.kind.YearsToSize
	begun := math.Pow(start/end, 1/shapeOfWood)
	return end * math.Pow(1-(1-begun)*math.Exp(-k*p.pace()*seasons), shapeOfWood)
}

// rooted takes off what new plants lose to making roots: two thirds of the first
// season, a third of the second (common practice).
func rooted(seasons float64) float64 {
	return seasons - 0.65*math.Min(1, seasons) - 0.3*math.Max(0, math.Min(1, seasons-1))
}

// seasonsBetween counts growing seasons from one day to another.
func seasonsBetween(from, to garden.Day) float64 { return woken(to) - woken(from) }

// woken counts growing seasons, which run here from mid-March to mid-September.
func woken(day garden.Day) float64 {
	from, to := garden.DayOf(day.Year(), 3, 12), garden.DayOf(day.Year(), 9, 15)
	through := float64(day-from) / float64(to-from)
	return float64(day.Year()) + 0.5 - 0.5*math.Cos(math.Pi*math.Max(0, math.Min(1, through)))
}

// risenCm is the height of what rises anew each spring: from what was left, by a
// logistic that is full when it flowers, or when its shoots stop.
func (g *grower) risenCm(p plant, day garden.Day) float64 {
	year := day.Year()
	full := p.eventualCm() * p.ageShare(year) * p.pace()
	fullOn := float64(garden.DayOf(year, shootsStop, 1))
	if windows := p.windows(); len(windows) > 0 && !p.woody() {
		fullOn = g.flush(p, year, 0, windows[0]).opens
	}
	base := p.leftCm(year)
	if p.HeightCm != nil && p.season(year) == 1 {
		base = *p.HeightCm
	}
	full = max(full, base)
	days := float64(wakesBefore)
	if p.woody() {
		days = wakesWoody
	}
	risen := 1 / (1 + math.Exp(-5.9*((float64(day)-fullOn)/days+0.5)))
	return base + (full-base)*risen
}

// leftCm is what stands when a year's growth begins.
func (p plant) leftCm(year int) float64 {
	switch {
	case p.kind.PruneGroup == "rose-repeating":
		return roseCutShare * p.eventualCm() * p.ageShare(year-1)
	case p.woody():
		return stumpCm
	case p.kind.Emerges == nil:
		return 0.4 * p.eventualCm()
	}
	return 0
}

// ageShare is how much of its eventual height a plant has in a season, by its
// kind's pace; what is woody makes roots first whatever its pace.
func (p plant) ageShare(year int) float64 {
	shares := map[string][]float64{"quick": {1}, "ordinary": {0.75, 1}, "slow": {0.35, 0.5, 0.7, 0.85, 1}}[p.kind.Pace]
	if p.woody() {
		shares = []float64{0.6, 0.85, 1}
	}
	return shares[max(0, min(len(shares), p.season(year))-1)]
}
