package bloom

import "slices"

// A cavity is what one part of the fit does not say itself about the rows of a
// kind: normals on the rows, on what season and garden's difference come to
// there, and on the season alone, found by taking the part's own weight out of
// the fit again.
type cavity struct {
	rows, together, season            square // covariances, each with the rows
	rowMean, togetherMean, seasonMean []float64
	seasonVariance                    []float64 // in the whole fit
}

// cavityOf takes one kind out: what all other kinds and the prior say. The
// kind's shifts, which nobody else knows, come with their prior.
func (f *fit) cavityOf(kind int) *cavity {
	k := f.kinds[kind]
	together, season := f.rowCovariance(k)
	fitted := &cavity{rows: together, together: together, season: season}
	fitted.togetherMean, fitted.seasonMean = f.rowMeans(k)
	fitted.rowMean = fitted.togetherMean
	fitted.seasonVariance = f.seasonVariances(k)
	c := fitted.without(square{len(k.rows), f.cuts[kind].weight}, f.curves[kind].gradient)
	c.rows = addShifts(k, c.together)
	return c
}

// rowMeans are the fitted season and garden's difference together at a kind's
// rows, and the season alone.
func (f *fit) rowMeans(k *kindBlock) (together, season []float64) {
	for i := range k.rows {
		together = append(together, f.rowValue(&k.rows[i]))
		season = append(season, f.seasonAt(&k.rows[i]))
	}
	return together, season
}

// without takes a weight M and a slope G on the rows out: with T the covariance
// before, T(I−MT)⁻¹ is that after, and means are lower by that times G.
func (c *cavity) without(weight square, slope []float64) *cavity {
	keep := weight.times(c.rows)
	for i := range keep.a {
		keep.a[i] = -keep.a[i]
	}
	keep.addIdentity()
	out := c.times(keep.inverse())
	out.rowMean = movedBy(c.rowMean, out.rows.timesVector(slope), -1)
	out.togetherMean = movedBy(c.togetherMean, out.together.timesVector(slope), -1)
	out.seasonMean = movedBy(c.seasonMean, out.season.timesVector(slope), -1)
	return out
}

// times multiplies the covariances by a matrix.
func (c *cavity) times(by square) *cavity {
	return &cavity{rows: c.rows.times(by), together: c.together.times(by), season: c.season.times(by), seasonVariance: c.seasonVariance}
}

func movedBy(from, by []float64, sign float64) []float64 {
	to := make([]float64, len(from))
	for i := range to {
		to[i] = from[i] + sign*by[i]
	}
	return to
}

// fittedRows is what the whole fit says of a kind's rows, the kind's own looks
// included: its cavity with the kind's weight put in again, K(I+MK)⁻¹, about the
// fitted values.
func (f *fit) fittedRows(kind int) *cavity {
	c := f.cavityOf(kind)
	fitted := c.times(c.stiffness(f.curves[kind].m).inverse())
	fitted.rowMean = f.deltas[kind]
	fitted.togetherMean, fitted.seasonMean = f.rowMeans(f.kinds[kind])
	return fitted
}

// stiffness is I + MK, with K the covariance of the rows.
func (c *cavity) stiffness(m []float64) square {
	stiff := square{c.rows.n, m}.times(c.rows)
	stiff.addIdentity()
	return stiff
}

// rowCovariance is the fitted covariance of season and garden's difference
// between a kind's rows, and of the season alone with the two.
func (f *fit) rowCovariance(k *kindBlock) (together, season square) {
	n := len(k.rows)
	together, season = newSquare(n), newSquare(n)
	for i := range k.rows {
		for j := range k.rows {
			together.a[i*n+j], season.a[i*n+j] = f.covariance(&k.rows[i], &k.rows[j])
		}
	}
	return together, season
}

// seasonVariances are those of the season alone at a kind's rows.
func (f *fit) seasonVariances(k *kindBlock) []float64 {
	variances := make([]float64, len(k.rows))
	for i := range k.rows {
		for _, a := range k.rows[i].terms {
			for _, b := range k.rows[i].terms {
				if a.at != theGarden && b.at != theGarden {
					variances[i] += a.weight * b.weight * f.spread.At(a.at, b.at)
				}
			}
		}
	}
	return variances
}

// covariance is that of season and garden together at a with the same at b, and
// of the season alone at a with the two at b.
func (f *fit) covariance(a, b *row) (together, season float64) {
	for _, ta := range a.terms {
		part := 0.0
		for _, tb := range b.terms {
			part += ta.weight * tb.weight * f.spread.At(ta.at, tb.at)
		}
		if together += part; ta.at != theGarden {
			season += part
		}
	}
	return together, season
}

func addShifts(k *kindBlock, rows square) square {
	with := square{rows.n, slices.Clone(rows.a)}
	for i, r := range k.rows {
		for j, s := range k.rows {
			if r.window == s.window {
				with.a[i*rows.n+j] += k.windowSD[r.window] * k.windowSD[r.window]
			}
		}
	}
	return with
}
