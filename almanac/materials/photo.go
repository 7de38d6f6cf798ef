package materials

import (
	"fmt"
	"math"

	"haulm/almanac/stats"
)

// A PhotoInput is what the verb "height-from-photo" takes: the length of a cane,
// where its top and foot and the plant's top and foot are in the picture, in
// pixels from any corner, and how far both stood from the camera, either both or
// neither.
type PhotoInput struct {
	CaneCm         float64    `json:"caneCm"` // from the foot at the ground to the top
	CaneTop        [2]float64 `json:"caneTop"`
	CaneFoot       [2]float64 `json:"caneFoot"`
	PlantTop       [2]float64 `json:"plantTop"`
	PlantFoot      [2]float64 `json:"plantFoot"`
	CaneDistanceM  *float64   `json:"caneDistanceM"`
	PlantDistanceM *float64   `json:"plantDistanceM"`
	PixelError     *float64   `json:"pixelError"` // of each point along each axis; null is the usual
}

// A PhotoOutput is what the verb "height-from-photo" gives: the height and its
// standard error, cm to 0.1, and what was taken for granted: "same-distance" when
// the cane counts as standing beside the plant.
type PhotoOutput struct {
	HeightCm float64  `json:"heightCm"`
	ErrorCm  float64  `json:"errorCm"`
	Assumed  []string `json:"assumed"`
}

// HeightFromPhoto answers the verb "height-from-photo".
//
// A camera draws an upright thing at distance d with a length in proportion to its
// height over d. So height = cane × (plant's pixels / cane's pixels) × (plant's
// distance / cane's distance). The plant is measured along the cane, which stands
// upright, so that a phone held askew does no harm and a plant that leans counts by
// its height and not by its length. The error adds, as independent: the four
// points, the two distances, the lean of the cane where the plant leans too, and
// the tilt of the phone for what rises above the cane.
//
// It fails, naming the field, on values out of their bounds, one distance without
// the other, a cane too short to measure in the picture, a plant that does not rise
// from its foot, and an error that leaves nothing to know (worstShare).
func HeightFromPhoto(in PhotoInput) (PhotoOutput, error) {
	if err := in.check(); err != nil {
		return PhotoOutput{}, err
	}
	seen, err := in.measure()
	if err != nil {
		return PhotoOutput{}, err
	}
	out := PhotoOutput{Assumed: []string{}}
	apart := 1.0
	if in.CaneDistanceM != nil {
		apart = *in.PlantDistanceM / *in.CaneDistanceM
	} else {
		out.Assumed = append(out.Assumed, "same-distance")
	}
	height, share := in.CaneCm*seen.along/seen.cane*apart, in.relativeError(seen)
	if stats.RoundProbability(share) > worstShare {
		return PhotoOutput{}, fmt.Errorf("the height would be %.0f cm, give or take %.0f: take a longer cane, beside the plant, and mark its ends closely", height, share*height)
	}
	out.HeightCm, out.ErrorCm = stats.RoundCM(height), stats.RoundCM(height*share)
	return out, nil
}

// A seen is what the picture shows, in pixels: the cane's length, and the plant's
// along the cane and across it.
type seen struct{ cane, along, across float64 }

func (in *PhotoInput) measure() (seen, error) {
	cane := [2]float64{in.CaneTop[0] - in.CaneFoot[0], in.CaneTop[1] - in.CaneFoot[1]}
	plant := [2]float64{in.PlantTop[0] - in.PlantFoot[0], in.PlantTop[1] - in.PlantFoot[1]}
	s := seen{cane: math.Hypot(cane[0], cane[1])}
	if stats.Round7(s.cane) < leastPixels {
		return s, fmt.Errorf("caneTop and caneFoot are %.1f pixels apart, less than %d: go nearer, or take a longer cane", s.cane, leastPixels)
	}
	s.along = (plant[0]*cane[0] + plant[1]*cane[1]) / s.cane
	s.across = (plant[0]*cane[1] - plant[1]*cane[0]) / s.cane
	if stats.Round7(s.along) < stats.Round7(2*in.pixelError()) {
		return s, fmt.Errorf("plantTop is %.1f pixels above plantFoot along the cane, less than two pixel errors of %v: is it the right way up?", s.along, in.pixelError())
	}
	if stats.Round7(math.Abs(s.across)) > stats.Round7(s.along) {
		return s, fmt.Errorf("plantTop is more than 45° aside of plantFoot: mark the foot below the top")
	}
	return s, nil
}

// relativeError is the standard error of the height as a share of it.
func (in *PhotoInput) relativeError(s seen) float64 {
	ends := 2 * square(in.pixelError()) // of a difference of two points, along any axis
	leaning := square(s.across / s.along)
	variance := ends/square(s.along) + (1+leaning)*ends/square(s.cane)
	variance += leaning * square(leanDeg*math.Pi/180)
	variance += square(beyondShare * max(0, s.along/s.cane-1))
	if in.CaneDistanceM != nil {
		variance += 2 * square(distanceShare)
	} else {
		variance += square(besideShare)
	}
	return math.Sqrt(variance)
}

func (in *PhotoInput) pixelError() float64 {
	if in.PixelError != nil {
		return *in.PixelError
	}
	return usualPixels
}

func square(x float64) float64 { return x * x }

func (in *PhotoInput) check() error {
	list := []bounded{{"caneCm", &in.CaneCm, shortestCaneCm, longestCaneCm}, {"pixelError", in.PixelError, leastPixelError, mostPixelError},
		{"caneDistanceM", in.CaneDistanceM, nearestM, farthestM}, {"plantDistanceM", in.PlantDistanceM, nearestM, farthestM}}
	for _, point := range []struct {
		field string
		at    *[2]float64
	}{{"caneTop", &in.CaneTop}, {"caneFoot", &in.CaneFoot}, {"plantTop", &in.PlantTop}, {"plantFoot", &in.PlantFoot}} {
		for axis := range point.at {
			list = append(list, bounded{fmt.Sprintf("%s[%d]", point.field, axis), &point.at[axis], -largestPixel, largestPixel})
		}
	}
	if err := check(list...); err != nil {
		return err
	}
	if (in.CaneDistanceM == nil) != (in.PlantDistanceM == nil) {
		return fmt.Errorf("give caneDistanceM and plantDistanceM both, or neither where the cane stands beside the plant")
	}
	return nil
}
