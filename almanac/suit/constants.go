package suit

// Every number below is a choice of ours with its reason. "Common practice" is
// what gardeners and the trade generally hold.
const (
	// potMarginC is how much less cold a kind stands in a pot, where frost comes
	// at the roots from all sides (common practice).
	potMarginC = 5
	// coldMarginC above its minimum a kind is as hardy as it can be: the coldest
	// winter of ten is commonly that much below an ordinary one. At the minimum
	// itself it is worth atMinimum, as much as one that is lifted each autumn.
	coldMarginC, atMinimum, lifted = 4.0, 0.5, 0.5

	// leastSun is the share of the sun that a kind wants at least under which it
	// is not worth planting: half is the step from full sun, 6 h, to shade, 3 h.
	leastSun = 0.5
	// halfShadeH and halfSunH hours short of the least, and beyond the most, halve
	// the worth: two hours are the better part of a class of light, while too much
	// sun scorches only on hot days.
	halfShadeH, halfSunH = 2.0, 3.0
	// morningHeat and eveningHeat weigh hours before and after noon when sun may
	// be too much: the afternoon is the hotter half of a day (common practice:
	// morning sun for what scorches).
	morningHeat, eveningHeat = 0.7, 1.3

	// moistEnough steps of moisture off are nothing; halfTooWet and halfTooDry
	// more halve the worth. Wet rots in a winter; dry can be watered.
	moistEnough, halfTooWet, halfTooDry = 0.6, 0.6, 0.8
	// dryForWet is the moisture under which a kind of wet ground cannot live.
	dryForWet = 1.0
	// irrigation and what drainage adds to a soil's moisture, in the same steps.
	irrigation, quickDrainage, slowDrainage = 0.5, -0.7, 0.5
	// potMoisture is that of a pot's compost, which drains and is watered.
	potMoisture = 1.2

	// halfPH outside a kind's range halves the worth; limePH above it leaves are
	// yellow for want of iron and acidPH below it roots fail, whatever is done.
	halfPH, limePH, acidPH = 0.7, 1.2, 2.0

	// halfHeight times too tall or too low halves the worth, and tallestTimes as
	// tall as wanted at its least is out of question.
	halfHeight, tallestTimes = 1.4, 1.6
	// halfRoom times wider than the room halves the worth; widestTimes is out.
	halfRoom, widestTimes = 1.4, 1.6
	// potCm is the height to which pots are common; halfPotCm above it, or trees
	// at any height, are half as good in one.
	potCm, halfPotCm, treeInAPot = 120.0, 150.0, 0.5

	// sameColour is a difference by CIEDE2000 that passes for the colour wanted,
	// halfColour more halves the worth: petals of one plant differ by ten.
	sameColour, halfColour = 10.0, 15.0

	// The weight of each factor is the power to which its score is taken. Light
	// and moisture decide whether a plant thrives, cold whether it lives; the
	// rest can be helped or is a matter of taste.
	weightDecides, weightHelped, weightTaste = 1.0, 0.7, 0.5
	// noWeeks is what a kind is worth that adds no flower where flower is wanted,
	// against one that adds much; halfWeeks of gain is half of that way.
	noWeeks, halfWeeks = 0.6, 3.0

	// needsWork is the worth of a flush that comes only after deadheading or
	// cutting back: not every year is it done in time.
	needsWork = 0.7
	// variety is what another colour in a week is worth beside flower at all.
	variety = 0.25
	// leastFit is the fit from which a kind may stand in the set: a group is not
	// filled with what will only half thrive.
	leastFit = 0.5
	// inFlower is the share of a week from which it counts as one in flower when
	// weeks are listed.
	inFlower = 0.5
	// setSize is how many kinds a set has where nothing is said: three make a group.
	setSize = 3
)

// Sizes that keep an answer under a second.
const (
	mostKinds   = 2000
	mostHave    = 20_000
	mostChosen  = 30
	mostColours = 20
)
