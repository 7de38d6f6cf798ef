package skill

import (
	"cmp"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"

	"haulm/almanac/assess"
	"haulm/almanac/bloom"
	"haulm/almanac/simulate"
	"haulm/garden"
)

// A Chooser says which plantings a walker looks at who has time for so many. The
// plantings come in round order.
type Chooser interface {
	choose(r *round, day garden.Day, looks int) []string
}

// ByWorth goes where the verb worth says that a look settles most, then to what was
// looked at longest ago.
type ByWorth struct{}

// WhileWorth goes there too, and home when a look settles less than so many bits.
type WhileWorth struct{ Bits float64 }

// ByFinding goes to what the assessment calls worth a look, in its order, then to
// what was looked at longest ago.
type ByFinding struct{}

// InTurn takes one planting after the other, and begins again.
type InTurn struct{}

// AtRandom takes any, none twice on one day.
type AtRandom struct{ Seed uint64 }

// A Rounds is what came of a last season of rounds on each of which as many
// plantings were looked at.
type Rounds struct {
	Record
	Looks int
}

// A round is a garden's last season as one walker goes through it.
type round struct {
	engine *assess.Engine
	book   []string // plantings in round order
	looked map[string]garden.Day
	truth  map[string]*Case
	chance *rand.Rand
	looks  int
}

// everyDays a walker comes round: at the weekend.
const everyDays = 7

// Walked goes through the last season of a simulated garden, of which only the years
// before it are known, once a week, looks at so many plantings each time, and takes
// what the assessment then says. The error is for records that cannot be read.
func Walked(out simulate.Output, chooser Chooser, looks int) (Rounds, error) {
	r, err := newRound(out, chooser)
	if err != nil {
		return Rounds{}, err
	}
	for day := garden.DayOf(simulate.LastYear, 1, 4); day <= out.On; day += everyDays {
		if err := r.visit(day, chooser.choose(r, day, looks)); err != nil {
			return Rounds{}, err
		}
	}
	told := Rounds{Looks: r.looks}
	for _, planting := range r.book {
		c := r.truth[planting]
		told.count(c, c.Haulm)
	}
	return told, nil
}

func newRound(out simulate.Output, chooser Chooser) (*round, error) {
	engine, err := assess.New()
	if err != nil {
		return nil, err
	}
	r := &round{engine: engine, looked: map[string]garden.Day{}, truth: map[string]*Case{}}
	if random, ok := chooser.(AtRandom); ok {
		r.chance = rand.New(rand.NewPCG(random.Seed, 1))
	}
	known, err := before(out.Records, garden.DayOf(simulate.LastYear, 1, 1))
	if err != nil {
		return nil, err
	}
	engine.Upsert(known)
	for _, f := range out.Truth.Flushes {
		if f.Year == simulate.LastYear {
			r.truth[f.Planting] = &Case{Flush: f}
			r.book = append(r.book, f.Planting)
		}
	}
	return r, nil
}

// before leaves out the observations from a day on.
func before(records []garden.Record, day garden.Day) ([]garden.Record, error) {
	var known []garden.Record
	for _, record := range records {
		if record.Ref.Kind == garden.ObservationRecord {
			var o garden.Observation
			if err := garden.Decode(record, &o); err != nil {
				return nil, err
			}
			if seen, err := o.Day(); err != nil || seen >= day {
				continue
			}
		}
		known = append(known, record)
	}
	return known, nil
}

// visit looks at the plantings that were chosen and takes the names that the
// assessment gives.
func (r *round) visit(day garden.Day, chosen []string) error {
	for _, planting := range chosen {
		record, err := r.look(planting, day)
		if err != nil {
			return err
		}
		r.engine.Upsert([]garden.Record{record})
		r.looked[planting] = day
		r.looks++
	}
	for _, f := range r.engine.Assess(day).Findings {
		c := r.truth[f.Planting]
		if c.Haulm == nil && f.Flush != nil && f.Year == simulate.LastYear && naming(bloom.Verdict(f.Verdict)) {
			c.Haulm = &Naming{ofYear(day, simulate.LastYear), f.Verdict}
		}
	}
	return nil
}

// look is what somebody writes down who looks for flower: the full of it, or that
// there is none.
func (r *round) look(planting string, day garden.Day) (garden.Record, error) {
	const inFullFlower = 65 // BBCH (Meier 2001)
	ref, err := garden.ParseRef(fmt.Sprintf("observation/%s-%s", planting, day))
	fields := garden.Fields{"planting": json.RawMessage(`"` + planting + `"`), "seen": json.RawMessage(`"` + day.String() + `T10:00:00Z"`)}
	at, f := ofYear(day, simulate.LastYear), r.truth[planting]
	if f.OpensDay != nil && at >= *f.OpensDay && at <= *f.EndsDay {
		fields["stage"] = json.RawMessage(fmt.Sprint(inFullFlower))
	} else {
		fields["notInFlower"] = json.RawMessage("true")
	}
	return garden.Record{Ref: ref, Fields: fields}, err
}

func (ByWorth) choose(r *round, day garden.Day, looks int) []string {
	var chosen []string
	for _, p := range r.engine.Worth(day).Plantings {
		if p.Gain > 0 {
			chosen = append(chosen, p.Planting)
		}
	}
	return r.filled(chosen, looks)
}

func (w WhileWorth) choose(r *round, day garden.Day, looks int) []string {
	var chosen []string
	for _, p := range r.engine.Worth(day).Plantings {
		if p.Gain >= w.Bits && len(chosen) < looks {
			chosen = append(chosen, p.Planting)
		}
	}
	return chosen
}

func (ByFinding) choose(r *round, day garden.Day, looks int) []string {
	var chosen []string
	for _, f := range r.engine.Assess(day).Findings {
		if f.WorthALook && !slices.Contains(chosen, f.Planting) {
			chosen = append(chosen, f.Planting)
		}
	}
	return r.filled(chosen, looks)
}

func (InTurn) choose(r *round, _ garden.Day, looks int) []string { return r.filled(nil, looks) }

func (AtRandom) choose(r *round, _ garden.Day, looks int) []string {
	var chosen []string
	for _, i := range r.chance.Perm(len(r.book))[:min(looks, len(r.book))] {
		chosen = append(chosen, r.book[i])
	}
	return chosen
}

// filled is the first of those chosen, and what was looked at longest ago.
func (r *round) filled(chosen []string, looks int) []string {
	if len(chosen) < looks {
		rest := slices.DeleteFunc(slices.Clone(r.book), func(p string) bool { return slices.Contains(chosen, p) })
		slices.SortStableFunc(rest, func(a, b string) int { return cmp.Compare(r.looked[a], r.looked[b]) })
		chosen = append(chosen, rest...)
	}
	return chosen[:min(looks, len(chosen))]
}
