// Package trust makes HTTPS work at home, where no public authority can vouch
// for a machine: a private authority in the data folder, a certificate for this
// machine's names and addresses, and the page that tells a person how to make a
// phone trust it. Start in authority.go; leaf.go issues and renews, page.go
// shows.
//
// A phone that trusts an authority trusts it for everything the authority may
// sign. So its certificate carries critical name constraints (RFC 5280,
// section 4.2.1.10): private addresses, names that exist only at home, and the
// names given when it was made. Stolen, its key can still not pose as a bank.
package trust

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/sha256"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/hex"
	"encoding/pem"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

const (
	rootLife    = 10 * 365 * 24 * time.Hour // a garden outlives phones; trusting again is the costly step
	backdate    = 24 * time.Hour            // phones whose clocks run behind
	keyFile     = "root.key"
	certFile    = "root.crt"
	privateMode = 0o600
	folderMode  = 0o700
	serialBits  = 127 // RFC 5280, section 4.1.2.2: positive, at most 20 octets; CA/Browser Forum: at least 64 random bits
)

// An Authority signs the certificates of one machine. Its methods may be called
// from several goroutines.
type Authority struct {
	dir  string
	key  *ecdsa.PrivateKey
	root *x509.Certificate
}

// Open reads the authority in dir, or makes one there that may sign for private
// addresses, home names and the given names. A damaged or expired authority is
// an error that says what to do: making a new one silently would lock out every
// phone that trusts the old one.
func Open(dir string, names Names, now time.Time) (*Authority, error) {
	a, err := load(dir)
	if errors.Is(err, fs.ErrNotExist) {
		a, err = create(dir, names, now)
	}
	if err != nil {
		return nil, err
	}
	if now.After(a.root.NotAfter) {
		return nil, a.replaceHint("expired on " + a.root.NotAfter.Format(time.DateOnly))
	}
	return a, nil
}

// Root gives the root certificate in DER, which phones install.
func (a *Authority) Root() []byte { return a.root.Raw }

// Fingerprint is the SHA-256 of the root certificate, in hexadecimal pairs as
// phones and browsers show it.
func (a *Authority) Fingerprint() string {
	sum := sha256.Sum256(a.root.Raw)
	text := strings.ToUpper(hex.EncodeToString(sum[:]))
	pairs := make([]string, 0, len(sum))
	for i := 0; i < len(text); i += 2 {
		pairs = append(pairs, text[i:i+2])
	}
	return strings.Join(pairs, ":")
}

func (a *Authority) replaceHint(what string) error {
	return fmt.Errorf("the authority in %s %s: delete that folder and start again to make a new one, which every phone must then be told to trust", a.dir, what)
}

func load(dir string) (*Authority, error) {
	certDER, err := readPEM(filepath.Join(dir, certFile), "CERTIFICATE")
	if err != nil {
		return nil, err
	}
	root, err := x509.ParseCertificate(certDER)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.Join(dir, certFile), err)
	}
	keyDER, err := readPEM(filepath.Join(dir, keyFile), "EC PRIVATE KEY")
	if err != nil {
		return nil, fmt.Errorf("the authority's certificate is there but its key is not: restore it, or delete %s to start anew: %v", dir, err)
	}
	key, err := x509.ParseECPrivateKey(keyDER)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", filepath.Join(dir, keyFile), err)
	}
	a := &Authority{dir: dir, key: key, root: root}
	if !key.PublicKey.Equal(root.PublicKey) {
		return nil, a.replaceHint("has a key that does not belong to its certificate")
	}
	return a, nil
}

func create(dir string, names Names, now time.Time) (*Authority, error) {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, err
	}
	der, err := signRoot(key, names, now)
	if err != nil {
		return nil, err
	}
	root, err := x509.ParseCertificate(der)
	if err != nil {
		return nil, err
	}
	return &Authority{dir: dir, key: key, root: root}, save(dir, key, der)
}

func signRoot(key *ecdsa.PrivateKey, names Names, now time.Time) ([]byte, error) {
	serial, err := newSerial()
	if err != nil {
		return nil, err
	}
	template := &x509.Certificate{
		SerialNumber: serial,
		Subject: pkix.Name{
			Organization: []string{"Haulm"},
			CommonName:   "Haulm at home, made " + now.UTC().Format(time.DateOnly),
		},
		NotBefore:                   now.Add(-backdate),
		NotAfter:                    now.Add(rootLife),
		KeyUsage:                    x509.KeyUsageCertSign,
		BasicConstraintsValid:       true,
		IsCA:                        true,
		MaxPathLenZero:              true,
		PermittedDNSDomainsCritical: true,
		PermittedDNSDomains:         beyondHome(names.DNS),
		PermittedIPRanges:           beyondPrivate(names.IPs),
	}
	return x509.CreateCertificate(rand.Reader, template, template, &key.PublicKey, key)
}

// homeDomains are the names that never exist on the public internet: RFC 6761
// (localhost), RFC 6762 (local), RFC 8375 (home.arpa), and internal, which
// ICANN set aside for private use in 2024; lan is what many home routers use.
func homeDomains() []string {
	return []string{"localhost", "local", "home.arpa", "internal", "lan"}
}

// privateRanges are RFC 1918, RFC 4193, RFC 3927 and RFC 4291 link-local, and
// loopback.
func privateRanges() []*net.IPNet {
	texts := []string{"10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8",
		"fc00::/7", "fe80::/10", "::1/128"}
	ranges := make([]*net.IPNet, 0, len(texts))
	for _, text := range texts {
		_, block, err := net.ParseCIDR(text)
		if err == nil {
			ranges = append(ranges, block)
		}
	}
	return ranges
}

// beyondHome gives the home names and those names that are not among them.
func beyondHome(names []string) []string {
	permitted := homeDomains()
	for _, name := range names {
		within := func(domain string) bool { return name == domain || strings.HasSuffix(name, "."+domain) }
		if !slices.ContainsFunc(permitted, within) {
			permitted = append(permitted, name)
		}
	}
	return permitted
}

// beyondPrivate gives the private ranges and those addresses that lie in none.
func beyondPrivate(ips []net.IP) []*net.IPNet {
	permitted := privateRanges()
	for _, ip := range ips {
		if four := ip.To4(); four != nil {
			ip = four
		}
		if !slices.ContainsFunc(permitted, func(block *net.IPNet) bool { return block.Contains(ip) }) {
			permitted = append(permitted, &net.IPNet{IP: ip, Mask: net.CIDRMask(len(ip)*8, len(ip)*8)})
		}
	}
	return permitted
}

func newSerial() (*big.Int, error) {
	return rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), serialBits))
}

// save writes the key before the certificate: load takes the certificate's
// absence for "none made yet", so a crash in between costs nothing.
func save(dir string, key *ecdsa.PrivateKey, certDER []byte) error {
	if err := os.MkdirAll(dir, folderMode); err != nil {
		return err
	}
	keyDER, err := x509.MarshalECPrivateKey(key)
	if err != nil {
		return err
	}
	if err := writePEM(filepath.Join(dir, keyFile), "EC PRIVATE KEY", keyDER); err != nil {
		return err
	}
	return writePEM(filepath.Join(dir, certFile), "CERTIFICATE", certDER)
}

func writePEM(path, kind string, der []byte) error {
	return os.WriteFile(path, pem.EncodeToMemory(&pem.Block{Type: kind, Bytes: der}), privateMode)
}

func readPEM(path, kind string) ([]byte, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	block, _ := pem.Decode(text)
	if block == nil || block.Type != kind {
		return nil, fmt.Errorf("%s holds no %s: restore it, or delete its folder to start anew", path, strings.ToLower(kind))
	}
	return block.Bytes, nil
}
