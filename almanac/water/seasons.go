package water

import "haulm/garden"

// yearDays is how long the seasons' circle is; a leap day moves nothing that
// matters here.
const yearDays = 365

// A seasons is where a garden's year stands: half a year turned in the southern
// hemisphere, and later or earlier than at the catalogue's reference site.
type seasons struct {
	southern             bool
	late                 float64 // days
	winterFrom, winterTo int     // days of the northern year
}

func newSeasons(southern bool, late float64) seasons {
	return seasons{southern, late, dayOfYear(winterStarts()), dayOfYear(winterEnds())}
}

// northern is the day that a day would be in the northern hemisphere, half a
// year on in the southern.
func (s seasons) northern(day garden.Day) garden.Day {
	if s.southern {
		return day + yearDays/2
	}
	return day
}

// ofYear is the day of the year that a day would be in the northern hemisphere.
func (s seasons) ofYear(day garden.Day) int { return s.northern(day).OfYear() }

// dayOfYear is that of a date in a year without a leap day.
func dayOfYear(date garden.MonthDay) int { return date.In(2001).OfYear() }

// winter tells whether a day of the northern year lies in the months when nothing
// is asked for. Their dates go by the sun, not by how late the garden is.
func (s seasons) winter(ofYear int) bool { return ofYear >= s.winterFrom || ofYear < s.winterTo }

// growingShare is the part of the year that is not winter.
func growingShare() float64 {
	return float64(dayOfYear(winterStarts())-dayOfYear(winterEnds())) / yearDays
}

// firstSummer is the year, by the northern calendar, of the first summer after
// planting.
func (s seasons) firstSummer(planted garden.Day) int {
	day := s.northern(planted)
	if day.OfYear() < dayOfYear(midsummer()) {
		return day.Year()
	}
	return day.Year() + 1
}

// lastOfSummers is the last day of so many summers from the first, by the northern
// calendar.
func (s seasons) lastOfSummers(planted garden.Day, summers int) garden.Day {
	return winterStarts().In(s.firstSummer(planted)+summers-1) - 1
}
