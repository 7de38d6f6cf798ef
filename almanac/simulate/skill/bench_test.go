package skill

import (
	"testing"

	"haulm/almanac/simulate"
)

// benchGardens of 60 plantings over 4 years make some 1,200 late plants and 10,800
// healthy ones: 95 named in a hundred are told to 0.6, and one false alarm in a
// hundred to 0.1.
const benchGardens = 200

// BenchmarkSkill walks the gardens of each scenario once, on seeds that nothing was
// chosen by, and reports what the judges made of them:
//
//	go test ./almanac/simulate/skill -run - -bench Skill -benchtime 1x -timeout 2h
func BenchmarkSkill(b *testing.B) {
	for _, s := range scenarios() {
		b.Run(s.name, func(b *testing.B) {
			for b.Loop() {
				score, _ := s.walk(b, benchSeeds, benchGardens)
				report(b, score)
			}
		})
	}
	b.Run("kyoto", benchKyoto)
	b.Run("struggling", benchStruggling)
	b.Run("rounds", benchRounds)
}

// roundGardens of 60 plantings hold some 200 late plants, of which a share is told to
// three in a hundred.
const roundGardens = 40

// benchRounds are weekly rounds with time for one planting in ten: where a look settles
// most, where something is found, in turn, and at random.
func benchRounds(b *testing.B) {
	for b.Loop() {
		for name, r := range (scenario{input: simulate.Input{Plantings: 60, Years: 4}}).rounds(b, benchSeeds, roundGardens, 6, "worth", "while", "findings", "turn", "random") {
			b.ReportMetric(r.Named.Percent(), name+"-named-%")
			b.ReportMetric(r.MedianDays(), name+"-days")
			b.ReportMetric(r.False.Percent(), name+"-false/100")
			b.ReportMetric(float64(r.Looks)/roundGardens, name+"-looks")
		}
	}
}

// benchKyoto is one tree in 824 springs, as it was and a month late.
func benchKyoto(b *testing.B) {
	for b.Loop() {
		well, late := kyoto(b, 0, 1), kyoto(b, kyotoLate, 1)
		b.ReportMetric(late.Haulm.Named.Percent(), "haulm-named-%")
		b.ReportMetric(late.Haulm.MedianDays(), "haulm-days")
		b.ReportMetric(well.Haulm.False.Percent(), "haulm-false/100")
		b.ReportMetric(late.Notebook.Named.Percent(), "notebook-named-%")
		b.ReportMetric(late.Notebook.MedianDays(), "notebook-days")
		b.ReportMetric(well.Notebook.False.Percent(), "notebook-false/100")
		b.ReportMetric(well.Before.Percent(), "haulm-band-%")
		b.ReportMetric(well.After.Percent(), "haulm-band-after-%")
	}
}

// benchStruggling has a tenth of the plants grow at a third of the usual pace.
func benchStruggling(b *testing.B) {
	for b.Loop() {
		score := struggling().struggles(b, benchSeeds, benchGardens)
		b.ReportMetric(score.Named.Percent(), "haulm-struggling-named-%")
		b.ReportMetric(score.False.Percent(), "haulm-struggling-false/100")
	}
}

// report gives a score as metrics of the benchmark.
func report(b *testing.B, s Score) {
	for _, judge := range []struct {
		name string
		Record
	}{{"haulm", s.Haulm}, {"notebook", s.Notebook}, {"oracle", s.Oracle}} {
		b.ReportMetric(judge.Named.Percent(), judge.name+"-named-%")
		b.ReportMetric(judge.MedianDays(), judge.name+"-days")
		b.ReportMetric(judge.False.Percent(), judge.name+"-false/100")
	}
	b.ReportMetric(s.Before.Percent(), "haulm-band-%")
	b.ReportMetric(s.After.Percent(), "haulm-band-after-%")
	b.ReportMetric(s.HowLate.Percent(), "haulm-how-late-%")
	b.ReportMetric(s.AtLeast.Percent(), "haulm-at-least-%")
	b.ReportMetric(s.Season.Percent(), "haulm-season-1sd-%")
	b.ReportMetric(s.SeasonTwice.Percent(), "haulm-season-2sd-%")
	if s.Blind.Of > 0 {
		b.ReportMetric(s.Blind.Percent(), "haulm-blind-named-%")
	}
}
