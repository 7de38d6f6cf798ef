package water

// What may be taken for granted, as Output.Assumed names it, in this order.
const (
	AssumedIrrigated  = "irrigated"   // the bed is watered, so nothing is reckoned
	AssumedSoil       = "soil"        // its texture is not known: loam
	AssumedForm       = "form"        // how it came is not known: in a pot
	AssumedPotSize    = "pot-size"    // the litres of its pot are not known
	AssumedPlanted    = "planted"     // the day of planting is known only roughly: the middle
	AssumedWateredIn  = "watered-in"  // it was watered in on the day of planting
	AssumedAmount     = "amount"      // a watering without litres soaked the root zone
	AssumedMulchDepth = "mulch-depth" // a mulch without depth was laid at the usual one
	AssumedHargreaves = "temperature" // the air's demand comes from temperatures and latitude alone
	AssumedSomeBetter = "some-sun"    // likewise on those days without sunshine and wind
	AssumedSunAndWind = "sun-wind"    // it comes from sunshine and wind, humidity guessed
	AssumedAltitude   = "altitude"    // the garden's altitude is not known: 100 m
)

// weatherAssumptions names what the demand of the air rests on, by the days
// reckoned with sun and wind and without.
func weatherAssumptions(better, plain int, noAltitude bool) []string {
	switch {
	case better == 0 && plain == 0:
		return nil
	case better == 0:
		return []string{AssumedHargreaves}
	}
	list := []string{AssumedSunAndWind}
	if plain > 0 {
		list[0] = AssumedSomeBetter
	}
	if noAltitude {
		list = append(list, AssumedAltitude)
	}
	return list
}

// assumptions names what a planting's answer rests on, without the weather's.
func (p *plan) assumptions() []string {
	list := []string{}
	add := func(yes bool, name string) {
		if yes {
			list = append(list, name)
		}
	}
	in := p.plant
	add(in.Soil == "" && !in.Container, AssumedSoil)
	add(in.Form == "" && !in.Container && in.Planted != nil, AssumedForm)
	add(in.PotL == nil && (in.Container || potted(in.Form) && in.Planted != nil), AssumedPotSize)
	add(in.Planted != nil && in.Planted.First != in.Planted.Last, AssumedPlanted)
	add(p.wateredIn, AssumedWateredIn)
	add(p.unsaidAmount, AssumedAmount)
	add(p.unsaidMulch, AssumedMulchDepth)
	return list
}
