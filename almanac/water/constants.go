package water

import (
	"time"

	"haulm/garden"
)

// Bounds of inputs: beyond what any garden has.
const (
	// coldestC and hottestC hold every air temperature measured at a station
	// (WMO: −89.2 °C at Vostok in 1983, 56.7 °C at Furnace Creek in 1913), and
	// wettestMm and strongestMs every day's rain and wind (1825 mm, Foc-Foc 1966;
	// 113 m/s, Barrow Island 1996).
	coldestC, hottestC     = -90, 60
	wettestMm, strongestMs = 2000, 115
	// lowestM and highestM hold every town: the shore of the Dead Sea, the Andes.
	lowestM, highestM = -430, 6000
	// mostSolarMJ a day is above what reaches the top of the air anywhere (48).
	mostSolarMJ = 50
	// mostVapourKPa is above what air of hottestC can hold.
	mostVapourKPa = 25
	// longestSpan days, two centuries, keep one mistyped year from filling memory.
	longestSpan = 73050
	// deepestRootM, highestKc: no plant of FAO-56 comes near.
	deepestRootM, highestKc = 10, 3
	// mostGivenL is a tanker; mostPlants a meadow; largestM2 a field; the deepest
	// mulch a heap.
	mostGivenL, mostPlants, largestM2, deepestMulchCm = 1e6, 100_000, 1e6, 100
	biggestPotL, deepestCm, tallestCm                 = 2000, 200, 5000
	furthestDays                                      = 200 // of lateness
)

// Weather.
const (
	// longestGap is how many days running are filled from their neighbours, and how
	// old the last day may be: as for degree-days, weather holds about that long.
	longestGap = 3
	// usualAltitudeM is the altitude where none is given. It moves Penman–Monteith
	// by half a hundredth per hundred metres.
	usualAltitudeM = 100
	// usualWindMs is what FAO-56 takes where wind is not known (chapter 3: 2 m/s,
	// the mean of over two thousand stations).
	usualWindMs = 2
	// stationM is the height at which weather services measure wind.
	stationM = 10
	// ignoredRain of a day's ET₀ dries off the leaves and the surface: FAO-56 at
	// Eq. 85 says that rain of less than a fifth of ET₀ can be left out.
	ignoredRain = 0.2
)

// The plant.
const (
	// potMixShare is the water that a potting mix gives up between draining and
	// wilting, as a share of its volume. De Boodt & Verdonck (1972, Acta
	// Horticulturae 26:37; from memory) ask for 20 to 30 % easily available and 4
	// to 7 % more; mixes of bark and wood fibre are at the low end.
	potMixShare = 0.25
	// leastStoreL is the ground that even a seed or plug draws on within days of
	// being firmed and watered in.
	leastStoreL = 1.0
	// usualPotL is the size most plants are sold in; usualContainerL is a pot of
	// about 28 cm, the least that common practice keeps a shrub or mixed planting in.
	usualPotL, usualContainerL = 3, 15
	// leastPotL is a cell of a plug tray.
	leastPotL = 0.05
	// divisionL is a spade's lump, bareRootL the roots of a bare-root shrub spread
	// in their hole.
	divisionL, bareRootL = 2, 6
	// lagDays is how long roots stay in the ball: common practice is that new white
	// roots leave it in three to four weeks.
	lagDays = 21
	// woodyRootCm and softRootCm a day in the growing season, afterwards. Half a
	// metre a year is what roots of young trees run in temperate ground (common
	// practice in arboriculture: 18 inches, about 45 cm); herbaceous roots about twice.
	woodyRootCm, softRootCm = 0.22, 0.45
	// downShare of what roots grow outward they grow down, and rootsBeyondM past the
	// leaves they count as the plant's: farther ones are there, but nobody waters
	// them (common practice: water to the drip line and a little more).
	downShare, rootsBeyondM = 0.5, 0.3
	// exchangeShare is how much of the difference in dryness between ball and ground
	// evens out in a day, less as the zone outgrows the ball: little, since a potting
	// mix and soil touch badly (common practice: the ball dries in wet ground).
	exchangeShare = 0.02
	// groundRootM is the depth of the ground whose water roots meet as they grow,
	// groundKc what a half-planted bed takes of ET₀, between bare ground and the full
	// cover of Table 12, and groundRAW its p, that of most rows of Table 22.
	groundRootM, groundKc, groundRAW = 0.5, 0.6, 0.5

	// soldCanopy is how much wider than its pot a plant's leaves are as sold: a
	// little, since nurseries space pots so that they touch.
	soldCanopy = 1.3
	// potCanopy is the most that leaves can outgrow a pot they live in, in its
	// radius: roots bound to a pot do not feed more.
	potCanopy = 1.8
	// potDrying is what a pot takes more than the ground: sun on its sides, and air
	// all round (common practice: pots dry half as fast again).
	potDrying = 1.5
	// spreadRate makes it 95 % of its spread that a plant has at yearsToSize: 1 − e⁻³.
	spreadRate = 3
	// usualYears and usualSpreadM stand for a kind that lacks them; an annual fills
	// its room in annualYears.
	usualYears, usualSpreadM, annualYears = 3, 0.6, 0.25
	// firstYear and secondYear are the pace of newly planted woody kinds (common
	// practice: roots, then shoots, then flowers).
	firstYear, secondYear = 0.35, 0.7

	// bareSoil is what wet open ground takes of ET₀: Kc ini of ground that is watered
	// often, Table 12. It falls to nothing as the top surfaceM dry out (Eq. 73; the
	// paper has 0.10 to 0.15 m).
	bareSoil, surfaceM = 0.7, 0.10
	// mulchHalves: FAO-56 chapter 11 takes 5 % off evaporation for each 10 % of
	// ground covered by organic mulch, so a full cover halves it.
	mulchHalves = 0.5
	// fullMulchCm covers the ground wholly and is the usual depth (common
	// practice: 5 cm); a mulch rots to nothing in mulchLastsDays.
	fullMulchCm, mulchLastsDays = 5, 730
	// dryLeaf is the most that kinds of dry places, with grey, small or leathery
	// leaves, take: Kcb of olives, Table 17.
	dryLeaf = 0.65

	// openDays is how long leaves take to come out fully, bud to dark green, and
	// fallDays to go (common practice: six weeks, and four).
	openDays, fallDays = 45, 30
	// halfEvergreen is what a semi-evergreen keeps through an ordinary winter.
	halfEvergreen = 0.5
	// bulbDays is how long spring bulbs keep leaves from emergence: to flower, and
	// six weeks past it (common practice). winterGreenDays is autumn to late spring.
	bulbDays, winterGreenDays = 110, 240
	// leafless is the share of leaf under which a plant is dormant: the last leaf.
	leafless = 0.05
)

// Asking.
const (
	// woodySummers and softSummers are how long a planting in the ground needs a
	// can: common practice is two summers for shrubs and trees, one for perennials.
	woodySummers, softSummers = 2, 1
	// sameShare is more than two machines differ by in a day's sums.
	sameShare = 1e-9
	// tellsApart of all that a root zone holds is how far apart the wettest and the
	// driest state may be for one answer to be given: less than the rest is off by.
	tellsApart = 0.1
	// backDays is how far back a balance starts at most: a winter fills the ground.
	backDays = 400
	// warmDayMm is the ET₀ of a warm day, against which a store is called small.
	warmDayMm = 6
)

// springBulbsBefore parts bulbs that are up by spring and gone by summer from
// those that rise with the perennials and keep their leaves to autumn.
func springBulbsBefore() garden.MonthDay { return garden.MonthDay{Month: time.April, Day: 1} }

// The dates of the northern hemisphere between which nothing is asked for: plants
// are dormant or the air takes little. They are functions because a date is no
// constant.
func winterStarts() garden.MonthDay { return garden.MonthDay{Month: time.November, Day: 1} }
func winterEnds() garden.MonthDay   { return garden.MonthDay{Month: time.March, Day: 1} }

// midsummer parts plantings that have this summer as their first from those that
// have the next.
func midsummer() garden.MonthDay { return garden.MonthDay{Month: time.July, Day: 1} }

// leavesOpen and leavesFall are taken for kinds without dates of their own.
func leavesOpen() garden.MonthDay { return garden.MonthDay{Month: time.April, Day: 1} }
func leavesFall() garden.MonthDay { return garden.MonthDay{Month: time.October, Day: 15} }
