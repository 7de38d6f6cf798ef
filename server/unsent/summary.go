package unsent

// A Summary is what became of a file's entries.
type Summary struct {
	Garden string `json:"garden"`
	Device string `json:"device"`
	Part   int    `json:"part"`
	Parts  int    `json:"parts"`
	// Checked is true when nothing was written: New is then what would be.
	Checked bool `json:"checked"`

	Changes   Count `json:"changes"`
	Originals Count `json:"originals"`
	Previews  Count `json:"previews"`

	// Strange entries are none that the format has.
	Strange int `json:"strange"`

	// Problems name what was left aside, and why; of more than mostProblems the
	// first are told.
	Problems []Problem `json:"problems"`
}

// A Count tells of entries of one sort.
type Count struct {
	New   int `json:"new"`   // taken now
	Known int `json:"known"` // here before
	Aside int `json:"aside"` // left aside, with a problem
}

// A Problem is an entry that was left aside.
type Problem struct {
	Entry string `json:"entry"` // a name in the file, with the line where it has lines
	Code  string `json:"code"`
	Why   string `json:"why"`
}

// mostProblems bounds what a hostile file can make an answer hold.
const mostProblems = 200

// Aside is how many entries were left aside.
func (s Summary) Aside() int {
	return s.Changes.Aside + s.Originals.Aside + s.Previews.Aside + s.Strange
}

func (s *Summary) aside(count *Count, entry, code, why string) {
	count.Aside++
	s.tell(entry, code, why)
}

func (s *Summary) strange(entry, code, why string) {
	s.Strange++
	s.tell(entry, code, why)
}

func (s *Summary) tell(entry, code, why string) {
	if len(s.Problems) < mostProblems {
		s.Problems = append(s.Problems, Problem{shorten(entry), code, why})
	}
}

const longestName = 120 // bytes of an entry's name that are told

func shorten(text string) string {
	if len(text) > longestName {
		return text[:longestName] + "…"
	}
	return text
}
