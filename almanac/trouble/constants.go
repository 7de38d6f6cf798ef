package trouble

import "haulm/garden"

// Every number below is a choice of ours with its reason. "Common practice" is
// what gardeners and the trade generally hold.
const (
	// signStands days is how long a sign is held to stand when nobody says that it
	// is gone: mildew, greenfly and their like run their course in six weeks.
	signStands = 42
	// seenAgain looks with the same sign make a passing one worth a walk.
	seenAgain = 2
	// dawnEnds is the minute of the day, nine o'clock, before which a plant that
	// wilts has not got over it by night; in the afternoon many wilt and recover
	// (common practice).
	dawnEnds = 9 * 60
	// goodVigour at a later look says that whatever was seen is over.
	goodVigour = 4
	// poorVigour is the grade at and below which a plant does poorly, and
	// failingVigour the one at which it may be lost.
	poorVigour, failingVigour = 2, 1

	// vigourYears is how far back vigour is followed: what fell longer ago is how
	// the plant is.
	vigourYears = 2
	// fewestGrades, over leastStretch days, make a trend: three can be three moods.
	fewestGrades, leastStretch = 4, 60
	// mostGrades keeps the pairs of looks few: one a day for half a year.
	mostGrades = 180
	// leastFall grades between the ends of the line is more than the grade to which
	// two people differ.
	leastFall = 1.5

	// fewestStems in the season before make a ratio worth taking, as in growth.
	fewestStems = 4
	// fullFlowerFrom and fullFlowerTo are the BBCH stages of half to fading flower
	// (Meier 2001), in which a count is the year's.
	fullFlowerFrom, fullFlowerTo = 63, 67
	// halved is what "half of last year's" means, and leastPlants the fewest of
	// which losing half is not one plant's chance.
	halved      = 0.5
	leastPlants = 4
	// blindYears running without flower are no chance any more (common practice).
	blindYears = 2
)

// yearDays is a year, to the day near enough for how far back looks are taken.
const yearDays garden.Day = 365
