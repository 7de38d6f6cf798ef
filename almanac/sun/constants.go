package sun

// The numbers that are ours, each with its reason.
const (
	// firstYear and lastYear are those that the polynomials for the unsteady
	// turning of the earth were fitted or forecast for (deltat.go). Positions are
	// tested against others' of 1910, 2003 and 2024 to 2027, and against an older
	// theory from 1950 to 2100.
	firstYear, lastYear = 1900, 2149

	// lookSeconds is how often the sun's height is looked at to find where it
	// passes the horizon, and nearHorizonDeg how far from the horizon a turning
	// point between looks is sought: the sun rises at most 2.5° in that time, and
	// next to a turning point by far less than 1°. turningSeconds leaves a height
	// there right to 10⁻⁸°.
	lookSeconds    = 600.0
	nearHorizonDeg = 1.0
	turningSeconds = 1.0
	// exactSeconds is where a search for a moment ends: a second is what is shown.
	// mostSteps is more than a search by the hour angle ever needs (three).
	exactSeconds = 1e-4
	mostSteps    = 10

	// bareShare is what a bare crown still takes of what it takes in leaf: twigs
	// and branches. Measured crowns without leaves took a quarter to a half of the
	// sun, with leaves seven to nine tenths (Heisler 1986, Urban Ecology 9:337;
	// from memory).
	bareShare = 0.45
	// What a structure takes of the sun where nobody recorded it: a clipped hedge
	// next to all, a tree in leaf what Heisler found, an arch or pergola with its
	// climber about half. Walls, fences and buildings take all.
	hedgeDensity = 0.95
	treeDensity  = 0.85
	frameDensity = 0.5

	// fullSunHours and partSunHours part full sun, part shade and shade, in hours
	// of direct sun a day over the growing season: common practice.
	fullSunHours, partSunHours = 6.0, 3.0

	// tropicDeg is the obliquity of the ecliptic: between the tropics the sun passes
	// overhead and there is no one growing half of the year.
	tropicDeg = 23.44

	// When deciduous trees are in leaf, as days of a year without 29 February in
	// the northern hemisphere; half a year later in the southern. At the catalogue's
	// reference site (51.5° N, maritime) limes, maples and hawthorn hedges come into
	// leaf about 20 April and are bare by mid November. Autumn moves with latitude
	// about half as much as spring. Outside 35° to 65° no rule by latitude holds.
	leafReferenceLat    = 51.5
	leafOutReference    = 110
	leafFallReference   = 319
	springDaysPerDegree = 4.0
	autumnDaysPerDegree = 2.0
	leafLeastLat        = 35.0
	leafMostLat         = 65.0

	// By heat: degree-days above 5 °C since midwinter, least after a long winter,
	// more after a mild one, with base and form from Murray, Cannell & Smith (1989).
	// The three constants are ours: they bring usual street trees into leaf about
	// 10 April in Rome, 20 April in London and New York, the end of April in
	// Minneapolis and the middle of May in Helsinki.
	leafBaseC         = 5.0
	leafLeastHeat     = 75.0
	leafUnchilledHeat = 415.0
	leafChillRate     = 0.015
	// strayC is how far days stray from their normal, as found in heat's series.
	strayC = 2.7
	// firstCoolDay is 1 November. A place not warm enough for leaves by the end of
	// July is above or beyond the trees.
	firstCoolDay  = 305
	latestLeafOut = 212
	// Leaves are down when days cool to leafFallC, looked for from 1 September, and
	// where autumn stays mild when days are short, by 15 November.
	leafFallC      = 7.0
	firstLeafFall  = 244
	latestLeafFall = 319

	// stepsPerDay is how many times a day the sun is looked for: every 5 minutes,
	// in which it moves by little over a degree, the width of a post at 5 m. Where
	// two looks in a row differ the time between is halved halvings times, to under
	// 10 s.
	stepsPerDay = 288
	halvings    = 5
	// sectors is how many parts the circle is cut into to find what stands in a
	// direction: with fewer each holds more, with more they cost memory.
	sectors = 512

	// The bounds of a plan. A garden's records stay within them; a slip of the
	// finger or a hostile text does not.
	farthestM      = 100_000
	tallestM       = 500
	mostCorners    = 500 // of one outline, as a record may have
	mostPrisms     = 500 // of a garden
	mostAllCorners = 5000
	// touchM is how near to a wall a point stands against it: finer than anyone
	// measures a garden.
	touchM = 0.001
	// leastTurn is the narrowest slice of the circle that is looked through, of a
	// full turn of 4: nothing that the sun could shine through.
	leastTurn = 1e-12
	// leastAreaM2 is the ground that a thin post covers.
	leastAreaM2 = 1e-6
)

// A year without 29 February, for counting days of a usual year.
const (
	plainYear  = 2001
	daysOfYear = 365
	halfYear   = 182
)
