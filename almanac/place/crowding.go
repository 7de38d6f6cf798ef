package place

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"

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
	boxes := make([]orb.Bound, len(stands)) // side by side: thousands are held against thousands
	for i, stand := range tallest {
		boxes[i] = stands[stand].box
	}
	near := make([][]int, len(stands))
	for of := range stands {
		near[of] = neighboursOf(of, stands[of].box, tallest, boxes, crowds)
	}
	return near
}

func neighboursOf(of int, box orb.Bound, tallest []int, boxes []orb.Bound, crowds func(by, of int) bool) (near []int) {
	touching := 0
	for i := range boxes {
		by := tallest[i]
		if !touch(&box, &boxes[i]) || by == of {
			continue
		}
		if touching++; touching > mostTouching || len(near) == mostNeighbours {
			break
		}
		if crowds(by, of) {
			near = append(near, by)
		}
	}
	return near
}

func touch(a, b *orb.Bound) bool {
	return a.Min[0] <= b.Max[0] && b.Min[0] <= a.Max[0] && a.Min[1] <= b.Max[1] && b.Min[1] <= a.Max[1]
}

// Crowding tells for each stand which of its neighbours take how much of its own
// room, the greatest share first. Where several lie over one spot the first of them
// has it. After mostTests of a corner against a point nothing is told of the rest.
func Crowding(rooms []Room, near [][]int) [][]Taken {
	taken := make([][]Taken, len(rooms))
	tests := 0
	for of := range rooms {
		if tests += strewn * corners(rooms, near[of]); tests > mostTests {
			break
		}
		if len(near[of]) > 0 {
			taken[of] = shares(rooms, near[of], of)
		}
	}
	return taken
}

// corners is how many corners rooms have in all, a round one counting as one.
func corners(rooms []Room, of []int) int {
	sum := 0
	for _, room := range of {
		sum += max(1, len(rooms[room].ring))
	}
	return sum
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
