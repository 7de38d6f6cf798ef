package journal

import (
	"errors"
	"testing"
	"time"

	"haulm/sync/journal/entry"
)

// TestAPanicInOneJobIsNoSuccessOfAnother serves, in one turn, a sound job and
// one that panics: the sound one, which is not on disk, must have an error.
func TestAPanicInOneJobIsNoSuccessOfAnother(t *testing.T) {
	j, err := Open(t.Context(), Options{Dir: t.TempDir(), Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	private := []PrivateWrite{{Key: "k", Value: []byte(`1`)}}
	sound := &job{err: errUnfinished, do: func(d *draft) error {
		_, err := d.keep(private, []entry.Private{{Key: "k", Value: []byte(`1`)}})
		return err
	}}
	panics := &job{err: errUnfinished, do: func(*draft) error { panic("judging") }}
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		j.desk(Global).serve(t.Context(), []*job{sound, panics})
	}()
	if !errors.Is(sound.err, errUnfinished) {
		t.Errorf("the sound job is told %v", sound.err)
	}
	var missing *MissingError
	if _, err := j.GetPrivate(t.Context(), Global, "k"); !errors.As(err, &missing) {
		t.Errorf("half a turn was kept: %v", err)
	}
	if _, err := j.WritePrivate(t.Context(), Global, private...); err != nil {
		t.Errorf("after the panic: %v", err)
	}
}
