package synctest

import (
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"haulm/sync/change"
	"haulm/sync/journal"
	"haulm/sync/journal/fold"
)

// refolding folds the log anew and holds the two folds against each other.
func refolding(t *testing.T, open Open) {
	b := set(t, open)
	for i := range 60 {
		b.push(t, anna(), written(planting(byte(i%7)), uint64(i/2), i, "label", fmt.Sprintf(`"a%d"`, i)))
		b.push(t, ben(), written(planting(byte(i%5)), uint64(i/3), 59-i, "label", fmt.Sprintf(`"b%d"`, i)))
		_, err := b.WritePrivate(t.Context(), home, put(fmt.Sprint("device/", i%4), fmt.Sprint(i), journal.Any))
		must(t, err)
		b.clock.advance(time.Second)
	}
	sameFromLog(t, b)
}

func sameFromLog(t testing.TB, b *bench) {
	t.Helper()
	again, err := fold.Open("", nil)
	must(t, err)
	defer again.Close()
	must(t, again.CatchUp(t.Context(), home, b.log))
	was, is := b.fold.View(home), again.View(home)
	defer was.Close()
	defer is.Close()
	if a, b := dump(t, was), dump(t, is); a != b {
		t.Errorf("the log folds to\n%s\nand the server had\n%s", b, a)
	}
}

// dump writes everything that a view shows.
func dump(t testing.TB, view *fold.View) string {
	t.Helper()
	var out strings.Builder
	standing, err := view.Standing()
	must(t, err)
	sums, err := view.Sums()
	must(t, err)
	fmt.Fprintln(&out, standing, sums)
	for record, err := range view.Feed(0) {
		must(t, err)
		text, _ := record.State.AppendBinary(nil)
		fmt.Fprintf(&out, "%s %q\n", record.Ref, text)
	}
	for private, err := range view.Privates("") {
		must(t, err)
		fmt.Fprintf(&out, "%s %s %d\n", private.Key, private.Value, private.Version)
	}
	return out.String()
}

func together(t *testing.T, open Open) {
	b := set(t, open)
	must(t, b.CreateGarden(t.Context(), "other"))
	var wait sync.WaitGroup
	for phone := range 16 {
		wait.Go(func() {
			by := journal.Writer{Member: "m", Device: fmt.Sprint("phone-", phone)}
			for i := range 20 {
				name := []string{home, "other"}[i%2]
				changes := []change.Change{written(planting(byte(phone)), 0, i, "count", fmt.Sprint(i)), written(planting(90), 0, i, "count", fmt.Sprint(i))}
				if answer, err := b.Push(t.Context(), name, by, changes); err != nil || len(answer.Applied) != 2 {
					t.Errorf("%v %+v", err, answer)
				}
			}
		})
	}
	wait.Wait()
	for phone := range 16 {
		if got := b.field(t, planting(byte(phone)), "count"); got != "18" {
			t.Errorf("phone %d's count is %s", phone, got)
		}
	}
	sameFromLog(t, b)
}

func verifies(t *testing.T, open Open) {
	b := set(t, open)
	for i := range 40 {
		b.push(t, anna(), written(planting(byte(i%9)), 0, i, "label", `"x"`))
	}
	_, err := b.WritePrivate(t.Context(), home, put("device/a", `1`, 0))
	must(t, err)
	report, err := b.Verify(t.Context(), nil)
	must(t, err)
	if len(report.Damage) != 0 || report.Values < 40 {
		t.Errorf("%+v", report)
	}
}
