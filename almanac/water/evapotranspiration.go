package water

import (
	"fmt"

	"haulm/almanac/stats"
	"haulm/garden"
)

// A Method is a way to reckon reference evapotranspiration.
type Method string

// The methods.
const (
	PenmanMonteith Method = "penman-monteith" // Eq. 6, from temperature, humidity, wind and sun
	Hargreaves     Method = "hargreaves"      // Eq. 52, from temperature and latitude
)

// An AirInput is what the verb "evapotranspiration" takes.
type AirInput struct {
	Method    Method   `json:"method"`
	Lat       float64  `json:"lat"`       // degrees, north positive
	AltitudeM *float64 `json:"altitudeM"` // wanted for penman-monteith
	Days      []AirDay `json:"days"`      // in any order, each day once
}

// An AirDay is one day's air. Temperatures may be null where they were not
// measured. The rest is for penman-monteith: wind at 2 m; the sun as radiation in
// MJ m⁻² or as hours of sunshine, else it is guessed from the range of temperature
// (Eq. 50); the vapour in kPa, or the least and most, the most, or the mean of
// relative humidity in %, else it is guessed from the minimum (Eq. 48).
type AirDay struct {
	Day             garden.Day `json:"day"`
	MinC            *float64   `json:"minC"`
	MaxC            *float64   `json:"maxC"`
	WindMs          *float64   `json:"windMs"`
	SolarMJ         *float64   `json:"solarMJ"`
	SunHours        *float64   `json:"sunHours"`
	VapourKPa       *float64   `json:"vapourKPa"`
	HumidityMinPct  *float64   `json:"humidityMinPct"`
	HumidityMaxPct  *float64   `json:"humidityMaxPct"`
	HumidityMeanPct *float64   `json:"humidityMeanPct"`
}

// An AirOutput is what the verb "evapotranspiration" gives: for each day, in the
// order given, its reference evapotranspiration in mm with 7 significant figures,
// null where temperatures are missing; the days whose temperatures were filled
// from their neighbours, and those that are missing; and what was guessed,
// "solar" or "vapour", on any day.
type AirOutput struct {
	ET0Mm   []*float64   `json:"et0Mm"`
	Filled  []garden.Day `json:"filled"`
	Missing []garden.Day `json:"missing"`
	Guessed []string     `json:"guessed"`
}

// Evapotranspiration answers the verb "evapotranspiration". It fails, naming the
// field or the day, on an unknown method, a value out of its bounds, a day given
// twice, a minimum above its maximum, and what penman-monteith lacks.
func Evapotranspiration(in AirInput) (AirOutput, error) {
	if err := in.check(); err != nil {
		return AirOutput{}, err
	}
	temperatures, err := in.temperatures()
	if err != nil {
		return AirOutput{}, err
	}
	out := AirOutput{ET0Mm: make([]*float64, len(in.Days)), Filled: temperatures.filled, Missing: temperatures.missing, Guessed: in.guessed()}
	for i, day := range in.Days {
		if t, known := temperatures.on(day.Day); known {
			et0 := stats.Round7(in.et0(day, t))
			out.ET0Mm[i] = &et0
		}
	}
	return out, nil
}

func (in *AirInput) et0(day AirDay, t [2]float64) float64 {
	sun := sunOn(in.Lat, day.Day)
	if in.Method == Hargreaves {
		return hargreaves(t[0], t[1], sun.extraMJ)
	}
	altitude := *in.AltitudeM
	vapour := vapourKPa(t[0], t[1], day.HumidityMinPct, day.HumidityMaxPct, day.HumidityMeanPct)
	if day.VapourKPa != nil {
		vapour = *day.VapourKPa
	}
	solar := sun.solarFromRange(t[0], t[1], altitude)
	switch {
	case day.SolarMJ != nil:
		solar = *day.SolarMJ
	case day.SunHours != nil:
		solar = sun.solarFromHours(*day.SunHours)
	}
	return penmanMonteith(t[0], t[1], *day.WindMs, vapour, sun.net(solar, t[0], t[1], vapour, altitude), altitude)
}

// guessed names what Penman–Monteith had to guess on any day.
func (in *AirInput) guessed() []string {
	solar, vapour := false, false
	for _, d := range in.Days {
		solar = solar || d.SolarMJ == nil && d.SunHours == nil
		vapour = vapour || d.VapourKPa == nil && d.HumidityMaxPct == nil && d.HumidityMeanPct == nil
	}
	names := []string{}
	if in.Method == PenmanMonteith && solar {
		names = append(names, "solar")
	}
	if in.Method == PenmanMonteith && vapour {
		names = append(names, "vapour")
	}
	return names
}

func (in *AirInput) temperatures() (series, error) {
	list := make([]reading, len(in.Days))
	for i, d := range in.Days {
		list[i] = reading{day: d.Day}
		if d.MinC != nil && d.MaxC != nil {
			list[i].values, list[i].known = [2]float64{*d.MinC, *d.MaxC}, true
		}
	}
	return newSeries(list)
}

func (in *AirInput) check() error {
	switch in.Method {
	case PenmanMonteith, Hargreaves:
	default:
		return fmt.Errorf("method %q is not known: give %s or %s", in.Method, PenmanMonteith, Hargreaves)
	}
	if err := checkPlace(in.Lat, in.AltitudeM); err != nil {
		return err
	}
	if in.Method == PenmanMonteith && in.AltitudeM == nil {
		return fmt.Errorf("altitudeM is missing: %s needs it, in metres", PenmanMonteith)
	}
	for _, day := range in.Days {
		if err := day.check(in.Method); err != nil {
			return err
		}
	}
	return nil
}

func (d *AirDay) check(method Method) error {
	if err := checkTemperatures(d.Day, d.MinC, d.MaxC); err != nil {
		return err
	}
	err := checkEach(d.Day, []bounded{
		{"windMs", d.WindMs, 0, strongestMs}, {"solarMJ", d.SolarMJ, 0, mostSolarMJ}, {"sunHours", d.SunHours, 0, 24},
		{"vapourKPa", d.VapourKPa, 0, mostVapourKPa}, {"humidityMinPct", d.HumidityMinPct, 0, 100},
		{"humidityMaxPct", d.HumidityMaxPct, 0, 100}, {"humidityMeanPct", d.HumidityMeanPct, 0, 100},
	})
	if err != nil {
		return err
	}
	if method == PenmanMonteith && d.WindMs == nil {
		return fmt.Errorf("windMs is missing on %s: give the wind at 2 m, or %d m/s where nobody knows it (FAO-56 chapter 3)", d.Day, usualWindMs)
	}
	if d.HumidityMinPct != nil && d.HumidityMaxPct != nil && *d.HumidityMinPct > *d.HumidityMaxPct {
		return fmt.Errorf("humidityMinPct %v is above humidityMaxPct %v on %s", *d.HumidityMinPct, *d.HumidityMaxPct, d.Day)
	}
	if d.HumidityMinPct != nil && d.HumidityMaxPct == nil {
		return fmt.Errorf("humidityMaxPct is missing on %s beside humidityMinPct", d.Day)
	}
	return nil
}
