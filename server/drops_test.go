package main

import (
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"strconv"
	"strings"
	"testing"
)

// An upload from the far end of a garden: a photo of 12 MB, whose connection drops 50
// times, in the pieces that phones send.
const (
	dropPhoto = 12 << 20
	dropPiece = 256 << 10
	drops     = 50
)

// largePhoto is a JPEG followed by bytes that do not compress.
func largePhoto(t testing.TB, size int) []byte {
	t.Helper()
	photo := picture(t, 1200, 900, 12)
	lots := rand.NewChaCha8([32]byte{1})
	pad := make([]byte, size-len(photo))
	lots.Read(pad)
	return append(photo, pad...)
}

// dropMidway sends part of a piece and cuts the connection, without a word or
// with a reset.
func (c *testClient) dropMidway(content []byte, from, to, sent int, reset bool) {
	c.t.Helper()
	conn, err := net.Dial("tcp", strings.TrimPrefix(c.base, "http://"))
	if err != nil {
		c.t.Fatal(err)
	}
	defer conn.Close()
	if err := conn.(*net.TCPConn).SetLinger(map[bool]int{true: 0, false: -1}[reset]); err != nil {
		c.t.Fatal(err)
	}
	fmt.Fprintf(conn, "PATCH %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\nUpload-Offset: %d\r\nUpload-Length: %d\r\nContent-Length: %d\r\n\r\n",
		c.medium(content), c.header.Get("Authorization"), from, len(content), to-from)
	conn.Write(content[from : from+sent])
}

func TestPhotoArrivesThoughTheConnectionDrops(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := largePhoto(t, dropPhoto)
	lots := rand.New(rand.NewPCG(2, 3))
	sent, dropped := 0, 0
	for {
		told := ann.send(http.MethodHead, ann.medium(photo), nil).mustBe(http.StatusOK).header
		if told.Get("Upload-Complete") == "?1" {
			break
		}
		offset, err := strconv.Atoi(told.Get("Upload-Offset"))
		if err != nil {
			t.Fatal(err)
		}
		end := min(offset+dropPiece, len(photo))
		if dropped < drops {
			part := lots.IntN(end - offset)
			ann.dropMidway(photo, offset, end, part, dropped%2 == 0)
			dropped, sent = dropped+1, sent+part
			continue
		}
		// What a cut connection had still in flight may land in between: then
		// the piece is told the true offset, and the phone goes on from there.
		if got := ann.piece(photo, offset, end); got.status != http.StatusNoContent && got.status != http.StatusConflict {
			t.Fatalf("status %d: %s", got.status, got.body)
		}
		sent += end - offset
	}
	if again := sent - len(photo); again > drops*dropPiece {
		t.Errorf("%d bytes were sent again, more than a piece for each of %d drops", again, drops)
	}
	got := ann.send(http.MethodGet, ann.medium(photo), nil).mustBe(http.StatusOK)
	if nameOf(got.body) != nameOf(photo) {
		t.Error("the photo came back as other bytes")
	}
}

func TestNotesArriveWhilePhotosAreSent(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	ben := ann.invites("helper", "Ben")
	stream := ben.listen()
	stream.cursor()
	photo := largePhoto(t, 4<<20)
	half, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer half.Close()
	fmt.Fprintf(half, "PATCH %s HTTP/1.1\r\nHost: localhost\r\nAuthorization: %s\r\nUpload-Offset: 0\r\nUpload-Length: %d\r\nContent-Length: %d\r\n\r\n",
		ann.medium(photo), ann.header.Get("Authorization"), len(photo), len(photo))
	half.Write(photo[:1<<20]) // and the rest does not come for now
	moved := ann.sync("", newChange(newRef("observation"), map[string]any{"note": "x"})).Cursor
	if got := stream.cursor(); got != moved {
		t.Errorf("event %q, want %q", got, moved)
	}
}
