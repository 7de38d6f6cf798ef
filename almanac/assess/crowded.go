package assess

import (
	"haulm/almanac/place"
	"haulm/almanac/stats"
	"haulm/garden"
)

// A planting is crowded when neighbours take half of its room.
const (
	// crowdedShare of its room taken is more than the touching and mingling that a
	// border is planted for: at the usual two thirds of a spread apart (common
	// practice) one equal neighbour takes a fifth.
	crowdedShare = 0.5
	// underHalf its height a neighbour grows beneath a plant and not beside it: it
	// covers the ground there and takes no light (common practice).
	underHalf = 0.5
	// smothersAt times its height a neighbour stands over a plant.
	smothersAt = 1.5
	// mostNamed neighbours are named, those that take most.
	mostNamed = 3
)

// crowdedFindings tells of each plot how neighbours take its room, now or once
// all are grown; by planting.
func (e *Engine) crowdedFindings(r *reckoned) map[string]Finding {
	plots := r.plots
	stands := make([]place.Stand, len(plots))
	rooms, grown := make([]place.Room, len(plots)), make([]place.Room, len(plots))
	for i := range plots {
		stands[i] = place.Stand{Room: plots[i].full, TallCM: plots[i].tallCM}
		rooms[i], grown[i] = plots[i].now, plots[i].full
	}
	near := place.Neighbours(stands, func(by, of int) bool { return crowds(&plots[by], &plots[of]) })
	now, full := place.Crowding(rooms, near), place.Crowding(grown, near)
	found := map[string]Finding{}
	for i := range plots {
		p := &plots[i]
		switch {
		case place.Total(now[i]) >= crowdedShare:
			found[p.planting.ID] = crowdedFinding(r, plots, i, now[i], true)
		case place.Total(full[i]) >= crowdedShare:
			found[p.planting.ID] = crowdedFinding(r, plots, i, full[i], false)
		}
	}
	return found
}

// crowds tells whether one plot can take room from another that both want. Bulbs
// rise through others and are gone before them, climbers go up, a drift of one
// kind is meant to close, what sows itself finds its own place, and what thrives
// in shade is at home under what is twice its height (common practice).
func crowds(by, of *plot) bool {
	switch {
	case by.apart || of.apart || by.planting.Kind == of.planting.Kind:
		return false
	case by.tallCM <= 0 || of.tallCM <= 0:
		return false // nobody has said how tall its kind grows
	case of.kind.SpreadHabit == "self-sowing" || of.over:
		return false
	case by.kind.SpreadHabit != "self-sowing" && by.over:
		return false
	case of.kind.SunHours[0] < partSunHours && of.tallCM < underHalf*by.tallCM:
		return false
	}
	return by.tallCM >= underHalf*of.tallCM
}

// apart tells whether a kind neither takes nor wants room among others.
func apart(kind garden.Kind) bool { return kind.Habit == "bulb" || kind.Habit == "climber" }

// crowdedFinding words what neighbours take. It is worth a look when they take it
// now; what they will take when grown is told where the planting is looked up.
func crowdedFinding(r *reckoned, plots []plot, i int, taken []place.Taken, now bool) Finding {
	total := place.Total(taken)
	room := Evidence{Say: "room-taken", Share: &total}
	if !now {
		room = Evidence{Say: "room-will-be-taken", Share: &total, Year: grownAll(plots, i, taken)}
	}
	evidence := []Evidence{room}
	for _, one := range taken[:min(mostNamed, len(taken))] {
		evidence = append(evidence, takenBy(&plots[i], &plots[one.By], one.Share))
	}
	return Finding{Planting: plots[i].planting.ID, Year: r.on.Year(), Verdict: "crowded", WorthALook: now,
		Evidence: evidence, Check: []string{"crowded", "light", "make-room"}}
}

func takenBy(of, by *plot, share float64) Evidence {
	tall, own := stats.RoundCM(by.tallCM), stats.RoundCM(of.tallCM)
	one := Evidence{Say: "crowded-by", Other: by.planting.ID, What: by.kind.Name, Share: &share, CM: &tall, LikelyCM: &own}
	if by.tallCM >= smothersAt*of.tallCM {
		one.Say = "smothered-by"
	}
	return one
}

// grownAll is the year in which a plot and those that take its room are grown;
// nil where they are already.
func grownAll(plots []plot, i int, taken []place.Taken) *int {
	year := plots[i].grownYear()
	for _, one := range taken {
		year = max(year, plots[one.By].grownYear())
	}
	if year == 0 {
		return nil
	}
	return &year
}
