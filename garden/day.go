package garden

import (
	"fmt"
	"time"
)

// A Day is a civil date, counted in days from 1 January 1970, so that days
// subtract and compare as numbers. It has no zone: it is the date in the garden.
type Day int32

// DayOf gives the Day of a calendar date; months and days may overflow as in
// time.Date.
func DayOf(year int, month time.Month, day int) Day {
	return Day(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / secondsPerDay)
}

// ParseDay reads "YYYY-MM-DD".
func ParseDay(text string) (Day, error) {
	t, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return 0, problem("invalid_day", "day", text, "a date written YYYY-MM-DD")
	}
	return Day(t.Unix() / secondsPerDay), nil
}

// DayOfInstant reads the civil date of an RFC 3339 instant in its own offset,
// which is the date that the observer's clock showed.
func DayOfInstant(text string) (Day, error) {
	t, err := time.Parse(time.RFC3339Nano, text)
	if err != nil {
		return 0, problem("invalid_instant", "seen", text, "a time written as RFC 3339 with its offset")
	}
	return DayOf(t.Date()), nil
}

// Date gives the calendar date.
func (d Day) Date() (year int, month time.Month, day int) { return d.time().Date() }

// Year gives the calendar year.
func (d Day) Year() int { return d.time().Year() }

// OfYear gives the day of its year, 1 January being 1.
func (d Day) OfYear() int { return d.time().YearDay() }

// String gives "YYYY-MM-DD".
func (d Day) String() string { return d.time().Format(time.DateOnly) }

// MarshalText makes a Day its text in JSON.
func (d Day) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Day) UnmarshalText(text []byte) error {
	parsed, err := ParseDay(string(text))
	if err == nil {
		*d = parsed
	}
	return err
}

func (d Day) time() time.Time { return time.Unix(int64(d)*secondsPerDay, 0).UTC() }

const secondsPerDay = 24 * 60 * 60

// A PartialDate is a date of which only the year, or the year and month, may be
// known, as gardeners remember plantings: "2019", "2019-04", "2019-04-12".
type PartialDate struct {
	First, Last Day // the earliest and the latest day it can be
}

// ParsePartialDate reads "YYYY", "YYYY-MM" or "YYYY-MM-DD".
func ParsePartialDate(text string) (PartialDate, error) {
	for _, layout := range []string{time.DateOnly, "2006-01", "2006"} {
		t, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		year, month, day := t.Date()
		switch layout {
		case time.DateOnly:
			return PartialDate{DayOf(year, month, day), DayOf(year, month, day)}, nil
		case "2006-01":
			return PartialDate{DayOf(year, month, 1), DayOf(year, month+1, 0)}, nil
		default:
			return PartialDate{DayOf(year, 1, 1), DayOf(year, 12, 31)}, nil
		}
	}
	return PartialDate{}, problem("invalid_date", "planted", text, "YYYY, YYYY-MM or YYYY-MM-DD")
}

// Middle is the day halfway through what it can be.
func (p PartialDate) Middle() Day { return p.First + (p.Last-p.First)/2 }

// String writes the date with the precision that it was given.
func (p PartialDate) String() string {
	year, month, _ := p.First.Date()
	switch span := p.Last - p.First; {
	case span == 0:
		return p.First.String()
	case span < 31:
		return fmt.Sprintf("%04d-%02d", year, month)
	default:
		return fmt.Sprintf("%04d", year)
	}
}

// MarshalText makes a PartialDate its text in JSON.
func (p PartialDate) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (p *PartialDate) UnmarshalText(text []byte) error {
	parsed, err := ParsePartialDate(string(text))
	if err == nil {
		*p = parsed
	}
	return err
}

// A MonthDay is a day of any year, as catalogue windows are written: "06-20".
type MonthDay struct {
	Month time.Month
	Day   int
}

// ParseMonthDay reads "MM-DD"; 29 February is allowed and read as 1 March in a
// year without it.
func ParseMonthDay(text string) (MonthDay, error) {
	t, err := time.Parse("2006-01-02", "2000-"+text)
	if err != nil {
		return MonthDay{}, problem("invalid_month_day", "date", text, "a day of the year written MM-DD")
	}
	return MonthDay{t.Month(), t.Day()}, nil
}

// In gives the Day in a year.
func (m MonthDay) In(year int) Day { return DayOf(year, m.Month, m.Day) }

// String gives "MM-DD".
func (m MonthDay) String() string { return fmt.Sprintf("%02d-%02d", m.Month, m.Day) }

// MarshalText makes a MonthDay its text in JSON.
func (m MonthDay) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (m *MonthDay) UnmarshalText(text []byte) error {
	parsed, err := ParseMonthDay(string(text))
	if err == nil {
		*m = parsed
	}
	return err
}
