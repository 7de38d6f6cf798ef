//go:build !js

package main

import (
	"encoding/json"
	"fmt"
	"os/exec"
	"strings"
	"testing"

	"haulm/almanac/assess/assesstest"
)

// BenchmarkAssessInWebAssembly measures, inside node, one assessment of 500
// plantings over 5 years after one record has changed; the first answer, with
// the loading of all records, is reported apart, as is what each look is worth.
func BenchmarkAssessInWebAssembly(b *testing.B) {
	shape := assesstest.Shape{Seed: 1, Plantings: 500, Years: 5, LastYear: 2015, LookEvery: 24}
	records, err := assesstest.Invent(shape)
	if err != nil {
		b.Fatal(err)
	}
	text, err := json.Marshal(records)
	if err != nil {
		b.Fatal(err)
	}
	loader, wasm := phoneAlmanac(b)
	input := fmt.Sprintf("%s\n%s\n", text, shape.Today())
	for b.Loop() {
		node := exec.Command("node", "testdata/bench.cjs", loader, wasm)
		node.Stdin = strings.NewReader(input)
		out, err := node.Output()
		if err != nil {
			b.Fatalf("node: %v", err)
		}
		var took struct{ LoadMs, AssessMs, WorthMs float64 }
		if err := json.Unmarshal(out, &took); err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(took.LoadMs, "ms/load")
		b.ReportMetric(took.AssessMs, "ms/assess")
		b.ReportMetric(took.WorthMs, "ms/worth")
	}
}
