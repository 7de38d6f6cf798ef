package suit

import (
	"fmt"
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"haulm/almanac/stats"
)

// A shade is one of the groups of colour that a border is thought of in.
type shade int

const (
	white shade = iota
	yellow
	orange
	red
	pink
	purple
	blue
	green
	dark
	shades
)

// The bounds of the shades in CIELAB (CIE 15:2004) by lightness, chroma and hue
// in degrees. Where blue turns purple and red pink is taste; these put the kinds
// of the catalogue whose colour everyone knows where gardeners name them.
const (
	darkest, duskChroma = 0.28, 0.35 // what is darker, and no more colourful
	palest              = 0.80       // from there on little colour is white
	colourless          = 0.10       // chroma of greys
	nearlyWhite, creamy = 0.12, 0.24 // chroma of a white, and of one that leans to yellow
	creamFrom           = 60.0       // hue
	redFrom, redTo      = 335.0, 45.0
	orangeTo, yellowTo  = 75.0, 108.0
	greenTo, blueTo     = 185.0, 296.0
	paleRose, paleRed   = 0.42, 0.58 // lightness from which bluish, and true, reds are pink
)

func shadeOf(c colorful.Color) shade {
	hue, chroma, light := c.Hcl()
	hue, chroma, light = stats.Round7(hue), stats.Round7(chroma), stats.Round7(light)
	switch {
	case light < darkest && chroma < duskChroma:
		return dark
	case isWhite(hue, chroma, light):
		return white
	case hue >= redFrom && light >= paleRose || hue < redTo && light >= paleRed:
		return pink
	case hue >= redFrom || hue < redTo:
		return red
	case hue < orangeTo:
		return orange
	case hue < yellowTo:
		return yellow
	case hue < greenTo:
		return green
	case hue < blueTo:
		return blue
	default:
		return purple
	}
}

func isWhite(hue, chroma, light float64) bool {
	cream := hue >= creamFrom && hue < yellowTo && chroma < creamy
	return chroma < colourless || light > palest && (chroma < nearlyWhite || cream)
}

// parseColours reads "#rrggbb"; field names them in an error.
func parseColours(field string, texts []string) ([]colorful.Color, error) {
	if len(texts) > mostColours {
		return nil, fmt.Errorf("%s has %d colours, more than the %d that are compared", field, len(texts), mostColours)
	}
	colours := make([]colorful.Color, len(texts))
	for i, text := range texts {
		c, err := colorful.Hex(text)
		if err != nil || len(text) != len("#rrggbb") {
			return nil, fmt.Errorf("%s[%d] %q is not a colour written #rrggbb", field, i, text)
		}
		colours[i] = c
	}
	return colours, nil
}

// colour compares a kind's colours with those wanted, by the nearest pair.
func (s Spot) colour(c candidate) (Factor, bool) {
	if len(s.Colours) == 0 {
		return unknownHere(Colour), false
	}
	wanted, errWanted := parseColours("spot.colours", s.Colours)
	has, errHas := parseColours("colours", c.kind.Colours)
	if errWanted != nil || errHas != nil || len(has) == 0 {
		return unknownOf(Colour), false
	}
	nearest := math.Inf(1)
	for _, want := range wanted {
		for _, colour := range has {
			nearest = math.Min(nearest, 100*want.DistanceCIEDE2000(colour))
		}
	}
	nearest = stats.Round7(nearest)
	say := Fits
	if nearest > sameColour {
		say = OtherColour
	}
	return scored(Colour, say, fading(nearest-sameColour, halfColour), nearest, nil), false
}
