package trust

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"crypto/x509/pkix"
	"fmt"
	"net"
	"slices"
	"sync"
	"time"
)

const (
	// leafLife stays under the 825 days that Apple's devices allow a
	// certificate of a privately trusted authority ("Requirements for trusted
	// certificates in iOS 13 and macOS 10.15", HT210176), backdate included.
	leafLife = 820 * 24 * time.Hour
	// renewBefore leaves a month in which a machine that is off for the winter
	// holidays still comes back with a valid certificate.
	renewBefore = 30 * 24 * time.Hour
)

// A Leaf keeps one machine's certificate valid: it issues when asked first, when
// the old one is within a month of its end, and when a phone comes in on an
// address that the machine did not have before.
type Leaf struct {
	Authority *Authority
	Names     func() Names
	Now       func() time.Time

	mu      sync.Mutex // guards current
	current *tls.Certificate
}

// Config gives the server side of TLS, at least version 1.2.
func (l *Leaf) Config() *tls.Config {
	return &tls.Config{MinVersion: tls.VersionTLS12, GetCertificate: l.forHello, NextProtos: []string{"http/1.1"}}
}

// Listener puts this certificate's TLS in front of a listener.
func (l *Leaf) Listener(plain net.Listener) net.Listener { return tls.NewListener(plain, l.Config()) }

// Certificate gives a valid certificate, issuing one where needed.
func (l *Leaf) Certificate() (*tls.Certificate, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.valid(nil)
}

func (l *Leaf) forHello(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	var at net.IP
	if address, ok := hello.Conn.LocalAddr().(*net.TCPAddr); ok {
		at = address.IP
	}
	return l.valid(at)
}

func (l *Leaf) valid(at net.IP) (*tls.Certificate, error) {
	if l.current != nil && l.Now().Before(l.current.Leaf.NotAfter.Add(-renewBefore)) && covers(l.current.Leaf, at) {
		return l.current, nil
	}
	issued, err := l.Authority.issue(l.Names(), l.Now())
	if err == nil {
		l.current = issued
	}
	return issued, err
}

func covers(leaf *x509.Certificate, at net.IP) bool {
	return at == nil || leaf.VerifyHostname(at.String()) == nil
}

// issue signs a certificate for those names that the authority may sign for.
// A name outside its constraints is an error: a phone would refuse the whole
// certificate, not that name alone.
func (a *Authority) issue(names Names, now time.Time) (*tls.Certificate, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	serial, err := newSerial()
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		SerialNumber: serial,
		Subject:      pkix.Name{Organization: []string{"Haulm"}, CommonName: "Haulm"},
		NotBefore:    now.Add(-backdate),
		NotAfter:     earlier(now.Add(leafLife), a.root.NotAfter),
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
		DNSNames:     names.DNS,
		IPAddresses:  a.permitted(names.IPs),
	}
	der, err := x509.CreateCertificate(rand.Reader, template, a.root, &key.PublicKey, a.key)
	if err != nil {
		return nil, err
	}
	leaf, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	if err := a.check(leaf, now); err != nil {
		return nil, err
	}
	return &tls.Certificate{Certificate: [][]byte{der, a.root.Raw}, PrivateKey: key, Leaf: leaf}, nil
}

// permitted leaves out interface addresses beyond the constraints: a machine
// that gains a public address must not lose its certificate for the home ones.
func (a *Authority) permitted(ips []net.IP) []net.IP {
	kept := make([]net.IP, 0, len(ips))
	for _, ip := range ips {
		if slices.ContainsFunc(a.root.PermittedIPRanges, func(block *net.IPNet) bool { return block.Contains(ip) }) {
			kept = append(kept, ip)
		}
	}
	return kept
}

func (a *Authority) check(leaf *x509.Certificate, now time.Time) error {
	roots := x509.NewCertPool()
	roots.AddCert(a.root)
	if _, err := leaf.Verify(x509.VerifyOptions{Roots: roots, CurrentTime: now}); err != nil {
		return a.replaceHint(fmt.Sprintf("may not sign for %v (%v)", leaf.DNSNames, err))
	}
	return nil
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}
