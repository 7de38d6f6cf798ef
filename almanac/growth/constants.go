package growth

import (
	"time"

	"haulm/garden"
)

// Every number below is a choice of ours with its reason; none was measured on a
// garden. "Common practice" is what gardeners and the trade generally hold.
const (
	// rateSD is the standard deviation of the logarithm of a planting's own rate:
	// two plants in three of a kind grow at 0.7 to 1.4 of the usual pace, which is
	// what soil, light and stock commonly make of one kind.
	rateSD = 0.35
	// seasonSD is how far one season's growth of a woody kind strays, by its
	// logarithm, from the planting's own rate: a dry summer or a wet one.
	seasonSD = 0.2
	// pastSizeSD is how well the best height of an earlier season tells what size a
	// kind that rises each year anew can have, by its logarithm.
	pastSizeSD = 0.12
	// leastRange is the least width of a kind's range of heights, by the logarithm:
	// soil and light alone make a seventh.
	leastRange = 0.15
	// leastSpreadSD keeps a kind's range of spreads from being taken too literally
	// when its ends are close.
	leastSpreadSD = 0.08
	// startSD is how far an unrecorded height at planting is from the usual one of
	// its form, by its logarithm: half to twice, nearly always.
	startSD = 0.4
	// cutSD is the same for what an unmeasured cut left.
	cutSD = 0.3
	// timingSD days is how far a plant's season is from the catalogue's windows
	// moved to its garden: a spring is commonly a week early or late.
	timingSD = 8

	// measuringCm and measuringShare are the error of a height by tape or marked
	// cane: a centimetre at the foot, and three in a hundred for which shoot is
	// the top and whether it leans.
	measuringCm    = 1
	measuringShare = 0.03
	// leastCm is the lowest height that is told apart from the ground.
	leastCm = 1
	// spreadMeasuring is the error of a spread, by its logarithm: a clump has no edge.
	spreadMeasuring = 0.12
	// stemsSD is how far the ratio of flower stems between two good years strays,
	// by its logarithm: from two thirds to one and a half.
	stemsSD = 0.4
	// fewestStems in the season before make a ratio worth taking.
	fewestStems = 4
	// numberSD is the error of a count of bulbs, by its logarithm: shoots hide.
	numberSD = 0.15
	// farOff measuring errors from the middle of its fellows is where a measure
	// starts to count for less (Huber 1964, Annals of Mathematical Statistics
	// 35:73): a slip of the pen. It takes fewestToDoubt to tell which is off.
	farOff, fewestToDoubt = 4, 4
)

// Woody kinds.
const (
	// shapeTree is the m of the Chapman–Richards curve for trees: the middle of
	// the 14 seed sources of loblolly pine in R's Loblolly (Kung 1986) is 1.84.
	shapeTree = 1.84
	// shapeShrub is lower: shrubs and climbers send up their longest shoots early.
	shapeShrub = 1.3
	// sizeAtYears is the share of eventual height that a kind has at its yearsToSize.
	sizeAtYears = 0.95
	// firstYear and secondYear are the pace of new plantings: common practice has
	// it that roots come first, then shoots, then flowers. A plant sown in its place
	// was never moved and starts at full pace.
	firstYear, secondYear = 0.35, 0.7
	// defaultYears is for a woody kind without yearsToSize.
	defaultYears = 8
	// cutLeft is the share of its height that a pruning of unrecorded severity
	// leaves: common practice takes up to a third.
	cutLeft = 0.7
	// atSizeWidth rounds the corner where a plant is as high as it will be: by the
	// logarithm, less than a height is measured to.
	atSizeWidth = 0.02
	// dropShare of the height before, or less, is a cut or dieback that nobody
	// recorded: growth starts again from there and nobody is told it is small.
	dropShare = 0.7
)

// Kinds that rise anew each season.
const (
	// fullShare is the share of its height that a plant has on the day it is
	// called full; the logistic is symmetric, so the rise starts at the rest.
	fullShare = 0.95
	// startWidth and stopWidth are how gradually a rise takes up its own pace and
	// stops at full, as shares of its time: some days in one of two or three months.
	startWidth, stopWidth = 0.05, 0.05
	// firstOrdinary and firstSlow are the share of eventual height in the first
	// season of ordinary and slow kinds; it rises evenly to the whole.
	firstOrdinary, firstSlow = 0.7, 0.5
	// ordinarySeasons, and fewestSlow to mostSlow, are the seasons until then.
	ordinarySeasons      = 2
	fewestSlow, mostSlow = 3, 5
	// evergreenBase is the share of its height that an evergreen perennial keeps
	// through winter: the leaves without the flower stems.
	evergreenBase = 0.5
	// biennialFirst is the share of its height of a biennial's rosette.
	biennialFirst = 0.2
	// shortestRise, longestRise and usualRise are in days. A catalogue whose
	// flowers come sooner or later after the shoots than this flowers apart from
	// its growth (crocus, colchicum), and the usual rise is taken.
	shortestRise, longestRise, usualRise = 20, 230, 75
	// leastFirstRise days must be left of the first season for growth to be
	// expected in it.
	leastFirstRise = 30
	// leavesAfterFlower days are what bulbs keep their leaves after flower: the six
	// weeks of common practice.
	leavesAfterFlower = 42
	// standsAfterFlower days is how long other stems stand as they flowered.
	standsAfterFlower = 14
	// regrowth after a cut in growth, such as a May cut to delay flower, takes at
	// least leastRegrowth days and reaches this share of the height.
	regrowthShare, leastRegrowth = 0.8, 35
	// hardCutCm is what a hard cut in late winter leaves where it was not
	// recorded: common practice is two or three buds, about knee height.
	hardCutCm = 30
	// roseCutShare of its height is what pruning leaves of a repeating bush rose.
	roseCutShare = 0.5
)

// The dates of the reference site between which woody kinds add height and
// others rise, where a kind's own are not known. They are functions because a
// date is not a constant.
func growthStarts() garden.MonthDay { return garden.MonthDay{Month: time.March, Day: 20} }     // buds break
func growthEnds() garden.MonthDay   { return garden.MonthDay{Month: time.September, Day: 15} } // wood ripens
func shootsStart() garden.MonthDay  { return garden.MonthDay{Month: time.March, Day: 15} }     // evergreen perennials, ferns
func cutsStand() garden.MonthDay    { return garden.MonthDay{Month: time.August, Day: 1} }     // kinds cut in winter have their height
func winterCut() garden.MonthDay    { return garden.MonthDay{Month: time.March, Day: 1} }      // common practice: before buds break
func topsDie() garden.MonthDay      { return garden.MonthDay{Month: time.October, Day: 31} }   // first frosts

// What is usual of a new plant's height, by form, in cm (common practice in the
// trade); a pot's goes with the root of its litres, 35 cm at two litres.
const (
	seedCm, plugCm, cuttingCm, divisionCm, bulbCm = 1, 8, 12, 12, 1
	bareRootCm, otherCm                           = 50, 35
	potCmPerRootLitre                             = 25
	// nurseryShare of the eventual height is the most that a nursery sends out.
	nurseryShare = 0.5
)

// Findings.
const (
	// smallRate and smallSure: small for its age is a rate under 0.6, seven in ten
	// sure. Six tenths of the usual growth is what a gardener sees from the path. The
	// prior is that of plants that do well, so what is said of the others is less
	// sure than it ought to be. On simulated shrubs a third as fast as their kind
	// (seeds 101 to 160), these and rateSD name 81, 85 and 90 in a hundred within the
	// first, second and fourth season that is looked at, with one false alarm in a
	// thousand; four in five sure, and a rateSD of 0.3, name 71, 74 and 80 with none.
	smallRate, smallSure = 0.6, 0.7
	// stalledMeasures, stalledErrors, stalledSlope: three measures in a season, an
	// expected growth of six times the measuring error, and under a quarter of it
	// seen. Fewer or less could be the tape alone.
	stalledMeasures, stalledErrors, stalledSlope = 3, 6, 0.25
	// halfSlope is the growth, against the expected, that the probability of a
	// stall is reckoned below.
	halfSlope = 0.5
	// reachedShare of eventual height counts as full size.
	reachedShare, reachedSure = 0.9, 0.8
	// outgrownBy times the top of the kind's range is more than a good year.
	outgrownBy, outgrownSure = 1.1, 0.8
	// freshDays is how old the last measure may be for it to say how things are.
	freshDays = 400
)

// Forecasts and fits.
const (
	// farFromCorner widths from a rounded corner a double does not tell it from a
	// sharp one.
	farFromCorner = 40
	// clockSlack keeps rounding noise from moving a date to the next season.
	clockSlack = 1e-6
	// farSight seasons is the furthest that a forecast looks: a gardener's life.
	farSight = 100
	// leastDetermined is the multiple of itself that the standard error of a size or
	// a pace must stay under for a fitted curve to mean anything. At twice the value
	// an interval of two standard errors runs from far below nothing to five times it.
	leastDetermined = 2
)

// Bands.
const (
	bandStep   = 7       // days, which a chart of years cannot show finer
	bandBack   = 4 * 365 // days shown before today where nothing else is asked
	bandAhead  = 365
	longestDay = 40 * 366 // days of band that are reckoned at most

	// tenth and fortieth are the standard deviations of a normal to its 10th and
	// 90th, and to its 2.5th and 97.5th percentile.
	tenth, fortieth = 1.2815515655446004, 1.959963984540054
)
