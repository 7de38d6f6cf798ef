package assess

import (
	"haulm/almanac/sun"
	"haulm/garden"
)

// How far the sun at a planting may be from what its kind wants.
const (
	// shadeHours less than its kind's least is more than the crowns of a plan drawn
	// by eye are wrong by.
	shadeHours = 1
	// scorchHours more than its kind's most: what likes shade stands some sun, early
	// and late in the day above all.
	scorchHours = 2
	// wholeDayHours and more is as good as the whole day, since the first and the
	// last hours of a summer sun burn nothing: a kind that stands as much is not
	// scorched by the sun alone.
	wholeDayHours = 9
)

// sunFindings tells whether a planting has less sun than its kind wants, or more
// than it stands; the latter not on a plan on which nothing casts shade, since that
// is a plan on which nobody has drawn it yet. The sun is where it is: the finding is told quietly, until the
// rest of the findings, ails, say that the planting does badly.
func (e *Engine) sunFindings(r *reckoned, p *plot, ails []Finding) []Finding {
	light := r.light
	if light == nil || p == nil || p.nth >= mostSunned || p.kind.SunHours[1] <= 0 || p.kind.Habit == "climber" || sheltered(p.planting.Cover) {
		return nil
	}
	hours := light.at(p, r.on)
	found := Finding{Planting: p.planting.ID, Year: r.on.Year(), Evidence: sunEvidence(hours, p.kind), WorthALook: doesBadly(ails)}
	switch {
	case hours.Total < p.kind.SunHours[0]-shadeHours:
		found.Verdict = "shaded"
		found.Check = []string{"what-shades", "thin-above", "make-room"}
	case len(light.prisms) > 0 && p.kind.SunHours[1] < wholeDayHours && hours.Total > p.kind.SunHours[1]+scorchHours:
		found.Verdict = "scorched"
		found.Check = []string{"water", "leaf-edges", "make-room"}
	default:
		return nil
	}
	return []Finding{found}
}

func sunEvidence(hours sun.Hours, kind garden.Kind) []Evidence {
	return []Evidence{
		{Say: "sun-hours", Hours: &hours.Total, LoHours: &kind.SunHours[0], HiHours: &kind.SunHours[1]},
		{Say: "sun-halves", Before: &hours.Before, After: &hours.After},
	}
}

// doesBadly tells whether findings on a planting itself say that it is late, fails
// or is in trouble, so that its place may be why.
func doesBadly(ails []Finding) bool {
	for _, f := range ails {
		switch f.Verdict {
		case "late", "later-than-the-book", "no-flower-seen", "small-for-age", "stalled", "troubled":
			if f.WorthALook {
				return true
			}
		}
	}
	return false
}
