package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"image"
	"image/color"
	"image/jpeg"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// picture makes a JPEG whose bytes differ by seed.
func picture(t testing.TB, width, height int, seed uint8) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			img.SetRGBA(x, y, color.RGBA{uint8(x) ^ seed, uint8(y * 3), uint8(x*y) + seed, 255})
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 90}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func nameOf(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

func (c *testClient) medium(content []byte) string { return c.of("/media/" + nameOf(content)) }

// piece sends content[from:to].
func (c *testClient) piece(content []byte, from, to int) *answer {
	c.t.Helper()
	return c.send(http.MethodPatch, c.medium(content), content[from:to], "Content-Type", "application/offset+octet-stream",
		"Upload-Offset", strconv.Itoa(from), "Upload-Length", strconv.Itoa(len(content)))
}

func (a *answer) mustTell(offset int, complete string) *answer {
	a.t.Helper()
	if got := a.header.Get("Upload-Offset"); got != strconv.Itoa(offset) {
		a.t.Errorf("Upload-Offset %q, want %d", got, offset)
	}
	if got := a.header.Get("Upload-Complete"); got != complete {
		a.t.Errorf("Upload-Complete %q, want %q", got, complete)
	}
	return a
}

func TestPhotoArrivesInPieces(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 640, 480, 1)
	ann.send(http.MethodHead, ann.medium(photo), nil).mustBe(http.StatusOK).mustTell(0, "?0")
	ann.send(http.MethodGet, ann.medium(photo), nil).mustRefuse(http.StatusNotFound, "not_here")
	half := len(photo) / 2
	ann.piece(photo, 0, half).mustBe(http.StatusNoContent).mustTell(half, "?0")
	ann.send(http.MethodHead, ann.medium(photo), nil).mustBe(http.StatusOK).mustTell(half, "?0")
	wrong := ann.piece(photo, half+10, len(photo)).mustRefuse(http.StatusConflict, "wrong_offset")
	if got := wrong.header.Get("Upload-Offset"); got != strconv.Itoa(half) {
		t.Errorf("the true offset was told as %q", got)
	}
	ann.piece(photo, half, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
	ann.piece(photo, half, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
	got := ann.send(http.MethodGet, ann.medium(photo), nil).mustBe(http.StatusOK)
	if !bytes.Equal(got.body, photo) {
		t.Error("other bytes came back")
	}
	checkUploadHeaders(t, got)
}

func checkUploadHeaders(t *testing.T, got *answer) {
	t.Helper()
	want := map[string]string{"Content-Type": "image/jpeg", "X-Content-Type-Options": "nosniff",
		"Content-Security-Policy": "sandbox; default-src 'none'; frame-ancestors 'none'"}
	for name, value := range want {
		if got.header.Get(name) != value {
			t.Errorf("%s: %q, want %q", name, got.header.Get(name), value)
		}
	}
}

func TestPhotoInRanges(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 320, 240, 2)
	ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent)
	n := strconv.Itoa(len(photo))
	cases := []struct {
		name, ask, span string
		status          int
		from, to        int
	}{
		{"the start", "bytes=0-99", "bytes 0-99/" + n, http.StatusPartialContent, 0, 100},
		{"from the middle on", "bytes=1000-", "bytes 1000-" + strconv.Itoa(len(photo)-1) + "/" + n, http.StatusPartialContent, 1000, len(photo)},
		{"the last bytes", "bytes=-10", "bytes " + strconv.Itoa(len(photo)-10) + "-" + strconv.Itoa(len(photo)-1) + "/" + n, http.StatusPartialContent, len(photo) - 10, len(photo)},
		{"past the end", "bytes=10-99999999", "bytes 10-" + strconv.Itoa(len(photo)-1) + "/" + n, http.StatusPartialContent, 10, len(photo)},
		{"nonsense is left aside", "lines=1-2", "", http.StatusOK, 0, len(photo)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := ann.send(http.MethodGet, ann.medium(photo), nil, "Range", c.ask).mustBe(c.status)
			if !bytes.Equal(got.body, photo[c.from:c.to]) || got.header.Get("Content-Range") != c.span {
				t.Errorf("%d bytes, %q", len(got.body), got.header.Get("Content-Range"))
			}
		})
	}
	for _, ignored := range []string{"bytes=5-2", "bytes=a-b", "="} {
		if got := ann.send(http.MethodGet, ann.medium(photo), nil, "Range", ignored).mustBe(http.StatusOK); !bytes.Equal(got.body, photo) {
			t.Errorf("%s: %d bytes", ignored, len(got.body))
		}
	}
	all := ann.send(http.MethodGet, ann.medium(photo), nil, "Range", "bytes=-99999999").mustBe(http.StatusPartialContent)
	if !bytes.Equal(all.body, photo) {
		t.Errorf("more than all: %d bytes", len(all.body))
	}
	beyond := ann.send(http.MethodGet, ann.medium(photo), nil, "Range", "bytes=99999999-").mustRefuse(http.StatusRequestedRangeNotSatisfiable, "out_of_range")
	if beyond.header.Get("Content-Range") != "bytes */"+n {
		t.Errorf("Content-Range %q", beyond.header.Get("Content-Range"))
	}
	tag := ann.send(http.MethodGet, ann.medium(photo), nil).header.Get("ETag")
	ann.send(http.MethodGet, ann.medium(photo), nil, "If-None-Match", tag).mustBe(http.StatusNotModified)
}

func TestPreviewsFromThePhoneComeFirst(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo, small := picture(t, 2000, 1000, 3), picture(t, 320, 160, 4)
	put := func(body []byte, side string) *answer {
		return ann.send(http.MethodPut, ann.medium(photo)+"/preview/"+side, body, "Content-Type", "image/jpeg", "Haulm-Original-Length", strconv.Itoa(len(photo)))
	}
	put(small, "320").mustBe(http.StatusNoContent)
	got := ann.send(http.MethodGet, ann.medium(photo)+"?w=320", nil).mustBe(http.StatusOK)
	if !bytes.Equal(got.body, small) {
		t.Error("the preview came back as other bytes")
	}
	checkUploadHeaders(t, got)
	put([]byte("<svg onload=alert(1)>"), "1600").mustRefuse(http.StatusUnsupportedMediaType, "unknown_type")
	put(small, "640").mustRefuse(http.StatusBadRequest, "bad_name")
	ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
	large := ann.send(http.MethodGet, ann.medium(photo)+"?w=1600", nil).mustBe(http.StatusOK)
	config, err := jpeg.DecodeConfig(bytes.NewReader(large.body))
	if err != nil || config.Width != 1600 || config.Height != 800 {
		t.Errorf("the server's own preview: %+v, %v", config, err)
	}
}

func TestMediaThatIsNotTaken(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 64, 64, 5)
	length := func(n string) *answer {
		return ann.send(http.MethodPatch, ann.medium(photo), photo, "Upload-Offset", "0", "Upload-Length", n)
	}
	length(strconv.Itoa(65<<20)).mustRefuse(http.StatusRequestEntityTooLarge, "too_large")
	length("many").mustRefuse(http.StatusBadRequest, "bad_header")
	length("0").mustRefuse(http.StatusBadRequest, "bad_length")
	page := []byte("<!doctype html><script>alert(1)</script>" + string(make([]byte, 4096)))
	ann.piece(page, 0, len(page)).mustBe(http.StatusUnsupportedMediaType)
	other := append([]byte{}, photo...)
	other[len(other)-3] ^= 1
	wrong := ann.send(http.MethodPatch, ann.medium(photo), other, "Upload-Offset", "0", "Upload-Length", strconv.Itoa(len(other)))
	wrong.mustRefuse(http.StatusUnprocessableEntity, "wrong_content")
	ann.send(http.MethodHead, ann.medium(photo), nil).mustTell(0, "?0")
	ann.send(http.MethodHead, ann.of("/media/"+nameOf(photo)[1:]), nil).mustBe(http.StatusBadRequest)
	ann.send(http.MethodGet, ann.of("/media/..journal"), nil).mustRefuse(http.StatusBadRequest, "bad_name")
}

func TestViewersSendNoMedia(t *testing.T) {
	s := startServer(t, "")
	viewer := joins(t, s.url, s.join, "Ann").invites("viewer", "Cleo")
	photo := picture(t, 64, 64, 6)
	viewer.piece(photo, 0, len(photo)).mustRefuse(http.StatusForbidden, "role_viewer")
}

func TestAnotherGardensMediaIsInvisible(t *testing.T) {
	dir := t.TempDir()
	first := startServer(t, dir)
	ann := joins(t, first.url, first.join, "Ann")
	photo := picture(t, 200, 200, 7)
	ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent).mustTell(len(photo), "?1")
	first.stop()
	s := startServer(t, dir, "--demo")
	visitor := newClient(t, s.url)
	var told struct{ Token string }
	visitor.send(http.MethodPost, "/api/v1/demo", nil).mustBe(http.StatusOK).decode(&told)
	visitor.garden = demoGarden
	visitor.header.Set("Authorization", "Bearer "+told.Token)
	visitor.send(http.MethodHead, visitor.medium(photo), nil).mustBe(http.StatusOK).mustTell(0, "?0")
	visitor.send(http.MethodGet, visitor.medium(photo), nil).mustRefuse(http.StatusNotFound, "not_here")
	visitor.send(http.MethodGet, visitor.medium(photo)+"?w=320", nil).mustRefuse(http.StatusNotFound, "not_here")
}

func TestDamagedPhotoIsNamedByVerify(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 200, 200, 8)
	ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent)
	if code, out := command(t, "verify", "--data", s.dir); code != 0 {
		t.Fatalf("exit %d: %s", code, out)
	}
	path := filepath.Join(s.dir, "media", ann.garden, nameOf(photo)[:2], nameOf(photo))
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	content[len(content)/2] ^= 1
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	code, out := command(t, "verify", "--data", s.dir)
	if code != 1 || !bytes.Contains([]byte(out), []byte(nameOf(photo))) {
		t.Errorf("exit %d: %s", code, out)
	}
}

// A cache takes over the headers of a 304 (RFC 9111, section 4.3.4).
func TestUnchangedPhotoKeepsItsSandbox(t *testing.T) {
	s := startServer(t, "")
	ann := joins(t, s.url, s.join, "Ann")
	photo := picture(t, 64, 48, 3)
	ann.piece(photo, 0, len(photo)).mustBe(http.StatusNoContent)
	sent := ann.send(http.MethodGet, ann.medium(photo), nil).mustBe(http.StatusOK)
	unchanged := ann.send(http.MethodGet, ann.medium(photo), nil, "If-None-Match", sent.header.Get("ETag")).mustBe(http.StatusNotModified)
	for _, name := range []string{"Content-Security-Policy", "Cache-Control", "ETag"} {
		if got, want := unchanged.header.Get(name), sent.header.Get(name); got != want || got == "" {
			t.Errorf("%s %q, was %q", name, got, want)
		}
	}
}

func TestStartClearsWhatNobodyFinishesSending(t *testing.T) {
	clock := &movedClock{}
	first := startWorld(t, "", &console{now: clock.now})
	ann := joins(t, first.url, first.join, "Ann")
	photo := picture(t, 64, 48, 5)
	ann.piece(photo, 0, 100).mustBe(http.StatusNoContent)
	for _, c := range []struct {
		after time.Duration
		left  int
	}{{0, 100}, {31 * 24 * time.Hour, 0}} {
		first.stop()
		clock.offset.Store(int64(c.after))
		first = startWorld(t, first.dir, &console{now: clock.now})
		ann.base = first.url
		ann.send(http.MethodHead, ann.medium(photo), nil).mustBe(http.StatusOK).mustTell(c.left, "?0")
	}
}
