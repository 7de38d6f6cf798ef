package trust

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"math/big"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

var startOf2026 = time.Date(2026, 1, 1, 12, 0, 0, 0, time.UTC)

func testNames() Names {
	return namesOf([]string{"localhost", "shed.local", "garden.example.org"}, []net.IP{net.IPv4(127, 0, 0, 1), net.IPv4(192, 168, 1, 20), net.IPv4(203, 0, 113, 5)})
}

func openForTest(t *testing.T) *Authority {
	t.Helper()
	a, err := Open(filepath.Join(t.TempDir(), "tls"), testNames(), startOf2026)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestAuthorityFilesArePrivateAndKept(t *testing.T) {
	a := openForTest(t)
	for _, name := range []string{keyFile, certFile} {
		info, err := os.Stat(filepath.Join(a.dir, name))
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s: mode %v, %v; want 0600", name, info.Mode(), err)
		}
	}
	again, err := Open(a.dir, testNames(), startOf2026.AddDate(1, 0, 0))
	if err != nil || again.Fingerprint() != a.Fingerprint() {
		t.Errorf("a second start made another authority: %v", err)
	}
}

func TestAuthorityThatCannotServeSaysWhatToDo(t *testing.T) {
	cases := map[string]func(dir string) time.Time{
		"expired": func(string) time.Time { return startOf2026.Add(rootLife + time.Hour) },
		"no key":  func(dir string) time.Time { os.Remove(filepath.Join(dir, keyFile)); return startOf2026 },
		"damaged": func(dir string) time.Time {
			os.WriteFile(filepath.Join(dir, certFile), []byte("not a certificate"), 0o600)
			return startOf2026
		},
	}
	for name, spoil := range cases {
		t.Run(name, func(t *testing.T) {
			a := openForTest(t)
			now := spoil(a.dir)
			_, err := Open(a.dir, testNames(), now)
			if err == nil || !strings.Contains(err.Error(), "delete") || !strings.Contains(err.Error(), a.dir) {
				t.Errorf("got %v; want what is wrong, where, and to delete the folder", err)
			}
		})
	}
}

func TestRootConstraintsAreCriticalAndHold(t *testing.T) {
	a := openForTest(t)
	if !a.root.PermittedDNSDomainsCritical || !a.root.MaxPathLenZero || !a.root.IsCA {
		t.Error("the root's constraints must be critical and it must not make further authorities")
	}
	roots := x509.NewCertPool()
	roots.AddCert(a.root)
	cases := []struct {
		name    string
		host    string
		allowed bool
	}{
		{"the name it was made for", "garden.example.org", true},
		{"a home name", "anything.local", true},
		{"a private address", "192.168.77.3", true},
		{"the public address it was made at", "203.0.113.5", true},
		{"that address's neighbour", "203.0.113.6", false},
		{"a foreign name", "bank.example.com", false},
		{"the parent of its name", "example.org", false},
		{"a public address", "198.51.100.7", false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			leaf := signWithoutCheck(t, a, c.host)
			_, err := leaf.Verify(x509.VerifyOptions{Roots: roots, DNSName: c.host, CurrentTime: startOf2026})
			if (err == nil) != c.allowed {
				t.Errorf("%s: %v, want allowed=%v", c.host, err, c.allowed)
			}
		})
	}
}

// signWithoutCheck does what a thief of the key would.
func signWithoutCheck(t *testing.T, a *Authority, host string) *x509.Certificate {
	t.Helper()
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	names := namesOf([]string{host}, nil)
	template := &x509.Certificate{SerialNumber: big.NewInt(7), NotBefore: startOf2026.Add(-time.Hour), NotAfter: startOf2026.AddDate(0, 1, 0),
		DNSNames: names.DNS, IPAddresses: names.IPs, ExtKeyUsage: []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth}}
	der, err := x509.CreateCertificate(rand.Reader, template, a.root, &key.PublicKey, a.key)
	if err != nil {
		t.Fatal(err)
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	return leaf
}

func TestLeafLifeAndRenewal(t *testing.T) {
	a := openForTest(t)
	now := startOf2026
	leaf := &Leaf{Authority: a, Names: testNames, Now: func() time.Time { return now }}
	first, err := leaf.Certificate()
	if err != nil {
		t.Fatal(err)
	}
	if life := first.Leaf.NotAfter.Sub(first.Leaf.NotBefore); life > 825*24*time.Hour {
		t.Errorf("the certificate lives %v, beyond the 825 days phones allow", life)
	}
	now = first.Leaf.NotAfter.Add(-renewBefore - time.Hour)
	if kept, _ := leaf.Certificate(); kept != first {
		t.Error("renewed more than a month before its end")
	}
	now = first.Leaf.NotAfter.Add(-renewBefore)
	renewed, err := leaf.Certificate()
	if err != nil || renewed == first || !renewed.Leaf.NotAfter.After(first.Leaf.NotAfter) {
		t.Errorf("not renewed a month before its end: %v", err)
	}
}

func TestLeafForANameOutsideTheConstraintsIsRefused(t *testing.T) {
	a := openForTest(t)
	leaf := &Leaf{Authority: a, Names: func() Names { return namesOf([]string{"moved.example.net"}, nil) }, Now: func() time.Time { return startOf2026 }}
	_, err := leaf.Certificate()
	if err == nil || !strings.Contains(err.Error(), "moved.example.net") || !strings.Contains(err.Error(), "delete that folder") {
		t.Errorf("got %v", err)
	}
}

func TestHandshakeUnderTheGeneratedRoot(t *testing.T) {
	a := openForTest(t)
	leaf := &Leaf{Authority: a, Names: testNames, Now: func() time.Time { return startOf2026 }}
	listener, err := tls.Listen("tcp", "127.0.0.1:0", leaf.Config())
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	go acceptAll(listener)
	roots := x509.NewCertPool()
	roots.AddCert(a.root)
	for host, trusted := range map[string]bool{"localhost": true, "127.0.0.1": true, "garden.example.org": true, "other.example.org": false} {
		config := &tls.Config{RootCAs: roots, ServerName: host, Time: func() time.Time { return startOf2026 }}
		conn, err := tls.Dial("tcp", listener.Addr().String(), config)
		if (err == nil) != trusted {
			t.Errorf("handshake as %s: %v, want trusted=%v", host, err, trusted)
		}
		if conn != nil {
			conn.Close()
		}
	}
}

func acceptAll(listener net.Listener) {
	for {
		conn, err := listener.Accept()
		if err != nil {
			return
		}
		go func() {
			defer conn.Close()
			conn.(*tls.Conn).Handshake()
		}()
	}
}

func TestPageShowsFingerprintAndServesTheRoot(t *testing.T) {
	a := openForTest(t)
	page, err := NewPage(a, "https://192.168.1.20:8443")
	if err != nil {
		t.Fatal(err)
	}
	shown := get(page, "/")
	for _, line := range fingerprintLines(a.Fingerprint()) {
		if !strings.Contains(shown.Body.String(), line) {
			t.Errorf("the page lacks %s of the fingerprint", line)
		}
	}
	for _, want := range []string{"https://192.168.1.20:8443", "iPhone", "Android", "Windows", "Mac", "Linux"} {
		if !strings.Contains(shown.Body.String(), want) {
			t.Errorf("the page does not speak of %s", want)
		}
	}
	if policy := shown.Header().Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") {
		t.Errorf("policy %q", policy)
	}
	root, err := x509.ParseCertificate(get(page, "/haulm-root.crt").Body.Bytes())
	if err != nil || !root.Equal(a.root) {
		t.Errorf("what phones fetch is not the root: %v", err)
	}
}

func get(page *Page, path string) *httptest.ResponseRecorder {
	answer := httptest.NewRecorder()
	page.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, path, nil))
	return answer
}
