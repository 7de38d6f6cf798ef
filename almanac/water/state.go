package water

import (
	"math"

	"haulm/garden"
)

// A state is the water missing from a zone, litres, and from the ground around
// it, mm: the least and the most that it can be.
type state struct {
	least, most             float64
	groundLeast, groundMost float64
	dryDays                 int
	gap                     bool // a day was not known
}

// A flow is what a day brings and asks.
type flow struct {
	known          bool
	rainL          float64 // on the zone
	leavesL, openL float64 // that leaves and wet open ground would take
}

// A groundFlow is likewise of the ground around it, mm.
type groundFlow struct {
	known            bool
	rainMm, demandMm float64
}

// reaching is the rain of a day that gets into the ground: rain of less than a
// fifth of ET₀ dries off where it falls.
func (p *plan) reaching(a air) float64 { return p.rain * max(0, a.rainMm-ignoredRain*a.et0Mm) }

func (p *plan) onGround(a air) groundFlow {
	return groundFlow{a.known, p.reaching(a), groundKc * a.et0Mm}
}

// flows is a day's rain on the zone and demand of its leaves and open ground.
func (p *plan) flows(day garden.Day, ofYear int, z zone, a air) flow {
	if !a.known {
		return flow{}
	}
	leaves := z.leavesM2 * p.leaf.share(ofYear)
	open := max(0, z.areaM2-leaves) * (1 - mulchHalves*p.mulchCover(day))
	f := flow{known: true, rainL: p.reaching(a) * z.areaM2, leavesL: p.kcb * a.et0Mm * leaves,
		openL: bareSoil * a.et0Mm * open}
	if p.plant.Container {
		f.leavesL, f.openL = potDrying*f.leavesL, potDrying*f.openL
	}
	return f
}

// reach adds new ground to the zone, as dry as the ground is.
func (s *state) reach(addedL, groundTAW float64) {
	s.least += addedL * s.groundLeast / groundTAW
	s.most += addedL * s.groundMost / groundTAW
}

// pass takes a state through one day. Where the weather is not known anything
// between full and empty is possible.
func (s *state) pass(f flow, z zone, p, groundTAW float64) {
	if !f.known {
		s.gap = true
		s.least, s.most = 0, z.capacityL
		return
	}
	most, same := s.most, s.least == s.most && s.groundLeast == s.groundMost
	s.least = dayOf(s.least, s.groundLeast/groundTAW, f, z, p)
	if s.most = s.least; !same {
		s.most = dayOf(most, s.groundMost/groundTAW, f, z, p)
	}
}

// give adds water at the end of a day, after what the day took, since it is asked
// for by what the day left. The ground beside, which roots grow into next, gets as
// many millimetres.
func (s *state) give(litres float64, z zone) {
	s.least, s.most = max(0, s.least-litres), max(0, s.most-litres)
	mm := litres / z.areaM2
	s.groundLeast, s.groundMost = max(0, s.groundLeast-mm), max(0, s.groundMost-mm)
}

// count counts days on which the readily available water was gone, by more than
// the machines differ.
func (s *state) count(raw float64) {
	if (s.least+s.most)/2 > raw*(1+sameShare) {
		s.dryDays++
	} else {
		s.dryDays = 0
	}
}

// passGround takes the ground around a zone through one day.
func (s *state) passGround(f groundFlow, groundTAW float64) {
	if !f.known {
		s.groundLeast, s.groundMost = 0, groundTAW
		return
	}
	s.groundLeast = max(0, dry(s.groundLeast-f.rainMm, f.demandMm, groundTAW, groundRAW*groundTAW))
	s.groundMost = max(0, dry(s.groundMost-f.rainMm, f.demandMm, groundTAW, groundRAW*groundTAW))
}

// dayOf is what a zone misses at the end of a day: the surface dries, then leaves
// take theirs.
func dayOf(missing, groundShare float64, f flow, z zone, p float64) float64 {
	missing += z.exchange * (groundShare*z.capacityL - missing)
	missing -= f.rainL
	if missing < z.surfaceL {
		missing = z.surfaceL - (z.surfaceL-missing)*math.Exp(-f.openL/z.surfaceL)
	}
	return max(0, dry(missing, f.leavesL, z.capacityL, p*z.capacityL))
}

// dry takes a day's demand from a store: all of it while what is readily available
// lasts, then by Eq. 84 as the store is at each moment. The paper takes Ks from
// the start of the day, which is as good for a field and would empty a root ball
// twice over; in the limit of short steps the two are the same.
func dry(missing, demand, taw, raw float64) float64 {
	free := max(0, raw-missing)
	if demand <= free {
		return missing + demand
	}
	left := min(taw-raw, taw-missing) // at the moment when stress begins, or now
	return taw - left*math.Exp(-(demand-free)/(taw-raw))
}
