package httpapi

import (
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"testing"
	"testing/fstest"
	"time"
)

// shellApp is an App with a few files for a phone's app.
func shellApp(t *testing.T, files fstest.MapFS) *App {
	t.Helper()
	public := &url.URL{Scheme: "http", Host: "localhost:8080"}
	options := Options{PublicURL: public, Heartbeat: time.Second, Logger: slog.New(slog.DiscardHandler), Now: time.Now}
	if files != nil {
		options.Shell = files
	}
	app, err := New(options)
	if err != nil {
		t.Fatal(err)
	}
	return app
}

func someFiles() fstest.MapFS {
	return fstest.MapFS{
		"index.html":             {Data: []byte("<!doctype html>page")},
		"index.html.br":          {Data: []byte("page in br")},
		"index.html.gz":          {Data: []byte("page in gz")},
		"service-worker.js":      {Data: []byte("worker")},
		"manifest.webmanifest":   {Data: []byte("{}")},
		"almanac.wasm":           {Data: []byte("wasm")},
		"assets/main-B1x2.js":    {Data: []byte("script")},
		"assets/main-B1x2.js.br": {Data: []byte("script in br")},
	}
}

func ask(t *testing.T, app *App, method, path string, headers ...string) (*http.Response, string) {
	t.Helper()
	request := httptest.NewRequest(method, path, nil)
	request.Host = "localhost:8080"
	for i := 0; i < len(headers); i += 2 {
		request.Header.Set(headers[i], headers[i+1])
		if headers[i] == "Host" {
			request.Host = headers[i+1]
		}
	}
	answer, err := app.fiber.Test(request, -1)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer, string(body)
}

func TestShellFiles(t *testing.T) {
	app := shellApp(t, someFiles())
	cases := []struct {
		name, path, accept          string
		status                      int
		body, kind, cache, encoding string
	}{
		{"the page", "/", "", 200, "<!doctype html>page", "text/html; charset=utf-8", cacheAskFirst, ""},
		{"an address of the app", "/planting/0192", "", 200, "<!doctype html>page", "text/html; charset=utf-8", cacheAskFirst, ""},
		{"a join link", "/join", "gzip, deflate, br", 200, "page in br", "text/html; charset=utf-8", cacheAskFirst, "br"},
		{"for a browser without brotli", "/", "gzip", 200, "page in gz", "text/html; charset=utf-8", cacheAskFirst, "gzip"},
		{"brotli refused", "/", "br;q=0, gzip", 200, "page in gz", "text/html; charset=utf-8", cacheAskFirst, "gzip"},
		{"the service worker", "/service-worker.js", "br", 200, "worker", "text/javascript; charset=utf-8", cacheAskFirst, ""},
		{"the manifest", "/manifest.webmanifest", "", 200, "{}", "application/manifest+json", cacheAskFirst, ""},
		{"the almanac", "/almanac.wasm", "", 200, "wasm", "application/wasm", cacheAskFirst, ""},
		{"a hashed file", "/assets/main-B1x2.js", "br", 200, "script in br", "text/javascript; charset=utf-8", cacheForever, "br"},
		{"a hashed file of an older version", "/assets/main-OLD.js", "", 404, "", "application/json", "no-store", ""},
		{"a compressed sibling by name", "/index.html.br", "", 404, "", "application/json", "no-store", ""},
		{"out of the folder", "/../secret.txt", "", 404, "", "application/json", "no-store", ""},
		{"an unknown address of the API", "/api/v1/nothing", "", 404, "", "application/json", "no-store", ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			answer, body := ask(t, app, http.MethodGet, c.path, "Accept-Encoding", c.accept)
			header := answer.Header
			if answer.StatusCode != c.status || c.body != "" && body != c.body {
				t.Errorf("%d %q", answer.StatusCode, body)
			}
			if header.Get("Content-Type") != c.kind || header.Get("Cache-Control") != c.cache || header.Get("Content-Encoding") != c.encoding {
				t.Errorf("headers %v", header)
			}
			if header.Get("Content-Security-Policy") != appPolicy {
				t.Errorf("policy %q", header.Get("Content-Security-Policy"))
			}
			if c.status == 200 && (header.Get("Vary") != "Accept-Encoding" || header.Get("ETag") == "") {
				t.Errorf("headers %v", header)
			}
		})
	}
}

func TestShellIsAskedForAgainCheaply(t *testing.T) {
	app := shellApp(t, someFiles())
	plain, _ := ask(t, app, http.MethodGet, "/")
	small, _ := ask(t, app, http.MethodGet, "/", "Accept-Encoding", "br")
	if plain.Header.Get("ETag") == small.Header.Get("ETag") {
		t.Error("two encodings have one tag")
	}
	again, body := ask(t, app, http.MethodGet, "/", "If-None-Match", plain.Header.Get("ETag"))
	if again.StatusCode != http.StatusNotModified || body != "" {
		t.Errorf("%d %q", again.StatusCode, body)
	}
	head, body := ask(t, app, http.MethodHead, "/")
	if head.StatusCode != http.StatusOK || body != "" {
		t.Errorf("HEAD: %d %q", head.StatusCode, body)
	}
	if post, _ := ask(t, app, http.MethodPost, "/"); post.StatusCode != http.StatusNotFound {
		t.Errorf("POST: %d", post.StatusCode)
	}
}

func TestPageMovesToTheOneOrigin(t *testing.T) {
	app := shellApp(t, someFiles())
	moved, _ := ask(t, app, http.MethodGet, "/round", "Host", "127.0.0.1:8080")
	if moved.StatusCode != http.StatusTemporaryRedirect || moved.Header.Get("Location") != "http://localhost:8080/round" {
		t.Errorf("%d to %q", moved.StatusCode, moved.Header.Get("Location"))
	}
	if other, _ := ask(t, app, http.MethodGet, "/round", "Host", "127.0.0.1:9999"); other.StatusCode != http.StatusOK {
		t.Errorf("a forwarded port was moved: %d", other.StatusCode)
	}
}

func TestBuildWithoutTheAppSaysSo(t *testing.T) {
	answer, body := ask(t, shellApp(t, nil), http.MethodGet, "/")
	if answer.StatusCode != http.StatusNotFound || !contains(body, "make build") {
		t.Errorf("%d %s", answer.StatusCode, body)
	}
}
