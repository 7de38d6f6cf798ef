package main

import (
	"crypto/tls"
	"crypto/x509"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestLocalTLSUnderTheRootFromTheTrustPage(t *testing.T) {
	s := startServer(t, "", "--tls", "local", "--trust-listen", "localhost:0", "--public-url", "https://garden.home.arpa")
	if !strings.HasPrefix(s.trust, "http://garden.home.arpa:") {
		t.Errorf("trust page at %s", s.trust)
	}
	s.trust = strings.Replace(s.trust, "garden.home.arpa", "localhost", 1)
	page := string(fetch(t, http.DefaultClient, s.trust))
	fingerprint := regexp.MustCompile(`(?:[0-9A-F]{2}:){7}[0-9A-F]{2}`).FindAllString(page, -1)
	if joined := strings.Join(fingerprint, ":"); joined != s.fingerprint {
		t.Errorf("the page shows %s, the terminal %s", joined, s.fingerprint)
	}
	root, err := x509.ParseCertificate(fetch(t, http.DefaultClient, s.trust+"/haulm-root.crt"))
	if err != nil {
		t.Fatal(err)
	}
	roots := x509.NewCertPool()
	roots.AddCert(root)
	at := strings.TrimPrefix(s.listening, "http://")
	for name, trusted := range map[string]bool{"localhost": true, "garden.home.arpa": true, "127.0.0.1": true, "bank.example.com": false} {
		conn, err := tls.Dial("tcp", at, &tls.Config{RootCAs: roots, ServerName: name})
		if (err == nil) != trusted {
			t.Errorf("as %s: %v, want trusted=%v", name, err, trusted)
		}
		if conn != nil {
			conn.Close()
		}
	}
	client := &http.Client{Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: roots}}}
	defer client.CloseIdleConnections()
	if body := fetch(t, client, "https://"+at+"/healthz"); !strings.Contains(string(body), "alive") {
		t.Errorf("%s", body)
	}
	if _, err := http.Get("https://" + at + "/healthz"); err == nil {
		t.Error("a phone that does not trust the root let the server in")
	}
	info, err := os.Stat(filepath.Join(s.dir, "tls", "root.key"))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the key: %v %v", info.Mode(), err)
	}
}

func fetch(t testing.TB, client *http.Client, url string) []byte {
	t.Helper()
	answer, err := client.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s, %v", url, answer.Status, err)
	}
	return body
}
