package skill

import (
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// Notebook is the rule that somebody with a notebook and a book of plants would
// use: the window is closed, and no flower is noted.
type Notebook struct{}

var _ Judge = Notebook{}

// Names implements Judge.
func (Notebook) Names(f *simulate.Flush, looks []bloom.Look, on garden.Day) (string, bool) {
	_, flowered := noted(f, looks)
	return "window closed, no flower noted", !flowered && ofYear(on, f.Year) > f.StatedEnd
}
