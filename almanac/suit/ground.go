package suit

import (
	"math"

	"haulm/almanac/stats"
	"haulm/garden"
)

// moisture compares that of the ground with what a kind wants, in steps from dry
// through drained and moist to wet.
func (s Spot) moisture(c candidate) (Factor, bool) {
	wants, said := moistureStep(c.kind.Moisture)
	switch {
	case !s.moistureKnown():
		return unknownHere(Moisture), false
	case !said:
		return unknownOf(Moisture), false
	}
	here := s.moistureHere()
	say, score := Fits, 1.0
	switch off := stats.Round7(here - wants); {
	case off > moistEnough:
		say, score = TooWet, fading(off-moistEnough, halfTooWet)
	case off < -moistEnough:
		say, score = TooDry, fading(-off-moistEnough, halfTooDry)
	}
	out := s.drowns(c.kind.Moisture) || c.kind.Moisture == "wet" && here < dryForWet
	return scored(Moisture, say, score, here, &garden.Range{wants, wants}), out
}

// drowns says whether the ground is wet and the kind one of dry or drained ground.
func (s Spot) drowns(moisture string) bool {
	wet := s.Moisture == "wet" || s.Moisture == "" && s.Drainage == "wet" && !s.Container
	return wet && (moisture == "dry" || moisture == "drained")
}

func (s Spot) moistureKnown() bool {
	return s.Moisture != "" || s.Soil != "" || s.Drainage != "" || s.Container
}

// moistureHere is as said, or what soil, drainage and irrigation make.
func (s Spot) moistureHere() float64 {
	if step, said := moistureStep(s.Moisture); said {
		return step
	}
	step := textureMoisture(s.Soil)
	switch {
	case s.Container:
		step = potMoisture
	case s.Drainage == "wet":
		step, _ = moistureStep("wet")
	case s.Drainage == "quick":
		step += quickDrainage
	case s.Drainage == "slow":
		step += slowDrainage
	}
	if s.Irrigated {
		step += irrigation
	}
	return math.Max(0, math.Min(3, step))
}

func moistureStep(moisture string) (step float64, said bool) {
	switch moisture {
	case "dry":
		return 0, true
	case "drained":
		return 1, true
	case "moist":
		return 2, true
	case "wet":
		return 3, true
	}
	return 0, false
}

// textureMoisture is what a soil of a texture is where drainage is good: sand is
// dry and clay moist (common practice), and between them it goes by the water that
// a texture holds. One that is not said is taken for loam.
func textureMoisture(soil string) float64 {
	switch soil {
	case "sand":
		return 0
	case "loamy sand":
		return 0.4
	case "sandy loam":
		return 0.8
	case "sandy clay loam":
		return 1.2
	case "sandy clay":
		return 1.5
	case "silt loam", "silt":
		return 1.6
	case "clay loam":
		return 1.7
	case "silty clay loam":
		return 1.8
	case "silty clay", "clay":
		return 2
	default:
		return 1.3
	}
}

// acidity compares the soil's pH with the kind's range; the compost of a pot is
// chosen for what is planted in it.
func (s Spot) acidity(c candidate) (Factor, bool) {
	wants := c.kind.PH
	switch {
	case s.Container:
		return Factor{Factor: PH, Say: ByTheCompost}, false
	case s.PH == nil:
		return unknownHere(PH), false
	case wants[1] <= 0:
		return unknownOf(PH), false
	}
	under, over := stats.Round7(wants[0]-*s.PH), stats.Round7(*s.PH-wants[1])
	say := Fits
	switch {
	case under > 0:
		say = TooAcid
	case over > 0:
		say = TooLimy
	}
	return scored(PH, say, fading(math.Max(under, over), halfPH), *s.PH, &wants), under > acidPH || over > limePH
}
