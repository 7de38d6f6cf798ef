package httpapi

import "testing"

func TestAnnouncedBodyHoldsNoMemory(t *testing.T) {
	if room := roomFor(syncBodyLimit); room > syncBodyLimit/64 {
		t.Errorf("a body that was only announced takes %d bytes", room)
	}
	if small := roomFor(100); small < 100 || small > 1000 {
		t.Errorf("a body of 100 bytes takes %d", small)
	}
	if chunked := roomFor(-1); chunked <= 0 {
		t.Errorf("a body of unknown length takes %d", chunked)
	}
}
