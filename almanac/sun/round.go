package sun

import "math"

// Results are rounded where they leave the package: hours to 0.01, arc to 0.0001°.
func roundHours(hours float64) float64 { return math.Round(hours*100)/100 + 0 }

func roundArc(degrees float64) float64 { return math.Round(degrees*10_000)/10_000 + 0 }
