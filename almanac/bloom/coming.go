package bloom

// Coming gives the next flush of a planting that by its looks has not come: this
// season's, until the middle of when it should be over, or else the next that is
// listed; for a plant that was seen in flower, or up, this season that is the one
// after. Of a model of coming up it tells until when nothing need stand above a
// plant that sleeps. It is false where nothing is to be expected.
func (m *Model) Coming(plant string) (Expectation, bool) {
	for _, i := range m.of(plant) {
		f := &m.flushes[i]
		if !f.expected() || f.By != nil || f.Standing.Kind == Closed {
			continue
		}
		if e := m.expectation(i, m.forecast(i)); f.ofYear(m.on) <= e.Close.P50 {
			return e, true
		}
	}
	return Expectation{}, false
}
