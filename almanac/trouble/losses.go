package trouble

// losses: of the plants that went in, or that were counted later, at most half are
// left by the last count. Of a colony nobody expects the same number.
func losses(c Case) []Trouble {
	if c.Colony {
		return nil
	}
	most, last := c.Planted, (*Look)(nil)
	for i := range c.Looks {
		if alive := c.Looks[i].Alive; alive != nil {
			last = &c.Looks[i]
			if most == nil || *alive > *most {
				most = alive
			}
		}
	}
	if last == nil || last.Day < c.On-yearDays || *most < leastPlants || float64(*last.Alive) > halved*float64(*most) {
		return nil
	}
	return []Trouble{{Say: "lost", Grave: true, Day: &last.Day, Count: last.Alive, Of: most,
		Check: []string{"roots", "drainage", "slugs", "water"}}}
}
