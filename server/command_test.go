package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// command runs one command as main does; out is what it said on both streams.
func command(t testing.TB, args ...string) (code int, out string) {
	t.Helper()
	return commandWith(t, "", args...)
}

func commandWith(t testing.TB, stdin string, args ...string) (code int, out string) {
	t.Helper()
	var said bytes.Buffer
	code = Run(context.Background(), args, strings.NewReader(stdin), &said, &said)
	return code, said.String()
}

func TestExitCodes(t *testing.T) {
	taken := startServer(t, "")
	cases := []struct {
		name string
		args []string
		code int
		says string
	}{
		{"help", []string{"--help"}, 0, "serve"},
		{"help of a command", []string{"serve", "--help"}, 0, "HAULM_PUBLIC_URL"},
		{"no command", nil, 2, "serve"},
		{"unknown command", []string{"water"}, 2, "water"},
		{"unknown flag", []string{"serve", "--wat"}, 2, "--wat"},
		{"unknown way of TLS", []string{"serve", "--tls", "acme"}, 2, "local"},
		{"a public address with a path", []string{"serve", "--public-url", "https://example.org/garden"}, 2, "without a path"},
		{"plain public address under TLS", []string{"serve", "--tls", "local", "--public-url", "http://example.org"}, 2, "https"},
		{"a taken port", []string{"serve", "--data", t.TempDir(), "--listen", strings.TrimPrefix(taken.url, "http://")}, 1, "--listen"},
		{"a folder in use", []string{"serve", "--data", taken.dir, "--listen", "localhost:0"}, 1, taken.dir},
		{"no server to be healthy", []string{"healthy", "--data", t.TempDir()}, 1, "haulm serve"},
		{"an invite without an address", []string{"invite", "--data", t.TempDir()}, 2, "--public-url"},
		{"an import of nothing", []string{"import", "--data", t.TempDir()}, 2, "haulm import FILE"},
		{"an import of what is not there", []string{"import", "--data", t.TempDir(), "gone.zip"}, 2, "gone.zip is not there"},
		{"an unknown verb", []string{"almanac", "guess"}, 2, "guess"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			code, out := command(t, c.args...)
			if code != c.code || !strings.Contains(out, c.says) {
				t.Errorf("exit %d, want %d: %s", code, c.code, out)
			}
		})
	}
}

func TestFlagsAreEnvironmentVariables(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("HAULM_PUBLIC_URL", "https://garden.example.org")
	s := startServer(t, dir)
	if s.url != "https://garden.example.org" {
		t.Errorf("open: %s", s.url)
	}
}

func TestInviteThroughTheRunningServer(t *testing.T) {
	s := startServer(t, "")
	joins(t, s.url, s.join, "Ann")
	code, out := command(t, "invite", "--data", s.dir, "--role", "viewer")
	_, link, found := strings.Cut(strings.SplitN(out, "\n", 2)[0], "join: "+s.url+"/join#")
	if code != 0 || !found {
		t.Fatalf("exit %d: %s", code, out)
	}
	viewer := joins(t, s.url, link, "Cleo")
	got := viewer.sync("", newChange(newRef("observation"), map[string]any{"note": "x"}))
	if len(got.Refused) != 1 || got.Refused[0].Code != "role_viewer" {
		t.Errorf("%+v", got)
	}
	if code, out := command(t, "invite", "--data", s.dir, "--garden", "nowhere"); code != 1 || !strings.Contains(out, "nowhere") {
		t.Errorf("exit %d: %s", code, out)
	}
}

func TestInviteFromTheFolder(t *testing.T) {
	first := startServer(t, "")
	joins(t, first.url, first.join, "Ann")
	first.stop()
	code, out := command(t, "invite", "--data", first.dir, "--public-url", "https://garden.example.org", "--role", "keeper")
	_, link, found := strings.Cut(strings.SplitN(out, "\n", 2)[0], "join: https://garden.example.org/join#")
	if code != 0 || !found {
		t.Fatalf("exit %d: %s", code, out)
	}
	s := startServer(t, first.dir)
	joins(t, s.url, link, "Dora")
}

func TestSocketIsForThisUserAlone(t *testing.T) {
	s := startServer(t, "")
	info, err := os.Stat(filepath.Join(s.dir, "haulm.sock"))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	if code, out := command(t, "healthy", "--data", s.dir); code != 0 {
		t.Errorf("exit %d: %s", code, out)
	}
	if code, out := command(t, "healthy", "--data", t.TempDir(), "--listen", strings.TrimPrefix(s.url, "http://")); code != 0 {
		t.Errorf("by address: exit %d: %s", code, out)
	}
	s.stop()
	if code, _ := command(t, "healthy", "--data", s.dir); code != 1 {
		t.Errorf("exit %d after the server stopped", code)
	}
}

func TestServerServesWithoutASocket(t *testing.T) {
	dir := filepath.Join(t.TempDir(), strings.Repeat("long", 30))
	s := startServer(t, dir)
	joins(t, s.url, s.join, "Ann")
	if !strings.Contains(s.log.String(), "without the socket") {
		t.Errorf("the log does not say so: %s", s.log)
	}
}

func TestVerifyInTheFolder(t *testing.T) {
	s := startServer(t, "")
	joins(t, s.url, s.join, "Ann")
	s.stop()
	code, out := command(t, "verify", "--data", s.dir)
	if code != 0 || !strings.Contains(out, "as they were written") {
		t.Errorf("exit %d: %s", code, out)
	}
}

func TestFolderWithoutGardensIsLeftAsItIs(t *testing.T) {
	empty := t.TempDir()
	for _, dir := range []string{filepath.Join(empty, "nowhere"), empty} {
		for _, args := range [][]string{{"verify", "--data", dir}, {"invite", "--data", dir, "--public-url", "https://garden.example.org"}} {
			if code, out := command(t, args...); code != 1 || !strings.Contains(out, dir+" holds no gardens") || !strings.Contains(out, "--data") {
				t.Errorf("%v: exit %d: %s", args, code, out)
			}
		}
	}
	if made, err := os.ReadDir(empty); err != nil || len(made) > 0 {
		t.Errorf("asking made %v, %v", made, err)
	}
}
