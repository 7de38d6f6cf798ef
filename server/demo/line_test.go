package demo

import (
	"encoding/json"
	"fmt"
	"strings"

	"haulm/almanac/assess"
)

// line writes a finding in one line, to be read as a gardener.
func line(f assess.Finding) string {
	var b strings.Builder
	mark := "  "
	if f.WorthALook {
		mark = "**"
	}
	fmt.Fprintf(&b, "%s %-18s %-20s", mark, f.Planting, f.Verdict)
	for _, part := range []struct {
		name  string
		value any
	}{{"flush", f.Flush}, {"days", f.Days}, {"season", f.SeasonDays}, {"p", f.Probability}, {"evidence", f.Evidence}, {"check", f.Check}} {
		text, err := json.Marshal(part.value)
		if err == nil && string(text) != "null" {
			fmt.Fprintf(&b, " %s %s", part.name, text)
		}
	}
	return b.String()
}
