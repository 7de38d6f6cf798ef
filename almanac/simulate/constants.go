package simulate

// What gardens are made of: the base case on which the reckoning's aims were set,
// and how far each break goes. Each is a choice with a reason.
const (
	// The standard deviations of the base case, in days: the season on any day of
	// the year, a planting's habit, chance, and the catalogue's error by kind.
	sdSeason, sdHabit, sdChance, sdCatalogue = 7.0, 4.0, 4.5, 8.0
	// A season is felt as weeks of weather and as a year that runs early or late
	// throughout, in equal shares of its variance: bumps of these widths (a
	// correlation of a half at 1.7 times the width) every knotDays.
	yearLongShare             = 0.5
	weeksWidth, yearLongWidth = 27.0, 150.0
	knotDays                  = 15.0
	// bumpReach is where a bump is below a thousandth of a day.
	bumpReach = 4.5
	// sdLogLength is the spread of the log of how long a flush lasts: weather
	// stretches and shortens it by a third.
	sdLogLength = 0.3

	// plantingsPerKind: gardeners plant in threes; 60 plantings are of 20 kinds.
	plantingsPerKind = 3
	// plantingsPerBed: about what is taken in from one place.
	plantingsPerBed = 10
	// Windows are stated as this many days long, those of most perennials.
	leastLength, greatestLength = 28, 60
	// Plantings came this many years before the first that is simulated, so that
	// none is in its first season.
	leastAge, greatestAge = 2, 5

	// usualLate is the share of late plants: one in ten, enough to count.
	usualLate = 0.1
	// Late plants are late by this many days, evenly spread. With these and with
	// windows of those lengths the oracle and the notebook come out near the figures
	// that the reckoning's aims were set by: 97 % named at 12 days with 0.5 false
	// alarms in a hundred, and 29 % at 27 days with 0.9.
	leastLate, greatestLate = 25.0, 40.0

	// Visits are this many days apart, evenly spread, and on each this share of
	// the plants is looked at.
	leastGapDays, greatestGapDays = 3, 12
	meanGapDays                   = (leastGapDays + greatestGapDays) / 2.0
	lookedAt                      = 0.8
	// A bud shows this many days before flower, and is noted as one as often as
	// it is passed over for "not in flower" by those who look for flower.
	budDays, budNoted = 12.0, 0.3
	// For some days after flower, petals down are noted as such as often.
	overDays, overNoted = 10.0, 0.3

	// cornerDays is what wet, cold ground holds a bed back by.
	cornerDays = 10.0
	// A tenth of kinds is stated three weeks off, to either side.
	wrongShare, wrongDays = 0.1, 21.0
	// atWeekends is the chance of a visit on a Saturday, and on a Sunday.
	atWeekends = 0.6
	// The long gap starts on some day of this stretch of the last year, mid-March
	// to mid-August.
	gapDays, gapFrom, gapTo = 56, 75, 227
	// A late spring is this late up to the first day, and not at all from the
	// second, 1 August.
	lateSpringDays, lateSpringUntil, normalFrom = 15.0, 105.0, 213.0
	// A fading season's extremes are those days of the year and their ratio.
	fadesFrom, fadesTo, fadesBy = 46.0, 258.0, 3.0
	// yearDays is the mean length of a calendar year, leap years counted.
	yearDays = 365.25
	// blindShare of plants show no flower in a year.
	blindShare = 0.1
	// misreadShare of stages are misread, where flower is near enough to be
	// thought of: in flower and for nearDays to either side.
	misreadShare, nearDays = 1.0 / 30, 21.0
	// What is in flower is looked at this often when it draws people, the rest so.
	drawn, undrawn = 0.95, 0.5

	// Plants are shrubs of this height when planted. A kind's stated range is
	// heightRange to either side of its middle, in which plants are evenly spread,
	// and at its years to size a plant has grownAtYears of its height. Growth bends
	// as that of shrubs, which send up their longest shoots early, and runs from the
	// end of March to the middle of September (days of the year from 0).
	plantedCm, heightRange, grownAtYears, shape = 30.0, 0.15, 0.95, 1.3
	growthFrom, growthTo                        = 80.0, 257.0
	// sdPace is the spread of the log of the healthy plants' pace; struggling ones
	// have strugglingPace of it, a third, for life.
	sdPace, strugglingPace = 0.2, 0.35
	// Two or three times a season height and vigour are noted: on the first look
	// within measureWithin days of each of measuresAYear days, spread over
	// measuredDays from mid-April. Tape and which shoot is the top make the error.
	measuresAYear, measuredDays, measureWithin = 3, 180.0, 14
	tapeCm, tapeShare                          = 1.0, 0.03
	// Vigour is usualVigour, a grade less or more in oddMood of looks, and falls by
	// vigourFall in a struggling plant.
	usualVigour, vigourFall, oddMood = 4.0, 2.5, 0.2

	// Where there is weather, half of a season's variance is what heat does not tell,
	// and the rest is heatResponse days for each day that the heat above heatBaseC, as
	// commonly counted for spring growth, is behind, mostByHeat at most: in midwinter
	// a day's warmth is a month's usual heat.
	heatlessShare, heatResponse, heatBaseC, mostByHeat = 0.5, 0.5, 5.0, 14.0
	// Windows that start from this day of a year of 365, 1 August, to its end wait for
	// short days, and heat does not move them.
	shortDaysFrom = 213
	// Daily means stray from the normals by sdDayC, dayToDay of it kept from one day
	// to the next, and by sdSpellC in spells of months, as in a maritime climate.
	sdDayC, dayToDay     = 2.6, 0.75
	sdSpellC, spellWidth = 0.8, 40.0

	// tailDays are looked at beyond the last year, so that what opens at its end
	// and late is seen to.
	tailDays = 75

	// Bounds that keep an answer below a second and a few megabytes.
	mostPlantings, mostYears, mostLooks = 1000, 20, 80_000
	fewestVisits, mostVisits            = 0.1, 7.0
	// greatestSeed is the greatest whole number that every reader of JSON keeps.
	greatestSeed = 1<<53 - 1
)

// LastYear is the last year that is simulated: one that was, so that nothing
// depends on the day of asking.
const LastYear = 2025
