package skill

import (
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// A Case is one planting's flush of the last year with what the judges made of
// it.
type Case struct {
	simulate.Flush
	Haulm, Notebook, Oracle *Naming // nil: never named
	// Before is the band stated for its opening on the last day of the walk before
	// flower was first noted; After the same at the end, its own season left out.
	Before, After *bloom.Band
	// First is Haulm's judgement when it first named the plant, and Last its last.
	First, Last bloom.Judgement
	// Lows are what its bands made of the looks (frontier.go).
	Lows []Low
	// Verdicts are Haulm's, from the day on which each was first given.
	Verdicts []Naming
}

// A Walk is what came of a garden's last season.
type Walk struct {
	Cases []Case
	Parts []Part
	Days  int // walked
}

// A Part is a part of the last year with its season as Haulm told it at the end
// and as it was, meant over the plants that tell it.
type Part struct {
	Told bloom.SeasonPart
	True float64
}

// Through walks through the last season of a simulated garden. The error is for
// records that cannot be read.
func Through(out simulate.Output) (Walk, error) {
	b, err := read(out.Records)
	if err != nil {
		return Walk{}, err
	}
	w := &walker{book: b, haulm: &Haulm{book: b}, oracle: Oracle{out.Truth.Luck}}
	for _, f := range out.Truth.Flushes {
		if f.Year == simulate.LastYear {
			w.cases = append(w.cases, Case{Flush: f})
		}
	}
	days := b.days(out.On)
	for i, day := range days {
		next := day + 1
		if i+1 < len(days) {
			next = days[i+1]
		}
		w.day(day, next)
	}
	return Walk{Cases: w.cases, Parts: w.parts(), Days: len(days)}, nil
}

// A walker is on its way.
type walker struct {
	book   *book
	haulm  *Haulm
	oracle Oracle
	cases  []Case
}

// day lets the judges speak on one day of the walk, next being the one after it.
func (w *walker) day(day, next garden.Day) {
	w.haulm.at(day)
	for i := range w.cases {
		c := &w.cases[i]
		all := w.book.plants[w.book.index[c.Planting]].Looks
		looks := until(all, day)
		c.Haulm = first(c.Haulm, w.haulm, &c.Flush, looks, day)
		c.Notebook = first(c.Notebook, Notebook{}, &c.Flush, looks, day)
		c.Oracle = first(c.Oracle, w.oracle, &c.Flush, looks, day)
		if j, judged := w.haulm.verdicts[c.Planting]; judged {
			c.follow(j, day)
			if c.First.Verdict == "" && naming(j.Verdict) {
				c.First = j
			}
		}
		if seen, was := noted(&c.Flush, all); was && seen > ofYear(day, c.Year) && seen <= ofYear(next, c.Year) {
			c.Before = w.haulm.band(&c.Flush)
		}
		c.After = w.haulm.band(&c.Flush)
		c.low(c.After, looks, ofYear(day, c.Year))
	}
}

// first keeps the first naming.
func first(was *Naming, judge Judge, f *simulate.Flush, looks []bloom.Look, day garden.Day) *Naming {
	if was != nil {
		return was
	}
	if word, names := judge.Names(f, looks, day); names {
		return &Naming{ofYear(day, f.Year), word}
	}
	return nil
}

// follow notes a verdict where it changes.
func (c *Case) follow(j bloom.Judgement, day garden.Day) {
	c.Last = j
	if n := len(c.Verdicts); n == 0 || c.Verdicts[n-1].Word != string(j.Verdict) {
		c.Verdicts = append(c.Verdicts, Naming{ofYear(day, c.Year), string(j.Verdict)})
	}
}

// band is when Haulm expects a flush to open; nil where it expects nothing.
func (h *Haulm) band(f *simulate.Flush) *bloom.Band {
	expected, there := h.model.Expect(f.Planting, f.Year, 0)
	if !there {
		return nil
	}
	return &expected.Open
}

// parts compares the season told at the end with the true one.
func (w *walker) parts() []Part {
	var parts []Part
	for _, told := range w.haulm.model.Season(simulate.LastYear, bloom.DefaultParts()) {
		sum, n := 0.0, 0.0
		for _, c := range w.cases {
			if c.StatedDay >= told.From && c.StatedDay <= told.To && c.OpensDay != nil {
				sum, n = sum+c.SeasonDays, n+1
			}
		}
		if n > 0 {
			parts = append(parts, Part{told, sum / n})
		}
	}
	return parts
}
