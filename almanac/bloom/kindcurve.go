package bloom

// A plantYear names what is left out of a fit: one planting's flushes of one
// year. noOne leaves nothing out.
type plantYear struct{ plant, year int }

var noOne = plantYear{plant: -1}

// holds says whether a site is left out.
func (out plantYear) holds(s site) bool { return s.plant == out.plant && s.year == out.year }

// A kindCurve is one kind's log posterior near present values, seen from its
// rows: slope and weight in the rows' values once every planting's habit is
// profiled out (each habit touches its own sites alone, so this costs one pass).
// Buffers are kept from step to step.
type kindCurve struct {
	logL     float64   // of the sites and the habits' prior
	weight   []float64 // of each site
	slope    []float64 // of each site
	pull     []float64 // slope in each habit
	stiff    []float64 // weight of each habit, prior included
	gradient []float64 // slope in each row, habits held
	reduced  []float64 // slope in each row, habits following
	m        []float64 // weight between rows, habits following; row-major
}

func newKindCurve(k *kindBlock) *kindCurve {
	rows, plants := len(k.rows), len(k.plants)
	return &kindCurve{weight: make([]float64, len(k.sites)), slope: make([]float64, len(k.sites)), pull: make([]float64, plants), stiff: make([]float64, plants),
		gradient: make([]float64, rows), reduced: make([]float64, rows), m: make([]float64, rows*rows)}
}

// at reckons the curve with the rows at delta and the plantings at habits.
func (c *kindCurve) at(k *kindBlock, delta, habits []float64, out plantYear) {
	c.logL = 0
	clear(c.gradient)
	clear(c.reduced)
	clear(c.m)
	for plant := range k.plants {
		c.sitesOf(k, plant, delta, habits[plant], out)
		c.profile(k, plant)
	}
	for r, g := range c.gradient {
		c.reduced[r] += g
	}
}

// sitesOf adds one planting's sites to the rows and to its habit.
func (c *kindCurve) sitesOf(k *kindBlock, plant int, delta []float64, habit float64, out plantYear) {
	prior := 1 / (k.habitSD * k.habitSD)
	c.logL -= habit * habit * prior / 2
	c.pull[plant], c.stiff[plant] = -habit*prior, prior
	for i := k.start[plant]; i < k.start[plant+1]; i++ {
		s := &k.sites[i]
		if c.weight[i], c.slope[i] = 0, 0; out.holds(*s) {
			continue
		}
		logL, slope, weight := s.logLikelihood(delta[s.row] + habit)
		c.logL += logL
		c.weight[i], c.slope[i] = weight, slope
		c.pull[plant] += slope
		c.stiff[plant] += weight
		c.gradient[s.row] += slope
	}
	for i := k.start[plant]; i < k.start[plant+1]; i++ {
		row := k.sites[i].row
		c.m[row*len(k.rows)+row] += c.weight[i]
	}
}

// profile takes out what a planting's habit would give way. A planting has at
// most one site in a row.
func (c *kindCurve) profile(k *kindBlock, plant int) {
	n, from, to := len(k.rows), k.start[plant], k.start[plant+1]
	for i := from; i < to; i++ {
		row, share := k.sites[i].row, c.weight[i]/c.stiff[plant]
		c.reduced[row] -= share * c.pull[plant]
		for j := from; j < to; j++ {
			c.m[row*n+k.sites[j].row] -= share * c.weight[j]
		}
	}
}

// follow gives how far each habit moves when the rows move by step.
func (c *kindCurve) follow(k *kindBlock, step, moves []float64) {
	for plant := range k.plants {
		pull := c.pull[plant]
		for i := k.start[plant]; i < k.start[plant+1]; i++ {
			pull -= c.weight[i] * step[k.sites[i].row]
		}
		moves[plant] = pull / c.stiff[plant]
	}
}
