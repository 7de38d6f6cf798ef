package sun

import (
	"fmt"
	"math"
)

func checkPlace(lat, lon float64) error {
	if !(math.Abs(lat) <= 90) {
		return fmt.Errorf("lat %g is outside -90 to 90", lat)
	}
	if !(math.Abs(lon) <= 180) {
		return fmt.Errorf("lon %g is outside -180 to 180", lon)
	}
	return nil
}

func checkYear(field string, year int) error {
	if year < firstYear || year > lastYear {
		return fmt.Errorf("%s is in %d: the sun is reckoned for the years %d to %d", field, year, firstYear, lastYear)
	}
	return nil
}
