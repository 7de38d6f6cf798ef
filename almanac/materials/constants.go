package materials

// Bounds of inputs: beyond what any garden has.
const (
	largestM2    = 1e6     // a square kilometre
	deepestCm    = 100     // of mulch: a metre
	biggestBagL  = 2000    // two of the cubic-metre bags that a lorry brings
	widestCm     = 10_000  // from plant to plant: a hundred metres
	biggestHole  = 1000    // ten metres across, and as deep
	biggestBallL = 5000    // of a root ball: a grown tree's, moved by crane
	mostHoles    = 100_000 // more than anybody digs
	furthestM    = 10_000  // on the plan: ten kilometres from its origin
	mostPoints   = 1000    // of outlines together, so that areas are quick
	longestFt    = 1e5     // thirty kilometres; inches as well
)

// scanLines is how many lines an area with pieces cut out is measured along: an
// error under a thousandth of the pieces.
const scanLines = 2048

// heaviestKg is a load that is lifted with thought: a guideline of Great Britain's
// Health and Safety Executive has 16 kg for the weaker and 25 kg for the stronger at
// best (from memory).
const heaviestKg = 16

// Photographs.
const (
	// A cane is from ten centimetres to ten metres long, and stands as near as a camera
	// focuses to as far as it is still seen; no picture has so many pixels.
	shortestCaneCm, longestCaneCm = 10, 1000
	nearestM, farthestM           = 0.3, 100
	largestPixel                  = 100_000
	// leastPixels is the shortest cane that can be measured in a picture: at four
	// pixels either end its error is a quarter.
	leastPixels = 20
	// usualPixels is how far a tap is from the point that was meant, along each
	// axis, on a picture that was zoomed: a cane is some pixels thick.
	usualPixels, leastPixelError, mostPixelError = 4, 0.1, 200
	// distanceShare is the error of a distance paced or read off a tape held loosely;
	// besideShare that of a cane put beside the plant: ten centimetres nearer or
	// farther at two metres.
	distanceShare, besideShare = 0.05, 0.05
	// leanDeg is how far a cane stuck in by hand leans.
	leanDeg = 3
	// beyondShare is the error for each cane length that a plant rises above the
	// cane: a phone that is tilted up draws what is higher smaller.
	beyondShare = 0.02
	// worstShare of the height is the largest error that still tells anything.
	worstShare = 0.4
)
