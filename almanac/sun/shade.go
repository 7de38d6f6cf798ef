package sun

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"haulm/almanac/heat"
	"haulm/garden"
)

// A ShadeQuestion is what the verb "shade" takes: the garden (its place, bearing
// and normals are read), what casts shade in it, a point of the plan in metres at
// a height over it (0 if left out), and a day or a month, "2026-06".
type ShadeQuestion struct {
	Garden     garden.Garden `json:"garden"`
	Structures []ShadeCaster `json:"structures"`
	Point      garden.Point  `json:"point"`
	HeightM    float64       `json:"heightM,omitempty"`
	Day        *garden.Day   `json:"day,omitempty"`
	Month      *ShadeMonth   `json:"month,omitempty"`
}

// A ShadeCaster is a structure's record, with the days of the year on which it
// comes into leaf and stands bare where they are known.
type ShadeCaster struct {
	garden.Structure
	LeafOut  *garden.MonthDay `json:"leafOut,omitempty"`
	LeafFall *garden.MonthDay `json:"leafFall,omitempty"`
}

// A ShadeMonth is a month of a year, "2026-06".
type ShadeMonth struct {
	Year  int
	Month time.Month
}

// UnmarshalText reads "YYYY-MM".
func (m *ShadeMonth) UnmarshalText(text []byte) error {
	moment, err := time.Parse("2006-01", string(text))
	if err != nil {
		return fmt.Errorf("month %q is not a month written YYYY-MM", text)
	}
	m.Year, m.Month = moment.Year(), moment.Month()
	return nil
}

// MarshalText writes what UnmarshalText reads.
func (m ShadeMonth) MarshalText() ([]byte, error) {
	return fmt.Appendf(nil, "%04d-%02d", m.Year, m.Month), nil
}

// A ShadeAnswer is what the verb "shade" gives, in hours of direct sun a day to
// 0.01 under a clear sky: those of the day, or the mean of the month's days,
// before and after solar noon; the means of the twelve months of that year and of
// its growing season, and the season's class.
type ShadeAnswer struct {
	Hours         float64     `json:"hours"`
	Before        float64     `json:"before"`
	After         float64     `json:"after"`
	Monthly       []float64   `json:"monthly"`
	GrowingSeason SeasonOfSun `json:"growingSeason"`
}

// A SeasonOfSun is the mean over a growing season, its parts, and its class.
type SeasonOfSun struct {
	Season
	Hours  float64 `json:"hours"`
	Before float64 `json:"before"`
	After  float64 `json:"after"`
	Class  Class   `json:"class"`
}

// ShadeAt answers the verb "shade". It fails, naming the field, on a garden
// without a place, a structure that makes no sense, a point off the plan, and
// unless one of day and month is given, in the years firstYear to lastYear.
func ShadeAt(q ShadeQuestion) (ShadeAnswer, error) {
	year, err := q.check()
	if err != nil {
		return ShadeAnswer{}, err
	}
	site, err := q.site()
	if err != nil {
		return ShadeAnswer{}, err
	}
	point := site.Point(q.Point, q.HeightM)
	return q.answer(point, year, SeasonAt(site.here.Lat)), nil
}

func (q ShadeQuestion) answer(point *Point, year int, season Season) ShadeAnswer {
	months, growing := point.Year(year, season)
	asked := Hours{}
	if q.Day != nil {
		asked = point.Day(*q.Day)
	} else {
		asked = months[q.Month.Month-time.January]
	}
	answer := ShadeAnswer{
		Hours: asked.Total, Before: asked.Before, After: asked.After,
		GrowingSeason: SeasonOfSun{season, growing.Total, growing.Before, growing.After, ClassOf(growing.Total)},
	}
	for _, month := range months {
		answer.Monthly = append(answer.Monthly, month.Total)
	}
	return answer
}

// check looks at everything but the structures, and gives the year that is asked
// about.
func (q ShadeQuestion) check() (year int, err error) {
	switch {
	case q.Garden.Lat == nil:
		return 0, errors.New(`field "garden.lat" is missing: shade needs to know where the garden is`)
	case q.Garden.Lon == nil:
		return 0, errors.New(`field "garden.lon" is missing: shade needs to know where the garden is`)
	case q.Day != nil && q.Month != nil:
		return 0, errors.New("day and month are both given: give one of them")
	case q.Day != nil:
		year, err = q.Day.Year(), checkYear("day", q.Day.Year())
	case q.Month != nil:
		year, err = q.Month.Year, checkYear("month", q.Month.Year)
	default:
		return 0, errors.New(`field "day" is missing: give a day, or a month such as 2026-06`)
	}
	if err != nil {
		return 0, err
	}
	if err := q.checkGarden(); err != nil {
		return 0, err
	}
	return year, q.checkPoint()
}

func (q ShadeQuestion) place() Place {
	return Place{*q.Garden.Lat, *q.Garden.Lon, q.Garden.PlanBearingDeg}
}

func (q ShadeQuestion) checkGarden() error {
	if err := q.place().check(); err != nil {
		return fmt.Errorf("garden.%w", err)
	}
	if q.Garden.Normals != nil {
		if _, err := heat.NewNormals(q.Garden.Normals); err != nil {
			return fmt.Errorf("garden.%w", err)
		}
	}
	return nil
}

func (q ShadeQuestion) checkPoint() error {
	for i, metres := range q.Point {
		if !(math.Abs(metres) <= farthestM) {
			return fmt.Errorf("point[%d] %g is outside -%d to %d", i, metres, farthestM, farthestM)
		}
	}
	if !(math.Abs(q.HeightM) <= tallestM) {
		return fmt.Errorf("heightM %g is outside -%d to %d", q.HeightM, tallestM, tallestM)
	}
	return nil
}

// forms are what casts shade; "" is not said, and lets no sun through.
func forms() []string {
	return []string{"", "wall", "fence", "hedge", "tree", "building", "arch", "pergola"}
}

func (q ShadeQuestion) site() (*Site, error) {
	out, fall := LeafDates(*q.Garden.Lat, q.Garden.Normals)
	var prisms []Prism
	for i, s := range q.Structures {
		if s.HeightM == nil {
			return nil, fmt.Errorf("structures[%d]: field \"heightM\" is missing: without a height nothing casts shade", i)
		}
		if !slices.Contains(forms(), s.Form) {
			return nil, fmt.Errorf("structures[%d]: form %q is not known: give wall, fence, hedge, tree, building, arch or pergola, or leave it out", i, s.Form)
		}
		prism := prismOf(s.Structure)
		prism.LeafOut, prism.LeafFall = &out, &fall
		if s.LeafOut != nil {
			prism.LeafOut = s.LeafOut
		}
		if s.LeafFall != nil {
			prism.LeafFall = s.LeafFall
		}
		prisms = append(prisms, prism)
	}
	return NewSite(q.place(), prisms)
}
