package httpapi

import (
	"bufio"
	"io"
	"net"
	"strings"
	"testing"
	"time"
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
