package garden

import (
	"encoding/json"
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

func catalogueKinds(t *testing.T) []Kind {
	t.Helper()
	kinds, version, err := Catalogue()
	if err != nil {
		t.Fatal(err)
	}
	if version < 1 || len(kinds) < 60 {
		t.Fatalf("version %d with %d kinds, want version 1 or more with 60 kinds or more", version, len(kinds))
	}
	return kinds
}

// eachKind runs one check for every kind of the catalogue, under its id.
func eachKind(t *testing.T, check func(*testing.T, Kind)) {
	for _, kind := range catalogueKinds(t) {
		t.Run(kind.ID, func(t *testing.T) { check(t, kind) })
	}
}

func TestCatalogueIsSortedAndEachCallHasItsOwn(t *testing.T) {
	kinds := catalogueKinds(t)
	if !slices.IsSortedFunc(kinds, func(a, b Kind) int { return strings.Compare(a.ID, b.ID) }) {
		t.Error("kinds are not sorted by id")
	}
	kinds[0].Common[0] = "scribbled over"
	if again := catalogueKinds(t); again[0].Common[0] == "scribbled over" {
		t.Error("a caller can change what the next one gets")
	}
}

func TestCatalogueSaysEveryWord(t *testing.T) {
	eachKind(t, func(t *testing.T, kind Kind) {
		for field, word := range map[string]string{
			"name": kind.Name, "habit": kind.Habit, "lifeCycle": kind.LifeCycle, "foliage": kind.Foliage,
			"spreadHabit": kind.SpreadHabit, "pace": kind.Pace, "moisture": kind.Moisture, "flowersOn": kind.FlowersOn,
			"pruneGroup": kind.PruneGroup, "cue": kind.Cue, "scent": kind.Scent, "pollinators": kind.Pollinators,
		} {
			if word == "" {
				t.Errorf("%s is not said", field)
			}
		}
		for field, n := range map[string]int{"common": len(kind.Common), "interest": len(kind.Interest), "colours": len(kind.Colours), "care": len(kind.Care)} {
			if n == 0 {
				t.Errorf("%s is empty", field)
			}
		}
		if flowers := kind.Habit != "fern"; flowers != (len(kind.Bloom) > 0) {
			t.Errorf("%d bloom windows for a %s", len(kind.Bloom), kind.Habit)
		}
	})
}

// Bounds are common practice for borders in temperate gardens; what lies outside
// them is a slip of the pen, such as metres for centimetres.
func TestCatalogueNumbersAreSane(t *testing.T) {
	within := func(t *testing.T, field string, r Range, lo, hi float64) {
		t.Helper()
		if r[0] >= r[1] || r[0] < lo || r[1] > hi {
			t.Errorf("%s %v is not a range within %g to %g", field, r, lo, hi)
		}
	}
	tallestCm := map[string]float64{"bulb": 200, "annual": 300, "biennial": 250, "perennial": 250, "grass": 300, "fern": 200, "shrub": 600, "climber": 2000, "tree": 2000}
	eachKind(t, func(t *testing.T, kind Kind) {
		within(t, "heightCm", kind.HeightCm, 5, tallestCm[kind.Habit])
		within(t, "spreadCm", kind.SpreadCm, 3, 1500)
		within(t, "sunHours", kind.SunHours, 0, 16)
		within(t, "ph", kind.PH, 4, 9)
		if kind.YearsToSize < 1 || kind.YearsToSize > 30 || kind.YearsToFlower < 0 || kind.YearsToFlower > kind.YearsToSize {
			t.Errorf("flowers after %g years and is full-grown after %g", kind.YearsToFlower, kind.YearsToSize)
		}
		if kind.MinWinterC < -40 || kind.MinWinterC > 5 {
			t.Errorf("minWinterC %g", kind.MinWinterC)
		}
		if (kind.Habit == "annual") != (kind.LifeCycle == "annual") || (kind.Habit == "biennial") != (kind.LifeCycle == "biennial") {
			t.Errorf("habit %s with life cycle %s", kind.Habit, kind.LifeCycle)
		}
		woody := kind.Habit == "shrub" || kind.Habit == "tree"
		if woody && kind.Foliage == "dies-down" || !woody && kind.Habit != "climber" && kind.Foliage == "deciduous" {
			t.Errorf("a %s with foliage %s", kind.Habit, kind.Foliage)
		}
	})
}

// A window's length in days, through New Year where it runs over it.
func windowDays(from, to MonthDay) int {
	const ordinaryYear = 2025
	days := int(to.In(ordinaryYear) - from.In(ordinaryYear))
	if days < 0 {
		days += 365
	}
	return days
}

func TestCatalogueWindowsAreSane(t *testing.T) {
	eachKind(t, func(t *testing.T, kind Kind) {
		bare := kind.Foliage == "deciduous" || kind.Foliage == "dies-down" || kind.Foliage == "winter-green"
		if bare != (kind.Emerges != nil) {
			t.Errorf("%s kind with emerges %v", kind.Foliage, kind.Emerges)
		}
		if kind.Emerges != nil {
			between(t, "emerges", windowDays(kind.Emerges.From, kind.Emerges.To), 10, 70)
		}
		total := 0
		for i, flush := range kind.Bloom {
			days := windowDays(flush.From, flush.To)
			between(t, "bloom", days, 10, 160)
			total += days
			if i == 0 && flush.Needs != "" {
				t.Errorf("the first flush needs %s", flush.Needs)
			}
			if i > 0 {
				between(t, "days between flushes", windowDays(kind.Bloom[i-1].To, flush.From), 10, 100)
			}
		}
		between(t, "days of bloom in all", total, 0, 180)
		for _, interest := range kind.Interest {
			between(t, interest.What, windowDays(interest.From, interest.To), 10, 365)
		}
	})
}

func between(t *testing.T, what string, days, lo, hi int) {
	t.Helper()
	if days < lo || days > hi {
		t.Errorf("%s: %d days, want %d to %d", what, days, lo, hi)
	}
}

// The year's record draws a flush in the colours of the interest that shares its
// window, so each has the other.
func TestCatalogueFlushesHaveTheirColours(t *testing.T) {
	eachKind(t, func(t *testing.T, kind Kind) {
		var flushes, flowers [][2]MonthDay
		for _, flush := range kind.Bloom {
			flushes = append(flushes, [2]MonthDay{flush.From, flush.To})
		}
		for _, interest := range kind.Interest {
			if interest.What == "flower" {
				flowers = append(flowers, [2]MonthDay{interest.From, interest.To})
			}
		}
		if !slices.Equal(flushes, flowers) {
			t.Errorf("bloom %v, but flower interest %v", flushes, flowers)
		}
	})
}

func TestCatalogueColoursAreLowerCaseHex(t *testing.T) {
	hex := regexp.MustCompile(`^#[0-9a-f]{6}$`)
	eachKind(t, func(t *testing.T, kind Kind) {
		all := slices.Clone(kind.Colours)
		for _, interest := range kind.Interest {
			if len(interest.Colours) == 0 {
				t.Errorf("%s has no colour", interest.What)
			}
			all = append(all, interest.Colours...)
		}
		for _, colour := range all {
			if !hex.MatchString(colour) {
				t.Errorf("colour %q", colour)
			}
		}
	})
}

func TestCatalogueCareCanBeDone(t *testing.T) {
	known := []string{"prune", "cut-back", "deadhead", "feed", "mulch", "stake", "tie-in", "divide", "lift", "protect", "water", "plant", "sow", "remove-leaves", "thin", "watch"}
	eachKind(t, func(t *testing.T, kind Kind) {
		done := map[string]bool{}
		for _, care := range kind.Care {
			hasWindow := care.When.From != nil && care.When.To != nil
			if hasWindow == (care.When.After != "") || !hasWindow && (care.When.From != nil || care.When.To != nil) {
				t.Errorf("%s needs either from and to, or after", care.What)
			}
			if !slices.Contains(known, care.What) || !isSentence(care.Why) {
				t.Errorf("care %q because %q", care.What, care.Why)
			}
			if care.When.After == "first-flush" && len(kind.Bloom) < 2 {
				t.Errorf("%s after the first flush of one", care.What)
			}
			done[care.What+" "+care.When.After] = true
		}
		for _, flush := range kind.Bloom {
			if flush.Needs != "" && !done[flush.Needs+" first-flush"] {
				t.Errorf("a flush needs %s, and no care after the first flush asks for it", flush.Needs)
			}
		}
	})
}

// Flowers on last year's wood are lost to a hard cut in late winter, and those on
// this year's are not waited for by cutting after flower (common practice).
func TestCataloguePruningKeepsTheFlowers(t *testing.T) {
	mustFlowerOn := map[string][]string{
		"late-winter-hard": {"this-year"}, "clematis-3": {"this-year"}, "rose-repeating": {"this-year"},
		"after-flower": {"last-year", "old"}, "rose-once": {"last-year"}, "clematis-1": {"last-year"}, "clematis-2": {"last-year"}, "wisteria": {"old"},
	}
	const soonAfterDays = 120
	eachKind(t, func(t *testing.T, kind Kind) {
		if wood, bound := mustFlowerOn[kind.PruneGroup]; bound && !slices.Contains(wood, kind.FlowersOn) {
			t.Errorf("pruned by %s but flowers on %s wood", kind.PruneGroup, kind.FlowersOn)
		}
		for _, care := range kind.Care {
			if kind.PruneGroup != "after-flower" || care.What != "prune" || care.When.From == nil {
				continue
			}
			last := kind.Bloom[len(kind.Bloom)-1]
			between(t, "days from flower to pruning", windowDays(last.To, *care.When.From), 0, soonAfterDays)
		}
	})
}

func isSentence(text string) bool {
	return len(text) > 10 && unicode.IsUpper([]rune(text)[0]) && strings.HasSuffix(text, ".")
}

// The forms of the International Code of Nomenclature for Cultivated Plants, 9th
// edition (2016): genus, species or hybrid sign and epithet, rank and epithet,
// cultivar in single typographic quotes.
func TestCatalogueNamesHaveTheBotanicalForm(t *testing.T) {
	form := regexp.MustCompile(`^(× )?[A-Z][a-z]+( (× )?[a-z]+(-[a-z]+)?)?( (subsp|var|f)\. [a-z-]+)?( ‘[A-Z][^‘'"]*’)?( hort\.)?$`)
	eachKind(t, func(t *testing.T, kind Kind) {
		for _, name := range append([]string{kind.Name}, kind.Synonyms...) {
			if !form.MatchString(name) {
				t.Errorf("%q", name)
			}
		}
		if strings.HasSuffix(kind.Name, "hort.") || slices.Contains(kind.Synonyms, kind.Name) {
			t.Errorf("%q is not an accepted name, or is its own synonym", kind.Name)
		}
	})
}

// A slug is words of the name in their order, so that it can be guessed and two
// kinds do not meet by chance. It never changes once published.
func TestCatalogueSlugsComeFromNames(t *testing.T) {
	plain := transform.Chain(norm.NFD, runes.Remove(runes.In(unicode.Mn)), norm.NFC)
	eachKind(t, func(t *testing.T, kind Kind) {
		name, _, err := transform.String(plain, strings.ToLower(kind.Name))
		if err != nil {
			t.Fatal(err)
		}
		words := strings.FieldsFunc(strings.ReplaceAll(name, "’s", "s"), func(r rune) bool { return r < 'a' || r > 'z' })
		slug := strings.Split(kind.ID, "-")
		if slug[0] != words[0] {
			t.Fatalf("the slug does not begin with the genus of %s", kind.Name)
		}
		for _, word := range slug {
			at := slices.Index(words, word)
			if at < 0 {
				t.Fatalf("%q is not in %s, or not in this order", word, kind.Name)
			}
			words = words[at+1:]
		}
	})
}

func TestCatalogueNamesOneKindOnce(t *testing.T) {
	taken := map[string]string{}
	for _, kind := range catalogueKinds(t) {
		for _, name := range append([]string{kind.Name}, kind.Synonyms...) {
			if other, twice := taken[name]; twice {
				t.Errorf("%s names both %s and %s", name, other, kind.ID)
			}
			taken[name] = kind.ID
		}
	}
}

func TestCatalogueHasFlowerInEachMonth(t *testing.T) {
	const leastKinds = 3 // a border's winter months are thin, but a choice is needed
	for month := time.January; month <= time.December; month++ {
		inFlower := 0
		for _, kind := range catalogueKinds(t) {
			if slices.ContainsFunc(kind.Bloom, func(b BloomWindow) bool {
				return windowDays(b.From, MonthDay{month, 15}) <= windowDays(b.From, b.To)
			}) {
				inFlower++
			}
		}
		if inFlower < leastKinds {
			t.Errorf("%d kinds in flower in the middle of %s, want %d", inFlower, month, leastKinds)
		}
	}
}

func TestCatalogueCoversABorder(t *testing.T) {
	least := map[string]int{"perennial": 25, "shrub": 12, "climber": 5, "bulb": 10, "tree": 4, "grass": 3, "fern": 2, "annual": 2, "biennial": 2}
	for _, kind := range catalogueKinds(t) {
		least[kind.Habit]--
	}
	for habit, missing := range least {
		if missing > 0 {
			t.Errorf("%d more kinds with habit %s are needed", missing, habit)
		}
	}
}

func TestParseCatalogueErrorsNameKindAndField(t *testing.T) {
	cases := map[string]struct {
		change func(Fields)
		want   []string
	}{
		"value out of range": {func(f Fields) { f["heightCm"] = json.RawMessage(`[240,180]`) }, []string{"acer-palmatum", "heightCm", "lesser first"}},
		"field left out":     {func(f Fields) { delete(f, "scent") }, []string{"acer-palmatum", "scent is missing"}},
		"null where none is": {func(f Fields) { f["bloom"] = json.RawMessage(`null`) }, []string{"acer-palmatum", "bloom is missing"}},
		"field misspelt":     {func(f Fields) { f["colors"] = json.RawMessage(`[]`) }, []string{"acer-palmatum", "colors"}},
		"inner misspelling":  {func(f Fields) { f["cautions"] = json.RawMessage(`[{"code":"skin","words":"W.","word":""}]`) }, []string{"acer-palmatum", "word"}},
		"no such word":       {func(f Fields) { f["habit"] = json.RawMessage(`"bush"`) }, []string{"acer-palmatum", "habit", "shrub"}},
		"no such day":        {func(f Fields) { f["emerges"] = json.RawMessage(`{"from":"02-30","to":"03-10"}`) }, []string{"acer-palmatum", "emerges", "MM-DD"}},
		"id not a slug":      {func(f Fields) { f["id"] = json.RawMessage(`"Acer palmatum"`) }, []string{"Acer palmatum", "slug"}},
		"no id":              {func(f Fields) { delete(f, "id") }, []string{"number 1", "slug"}},
		"id of another":      {func(f Fields) { f["id"] = json.RawMessage(`"achillea-millefolium"`) }, []string{"achillea-millefolium", "twice"}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			file := parsedCatalogue(t)
			c.change(file.Kinds[0])
			_, _, err := ParseCatalogue(marshalled(t, file))
			if err == nil {
				t.Fatal("accepted")
			}
			for _, part := range c.want {
				if !strings.Contains(err.Error(), part) {
					t.Errorf("%q does not say %q", err, part)
				}
			}
		})
	}
}

func TestParseCatalogueRefusesWhatIsNoCatalogue(t *testing.T) {
	for _, text := range []string{``, `[]`, `{"version":0,"source":"s","kinds":[]}`, `{"version":1,"source":"","kinds":[]}`, `{"version":1,"source":"s","sorts":[]}`} {
		if _, _, err := ParseCatalogue([]byte(text)); err == nil {
			t.Errorf("%s was accepted", text)
		}
	}
}

func TestParseCatalogueKeepsTheProblem(t *testing.T) {
	file := parsedCatalogue(t)
	file.Kinds[0]["ph"] = json.RawMessage(`[7]`)
	_, _, err := ParseCatalogue(marshalled(t, file))
	var p *Problem
	if !errors.As(err, &p) || p.Field != "ph" || p.Code != "invalid_ph" {
		t.Errorf("error %v holds problem %+v", err, p)
	}
}
