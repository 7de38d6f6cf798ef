package demo

import (
	"time"

	"haulm/garden"
)

// A round is one walk through the beds by one person.
type round struct {
	day  garden.Day
	by   string
	full bool // nearly every plant is looked at, young ones are measured
	at   int  // minutes after midnight
}

// When people go round. Most do so at weekends, now and then on a light evening
// in midweek, and seldom in winter; nobody does in heavy rain.
const (
	weekendShare, eveningShare, winterShare = 0.86, 0.3, 0.4
	heavyRainMm                             = 12
	weekendMinute, eveningMinute            = 9*60 + 20, 18 * 60
)

// walk gives the rounds from the first day of the series to today, in order.
func (g *grower) walk() []round {
	var rounds []round
	for _, s := range g.sky {
		if s.day > Today() || g.isAway(s.day) {
			continue
		}
		by, certain := g.certain(s.day)
		full := certain || g.firstOfMonth(s.day)
		if full || s.rainMm <= heavyRainMm && goes(s.day) {
			rounds = append(rounds, round{s.day, by, full, minute(s.day)})
		}
	}
	return rounds
}

// certain says whether the story has a round on a day, and who goes if anybody
// does.
func (g *grower) certain(day garden.Day) (by string, certain bool) {
	for _, r := range g.Rounds {
		if r.Day == day {
			return r.By, true
		}
	}
	drawn := share("who", day)
	for _, person := range g.People {
		if by = person.Name; drawn < person.Share {
			break
		}
		drawn -= person.Share
	}
	return by, false
}

// goes draws whether anybody goes round on a day.
func goes(day garden.Day) bool {
	month := monthOf(day)
	drawn := share("goes", day)
	switch weekday(day) {
	case weekendDay(day):
		return growing(month) && drawn < weekendShare || drawn < winterShare
	case time.Wednesday:
		return month >= time.April && month <= time.August && drawn < eveningShare
	}
	return false
}

// weekendDay draws the day of a weekend on which people have time.
func weekendDay(day garden.Day) time.Weekday {
	week := (day + 2) / 7 // Saturday and Sunday share a number: day 0 was a Thursday
	if share("weekend", week) < 0.6 {
		return time.Saturday
	}
	return time.Sunday
}

// firstOfMonth says whether a day is on the month's first weekend, in the growing
// season: they look at everything then.
func (g *grower) firstOfMonth(day garden.Day) bool {
	_, month, date := day.Date()
	return growing(month) && date <= 7 && weekday(day) == weekendDay(day)
}

func growing(month time.Month) bool { return month >= time.March && month <= time.October }

func (g *grower) isAway(day garden.Day) bool {
	for _, away := range g.Away {
		if day >= away.From && day <= away.To {
			return true
		}
	}
	return false
}

func minute(day garden.Day) int {
	if weekday(day) == time.Wednesday {
		return eveningMinute + int(30*share("minute", day))
	}
	return weekendMinute + int(120*share("minute", day))
}

func weekday(day garden.Day) time.Weekday {
	return time.Weekday((int(day) + int(time.Thursday)) % 7)
}

func monthOf(day garden.Day) time.Month {
	_, month, _ := day.Date()
	return month
}
