package httpapi

import (
	"bufio"
	"context"
	"io"
	"net"
	"strings"
	"testing"
	"time"

	"haulm/server/household"
	"haulm/server/refusal"
	"haulm/sync/journal"
)

// streamOver runs an event stream over a pipe and gives what a client reads.
func streamOver(t *testing.T, s eventStream) (client net.Conn, ended chan struct{}) {
	t.Helper()
	server, client := net.Pipe()
	s.conn = server
	ended = make(chan struct{})
	go func() {
		defer close(ended)
		defer server.Close()
		s.run(bufio.NewWriter(server), "e.1")
	}()
	t.Cleanup(func() { client.Close() })
	return client, ended
}

func TestStreamShowsThatItLives(t *testing.T) {
	end := make(chan struct{})
	client, ended := streamOver(t, eventStream{heartbeat: time.Millisecond, patience: time.Minute, end: end})
	lines := bufio.NewReader(client)
	for _, want := range []string{"event: cursor", "data: e.1", "", ": still here", "", ": still here"} {
		got, err := lines.ReadString('\n')
		if err != nil || strings.TrimSuffix(got, "\n") != want {
			t.Fatalf("line %q, %v; want %q", got, err, want)
		}
	}
	go io.Copy(io.Discard, client)
	close(end)
	<-ended
}

func TestStreamEndsWhenTheClientIsGone(t *testing.T) {
	client, ended := streamOver(t, eventStream{heartbeat: time.Millisecond, patience: time.Minute, end: make(chan struct{})})
	client.Close()
	<-ended
}

func TestStreamEndsWhenTheClientReadsNoMore(t *testing.T) {
	_, ended := streamOver(t, eventStream{heartbeat: time.Millisecond, patience: time.Millisecond, end: make(chan struct{})})
	<-ended
}

func TestStreamEndsWhenTheJournalCloses(t *testing.T) {
	moved := make(chan string)
	client, ended := streamOver(t, eventStream{heartbeat: time.Hour, patience: time.Minute, moved: moved, end: make(chan struct{})})
	go io.Copy(io.Discard, client)
	close(moved)
	<-ended
}

func TestStreamsOpenedWhileStoppingEndAtOnce(t *testing.T) {
	all := newStreams()
	before := all.add(streamOwner{"g", "d"})
	all.endAll()
	<-before
	<-all.add(streamOwner{"g", "d"})
	if n := all.count(); n != 0 {
		t.Errorf("%d streams left", n)
	}
}

// householdForTest is a household on a journal of its own with the garden "home".
func householdForTest(t *testing.T) *household.Household {
	t.Helper()
	ctx := context.Background()
	j, err := journal.Open(ctx, journal.Options{Dir: t.TempDir(), Now: time.Now})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { j.Close() })
	if err := j.CreateGarden(ctx, "home"); err != nil {
		t.Fatal(err)
	}
	return &household.Household{Journal: j, Now: time.Now}
}

// A device that was let in, and is shut out before its stream is open, must not
// keep the stream.
func TestDeviceShutOutWhileItOpensAStream(t *testing.T) {
	app := shellApp(t, nil)
	app.Household = householdForTest(t)
	ctx := context.Background()
	admitted, token, err := app.Household.Seat(ctx, "home", household.Helper, "", household.Names{Device: "phone", Member: "Ben"})
	if err != nil {
		t.Fatal(err)
	}
	owner := streamOwner{"home", admitted.Device.ID}
	if _, err := app.openStream(ctx, token, owner); err != nil || app.streams.count() != 1 {
		t.Fatalf("%d streams, %v", app.streams.count(), err)
	}
	if err := app.Household.Revoke(ctx, "home", admitted.Device.ID); err != nil {
		t.Fatal(err)
	}
	app.streams.end(owner)
	if _, err := app.openStream(ctx, token, owner); !refusal.Is(err, "unknown_device") {
		t.Errorf("a stream for a device that was shut out: %v", err)
	}
	if n := app.streams.count(); n != 0 {
		t.Errorf("%d streams left", n)
	}
}
