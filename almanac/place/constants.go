package place

// Every number below is a choice of ours with its reason.
const (
	// strewn is how many points are strewn over a room's bounding box. A share is
	// then within 0.04 of the true one, and no crowding is told finer than that.
	strewn = 200
	// mostCorners is how many corners of an outline are looked at. A bed drawn with
	// a finger has more, and none of them matters to a share of it.
	mostCorners = 64
	// mostNeighbours is how many neighbours one planting is held against, the
	// tallest first. Sixty touching rooms are no garden but a slip.
	mostNeighbours = 60
	// mostTouching is how many of those that touch one planting are looked at.
	mostTouching = 300
	// mostTests keeps what takes each other's room to a fraction of a second. Two
	// thousand plantings with five neighbours of twenty corners each need less.
	mostTests = 60_000_000
	// rays is how many lines of sight cross a planting: one in every twentieth of
	// its width is what an eye would tell.
	rays = 24
	// eyeCM is the height of a standing person's eye (common practice).
	eyeCM = 160
	// showFrom is where on a plant its show stands: the middle of its upper third,
	// in which most kinds carry their flowers (common practice).
	showFrom = 5.0 / 6
)

// The steps of the sequence that strews points evenly over a plane, the powers
// −1 and −2 of the plastic number (Roberts 2018, "The unreasonable effectiveness
// of quasirandom sequences"). No side of an outline in round metres meets them.
const stepX, stepY = 0.7548776662466927, 0.5698402909980532
