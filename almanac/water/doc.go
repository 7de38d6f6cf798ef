// Package water reckons how much water the air draws from a garden and whether a
// planting has run out of it. It follows Allen, Pereira, Raes & Smith (1998), Crop
// evapotranspiration, FAO Irrigation and Drainage Paper 56, whose equations are
// cited by number as "Eq. 52" and whose tables as "Table 19".
//
// Three questions are answered. Evapotranspiration (evapotranspiration.go) is the
// reference evapotranspiration of each day, by Penman–Monteith (penman.go) or by
// Hargreaves, over the sun's radiation (radiation.go). SoilWater (balance.go) is
// the paper's daily balance of a root zone in a soil (soil.go). Reckon (reckon.go)
// is that balance for one planting, day by day (state.go): the root ball it was
// planted with and how far roots have grown out of it (rootzone.go), how much leaf
// it has and when (leaves.go), rain, mulch, what was given, and how many litres to
// give now (asking.go). Weather with gaps is weather.go: a short gap is filled and
// said, and across a long one both the wettest and the driest possible state are
// carried, so that an answer is given when the gap no longer matters and not before.
//
// Depths are millimetres, stores of single plants litres (one litre on one square
// metre is one millimetre), temperatures °C. Numbers that are choices of ours
// stand in constants.go with their reasons.
package water
