package place

import (
	"cmp"
	"slices"

	"haulm/almanac/stats"
)

// A Stand is one planting as it takes up room.
type Stand struct {
	Room
	TallCM float64
}

// A Taken says what share of a planting's room, or of its show, another takes:
// By is the other's place in the list.
type Taken struct {
	By    int
	Share float64 // 0 to 1
}

// Neighbours lists for each stand which others touch its room and can take some of
// it, the tallest first. crowds says whether one can take room from another at all;
// it is asked about the mostTouching tallest that touch.
func Neighbours(stands []Stand, crowds func(by, of int) bool) [][]int {
	tallest := tallestFirst(stands)
	near := make([][]int, len(stands))
	for of := range stands {
		touching := 0
		for _, by := range tallest {
			if by == of || !stands[by].box.Intersects(stands[of].box) {
				continue
			}
			if touching++; touching > mostTouching || len(near[of]) == mostNeighbours {
				break
			}
			if crowds(by, of) {
				near[of] = append(near[of], by)
			}
		}
	}
	return near
}

// Crowding tells for each stand which of its neighbours take how much of its own
// room, the greatest share first. Where several lie over one spot the first of them
// has it.
func Crowding(rooms []Room, near [][]int) [][]Taken {
	taken := make([][]Taken, len(rooms))
	for of := range rooms {
		if len(near[of]) > 0 {
			taken[of] = shares(rooms, near[of], of)
		}
	}
	return taken
}

func tallestFirst(stands []Stand) []int {
	order := make([]int, len(stands))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(stands[b].TallCM, stands[a].TallCM) })
	return order
}

func shares(rooms []Room, near []int, of int) []Taken {
	points := rooms[of].points()
	hits := make([]int, len(near))
	for _, p := range points {
		if at := slices.IndexFunc(near, func(by int) bool { return rooms[by].holds(p) }); at >= 0 {
			hits[at]++
		}
	}
	return takenOf(near, hits, len(points))
}

// takenOf turns hits on points or rays into shares.
func takenOf(by []int, hits []int, all int) []Taken {
	var list []Taken
	for i, n := range hits {
		if n > 0 {
			list = append(list, Taken{by[i], stats.RoundProbability(float64(n) / float64(all))})
		}
	}
	slices.SortStableFunc(list, func(a, b Taken) int { return cmp.Compare(b.Share, a.Share) })
	return list
}

// Total is the share that all of them take together.
func Total(list []Taken) float64 {
	sum := 0.0
	for _, one := range list {
		sum += one.Share
	}
	return stats.RoundProbability(min(1, sum))
}
