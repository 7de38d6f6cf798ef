package trust

import (
	"bytes"
	_ "embed"
	"html/template"
	"net/http"
	"strings"
)

//go:embed page.html
var pageText string

//go:embed page.css
var pageStyle []byte

// pagePolicy lets the page show itself and its own style, nothing else.
const pagePolicy = "default-src 'none'; style-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// A Page answers over plain HTTP with the root certificate, its fingerprint and
// how to trust it; it serves nothing of the garden.
type Page struct {
	rendered []byte
	root     []byte
}

// NewPage renders the page for an authority and the address it leads to, such
// as https://192.168.1.20:8443.
func NewPage(authority *Authority, appURL string) (*Page, error) {
	layout, err := template.New("trust").Parse(pageText)
	if err != nil {
		return nil, err
	}
	var out bytes.Buffer
	err = layout.Execute(&out, map[string]any{"URL": appURL, "Fingerprint": fingerprintLines(authority.Fingerprint())})
	return &Page{rendered: out.Bytes(), root: authority.Root()}, err
}

// ServeHTTP answers / with the page and /haulm-root.crt with the certificate.
func (p *Page) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	header := w.Header()
	header.Set("Content-Security-Policy", pagePolicy)
	header.Set("X-Content-Type-Options", "nosniff")
	header.Set("Referrer-Policy", "no-referrer")
	header.Set("Cache-Control", "no-cache")
	switch r.URL.Path {
	case "/":
		header.Set("Content-Type", "text/html; charset=utf-8")
		w.Write(p.rendered)
	case "/trust.css":
		header.Set("Content-Type", "text/css; charset=utf-8")
		w.Write(pageStyle)
	case "/haulm-root.crt":
		header.Set("Content-Type", "application/x-x509-ca-cert")
		w.Write(p.root)
	default:
		http.Redirect(w, r, "/", http.StatusFound)
	}
}

// fingerprintLines breaks the fingerprint where a narrow phone would, so that
// it can be read aloud line by line.
func fingerprintLines(fingerprint string) []string {
	const pairsPerLine = 8
	pairs := strings.Split(fingerprint, ":")
	lines := make([]string, 0, len(pairs)/pairsPerLine)
	for i := 0; i < len(pairs); i += pairsPerLine {
		lines = append(lines, strings.Join(pairs[i:min(i+pairsPerLine, len(pairs))], ":"))
	}
	return lines
}
