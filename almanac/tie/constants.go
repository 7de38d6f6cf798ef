package tie

// The numbers that are ours, each with its reason.
const (
	// sureEnough is what a photograph needs to be given to a planting without
	// asking: one wrong in ten of the least sure ones, and a wrong one is undone
	// by a tap.
	sureEnough = 0.9
	// noneShare of photographs in a garden are of no planting alone: the whole
	// bed, a weed, a visitor, a label.
	noneShare = 0.1
	// sameShare of the photographs taken at once after logging a planting are of
	// that planting: as often the walk has gone on to the next. It halves with
	// every sameHalvesMinutes: a stop on a round takes a minute or two.
	sameShare         = 0.5
	sameHalvesMinutes = 2.0
	// flowerFactor is how much rather people photograph what flowers; no more,
	// since they also photograph what does not when it should.
	flowerFactor = 2.0

	// standoffM is how far in front of a plant people stand to photograph it, and
	// standoffSpreadM how much that varies along each axis: from a bud at arm's
	// length to a shrub with a step back.
	standoffM       = 1.5
	standoffSpreadM = 0.8
	// planErrorM is how far a planting on the plan is from where it stands, along
	// each axis: measured by tape or set by eye on a plan whose origin came from
	// a phone.
	planErrorM = 1.0
	// unknownAccuracyM stands for an accuracy that was not given: what phones
	// state between houses and under trees.
	unknownAccuracyM = 15.0
	// bestAccuracyM is the best that is believed of a phone, whatever it states.
	bestAccuracyM = 2.0
	// marginM is the ground beyond the outermost plantings that belongs to the
	// garden as well.
	marginM = 10.0

	// leastShown is the probability from which a planting is worth offering, and
	// mostShown how many fit on a phone without scrolling.
	leastShown = 0.01
	mostShown  = 6
	// nearestShown of these are kept for the nearest, whatever else speaks
	// against them.
	nearestShown = 3

	// areaSteps is how many points across and down stand for a planting that
	// covers an area: finer than any accuracy of a phone on areas up to 20 m.
	areaSteps = 8
)

// accuracyPerSigma is the radius of a circle that holds 68 % of a circular
// normal distribution, in its standard deviations along one axis: √(−2 ln 0.32).
// Android states accuracy as that radius (documentation of its class Location);
// the Geolocation standard of the W3C asks for 95 %, but browsers pass on what
// the phone gives, so the cautious reading is taken for all.
const accuracyPerSigma = 1.5096
