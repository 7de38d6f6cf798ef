package verbs

import "haulm/almanac/materials"

// materialVerbs answer how much of something is wanted.
func materialVerbs() []Verb {
	return []Verb{
		verb("backfill", "what goes back into a planting hole",
			`{"holeWidthCm":60,"holeDepthCm":40,"ballL":10,"amendments":[{"material":"compost","share":0.2}]}`, `
			holeWidthCm            cm, 1 to 1000
			holeDepthCm            cm, 1 to 1000
			shape                  round or square; where it is not said, round
			ballL                  litres of the root ball, 0 to 5000 and less than the hole
			holes                  how many, 1 to 100000; null is one
			amendments[].material  as for mulch
			amendments[].share     of what goes back, 0 to 1, together at most 1`, materials.Backfill),
		verb("length", "what feet and inches are in centimetres",
			`{"feet":5,"inches":6,"nearestCm":5}`, `
			feet       0 to 100000
			inches     0 to 100000
			nearestCm  what to round to, cm, 0.1 to 100`, materials.Length),
		verb("mulch", "how much mulch to order",
			`{"areaM2":12,"depthCm":5,"bagL":50,"material":"bark"}`, `
			areaM2    m², 0.001 to 1000000, or
			outline   [[x, y], …] metres on the plan
			minus[]   outlines of what plantings cover
			depthCm   cm, 0.1 to 100
			bagL      litres, 1 to 2000
			material  for the weight: bark, wood-chip, compost, manure, mushroom-compost, leaf-mould, potting-mix, straw, topsoil, sand, grit or gravel`, materials.Mulch),
		verb("spacing", "how many plants fill an area",
			`{"areaM2":12,"spacingCm":35,"pattern":"triangular"}`, `
			areaM2     m², 0.001 to 1000000, or
			outline    [[x, y], …] metres on the plan
			spacingCm  cm from plant to plant, 1 to 10000
			pattern    square or triangular`, materials.Spacing),
	}
}
