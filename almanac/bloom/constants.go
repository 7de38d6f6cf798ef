package bloom

// The numbers that are ours. Each is a choice with a reason, to be held against
// the skill table; what comes from a publication says so.
const (
	// sdKind is how far the catalogue's start of a window, moved to a garden,
	// may be off, in days: windows are printed by the month or its thirds.
	sdKind = 10.0
	// sdGarden is the standing difference of a garden from what its latitude and
	// altitude say: frost hollows and south walls of whole plots are worth about
	// a week.
	sdGarden = 8.0
	// sdHabit is a planting's own habit: neighbours of one kind keep their order
	// from year to year, some days apart.
	sdHabit = 4.0
	// sdChance is what is left within one planting and year.
	sdChance = 5.0
	// sdFirstSeason is how far the first season after planting may be off: roots
	// come before flowers, and nursery plants are often forced.
	sdFirstSeason = 12.0
	// bareRootLaterDays is how much later a bare-root plant's first season is: it
	// makes new feeding roots before anything else.
	bareRootLaterDays = 7.0

	// seasonSDLargest and seasonSDLeast are how far seasons move flower in
	// mid-February and mid-September (days seasonSDLargestAt and seasonSDLeastAt
	// of a northern year): a cold spring delays by a fortnight, late summer
	// moves by days.
	seasonSDLargest, seasonSDLargestAt = 9.0, 46.0
	seasonSDLeast, seasonSDLeastAt     = 4.5, 258.0
	// seasonCorrelationDays is how far apart in the year two kinds may flower
	// and still feel much the same weather.
	seasonCorrelationDays = 45.0
	// wholeYearShare of a season's variance is felt through wholeYearCorrelationDays:
	// some years run early or late from the first bulb to the last aster. Without
	// it a few parts that agree would make the season look better known than it is.
	wholeYearShare, wholeYearCorrelationDays = 0.3, 360.0
	// knotSpacingDays is fine enough that a season of that correlation is all but
	// straight between two knots.
	knotSpacingDays = 30.4375

	// After learnFromSeasons seasons the spreads of season, habit and chance are
	// estimated again, the garden's own weighed against the numbers above as if
	// those had been learnt from seasonsWeight knots, habitsWeight plantings and
	// chancesWeight flushes: a garden of a few plants keeps the numbers above.
	learnFromSeasons                           = 3
	seasonsWeight, habitsWeight, chancesWeight = 6.0, 15.0, 20.0
	// learnRounds of that, each from the fit with the spreads of the last, come
	// to within a twentieth of where it would end.
	learnRounds = 3

	// oddShare is the most that one flush says of the scale of chance. With it, and
	// chance that is in truth normal, the mean of all is 1 within two percent.
	oddShare = 3.3
	// oneDayScales is the distance of bounds, in scales, at which they are taken as
	// one point: nearer, their difference is lost to rounding.
	oneDayScales = 1e-6
	// asideSDs of chance from where it should have opened a flush is another
	// matter than chance, late for a reason or misread: one in eighty would be by
	// chance alone.
	asideSDs = 2.5

	// cornerShare of beds have a delay of their own in a year, of sdCorner days: wet
	// ground holds spring back by a week or two. It takes fewestInCorner other
	// plantings to tell of one, each by no more than oddSignSDs of its spread, so that
	// one late plant makes no wet corner, and of a time of year whose weather is
	// nearEnough to the same: within six weeks. Less than toldDelay days are reckoned
	// with and not told.
	cornerShare, sdCorner                 = 0.1, 8.0
	fewestInCorner, oddSignSDs, toldDelay = 3, 2.0, 2.0
	nearEnough                            = 0.5

	// misread is the chance that a look which bounds the end of a flush took flower
	// for none or the reverse.
	misread = 0.03

	// lateByLuck and earlyByLuck are the chances of the day that a flush which was
	// seen to open must not exceed to be called late, or far early. Fewer of the
	// healthy are, as looks leave some doubt of the day: one in two hundred and more.
	lateByLuck, earlyByLuck = 0.01, 0.02
	// falseAlarms is the share of healthy flushes that may be called late before
	// they open, and mostByLuck the chance of luck beyond which none is, however
	// seldom it is looked at.
	falseAlarms, mostByLuck = 0.009, 0.06
	// paceDays is the stretch over which the pace of looking is reckoned, six weeks,
	// and usualGapDays that of which nothing is known: a fortnight.
	paceDays, usualGapDays = 42.0, 14.0
	// surelyLate spreads past the expected day no flush is left to luck; the day is
	// found to lateStep of a spread.
	surelyLate, lateStep = 4.0, 1e-6
	// opensEarly is the chance of opening as early up to which a flush is called
	// early: below its 80 % band, as one in ten are.
	opensEarly = 0.1
	// worthALook is the chance of having opened since the last look, itself before
	// the expected day, from which another is asked for: whoever looked yesterday
	// is not sent back.
	worthALook = 0.25
	// closesAt is the chance by which a flush without flower is over and leaves
	// the fit, so that a blind year does not teach lateness.
	closesAt = 0.99
	// The end is reckoned over closingSteps steps of closingStep standard
	// deviations of the log of the length, four to either side, and found to
	// closingDays, finer than results are rounded to.
	closingSteps, closingStep, closingDays = 17, 0.5, 0.001
	// sdLogLength is the spread of the log of how long a flush lasts about the
	// stated length: heat shortens it and cool weather stretches it by a third.
	// sdKindLogLength is how far the log of the stated length itself may be off:
	// windows are printed by the month or its thirds, and ten days more or less
	// are a fifth of seven weeks.
	sdLogLength, sdKindLogLength = 0.3, 0.2
	// sdStrayLogLength is the spread of the log of the length that a flush seems to
	// have when one of its bounds was misread: a third of it, or three times.
	sdStrayLogLength = 1.0
	// A flush teaches its length when its opening is known to within this share of
	// its window; where in there it opened is met in spellSteps steps.
	closeOpening, spellSteps = 0.5, 3
	// lengthStop, in sds of chance, is a ten-thousandth of a length.
	lengthStop = 3e-4
	// briefly is the share of flushes that are over sooner than what is taken to
	// have lain between opening and a first look that found it over.
	briefly = 0.05
	// mayBeOver are the odds, flower come and gone unseen against flower still to
	// come, from which a look that saw none says nothing of opening. Flower is still
	// to come by luck, or because something is wrong with the plant, as ailing says
	// of one in twenty. Looks that follow each other sooner than the briefest flush
	// lasts leave no such room, nor does one surelyBeforeDays ahead of the expected
	// day.
	mayBeOver, ailing, surelyBeforeDays = 0.3, 0.05, 30.0
	// mayBeUnseen is the chance of having flowered between the looks up to which a
	// flush that is over is said, and counted, to have shown no flower: one wrong
	// word in twenty of those that are at the limit.
	mayBeUnseen = 0.05
	// The chance that a planting flowers at all in a year, by its kind's life cycle.
	// A settled plant of a long-lived kind skips one year in twenty, a short-lived
	// one, as it fades, one in ten; annuals and biennials flower or die, and one in
	// ten is eaten or smothered young; what flowers once and dies waits for years
	// and nobody knows which is the one.
	flowersLongLived, flowersShortLived               = 0.95, 0.9
	flowersAnnual, flowersBiennial, flowersMonocarpic = 0.9, 0.9, 0.3
	// Its shares for a second flush, which comes of a good summer and a cut in
	// time, and for a plant in the first season in which its kind may flower and in
	// the one after: roots come before shoots and flowers (common practice).
	flowersAgain                              = 0.8
	flowersWhenFirstRipe, flowersWhenNextRipe = 0.85, 0.95
	// How many plant-seasons of the kind in this garden, and how many seasons of the
	// planting itself, weigh as much as what was thought before: a garden's soil and
	// light show in a kind in some ten, a plant's own want in four.
	kindFlowersWeight, ownFlowersWeight = 10.0, 4.0
	// tellingDoubt is the chance of not flowering at all from which it is told, and
	// expectsFlower that of flowering below which, before any look of the year, a
	// plant without flower is not called late: who is not expected cannot be late.
	tellingDoubt, expectsFlower = 0.2, 0.5
	// shortestLengthDays is the least length of a window taken at its word.
	shortestLengthDays = 7.0

	// heatResponse is the share of a thermal-time offset that shows in flower, and
	// sdHeatResponse how far a garden's may differ: buds wait for more than warmth
	// (chill, day length, the plant's own reserves).
	heatResponse, sdHeatResponse = 0.5, 0.25
	// flowerBaseC is above what warmth counts towards flower, in °C: the base in
	// common use for temperate plants' spring growth.
	flowerBaseC = 5.0
	// seasonReach is how many of its spreads weather alone may move a season:
	// early in the year a day's warmth is a month's usual heat.
	seasonReach = 2.0

	// Hopkins's bioclimatic law (Hopkins A.D. 1918, Monthly Weather Review
	// Supplement 9): 4 days later for each degree of latitude poleward and each
	// 400 feet up, in spring and early summer.
	hopkinsDaysPerDegree = 4.0
	hopkinsDaysPerMetre  = 4.0 / (400 * 0.3048)
	// The catalogue's reference site, and the latitudes between which it is
	// trusted: nearer the equator seasons are wet and dry, nearer the pole the
	// summer is too short for the law.
	referenceLat, referenceAltitudeM = 51.5, 50.0
	leastLat, greatestLat            = 25.0, 65.0
	// The share of that in a window that starts on these days of a northern year:
	// whole to mid-June, none from September to mid-November (autumn flower
	// waits for short days and rain), whole again from February.
	springFadesFrom, springFadesTo     = 166.0, 244.0
	springReturnsFrom, springReturnsTo = 319.0, 397.0
	// springAt is the day of a northern year by which it is said how much later a
	// garden's spring is.
	springAt = 105.0
	// greatestMove is the most days that normals move a window: where winter is
	// mild its warmth brings nothing forward any more, as chill and day length
	// hold flower back.
	greatestMove = 35.0

	halfYearDays = 182.625
	yearDays     = 365.25

	// boughtOpenDays: what flowers within this time of being planted was in bud
	// when bought, and tells how the nursery grew it.
	boughtOpenDays = 42
	// justOverDays: a plant that came, or was first looked at, within this time
	// of its window may still show that flush, and not next year's.
	justOverDays = 120
	// harmReachDays is how long before its opening a cut, a frost or a browsing
	// deer still moves a flush; rootReachDays, how long a division or a move
	// does: into the first flower after it, whenever that is.
	harmReachDays, rootReachDays = 100.0, yearDays
	// growthStartsAt and growthEndsAt are the days of a northern year before and
	// from which cutting takes off dead tops and old leaves, not growth: April and
	// November.
	growthStartsAt, growthEndsAt = 91, 305
	// nextFlushWithinDays is how near the next flush must be for a bud after
	// petals are down to belong to it.
	nextFlushWithinDays = 120
	// strayDays after its expected end a flush that nobody had watched is not
	// what is in flower or in bud: three standard deviations of catalogue,
	// garden and season together, which in spring are 17 days.
	strayDays = 50
	// upcomingDays is how far ahead a flush of the next year is already looked at.
	upcomingDays = 60

	// rememberedYears is how many years back looks are used: older ones no longer
	// describe the plant or the garden's trees.
	rememberedYears = 20
	// mostFlushes, mostKnots and mostWork, flushes times the square of knots, bound
	// one fit, so that no input takes it beyond a second: 60 plantings of a dozen
	// kinds through 20 years are well within.
	mostFlushes, mostKnots, mostWork = 6_000, 300, 2e8

	// The fit stops when no value moves by more than stopDays, far below what
	// results are rounded to, or after mostSteps.
	stopDays  = 1e-9
	mostSteps = 200
	// startDays is where the climbs before the last stop: they are only a start.
	startDays = 0.1
	// roundingShare of a log posterior may be lost to rounding where it is level.
	roundingShare = 1e-12
	// The refit without one planting's season starts near its summit, where each
	// step squares the error, so that it may stop sooner and be as exact.
	refitStopDays = 1e-7
	// refitRows is the most rows, years times windows, of a kind whose plantings
	// are refitted: more than the years that are remembered.
	refitRows = 24
	// refitSites is the most flushes of a kind that are all fitted again for each
	// of its plantings: in a larger kind one planting moves the others little.
	refitSites = 400
	// leastKept keeps a site that is held out from being the whole of what is
	// known of its row, where the parabolas no longer hold.
	leastKept = 0.1
	// halvings of a step that does not climb before it is given up.
	halvings = 40
)
