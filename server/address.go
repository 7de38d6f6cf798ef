package main

import (
	"log/slog"
	"net"
	"net/url"
	"strings"

	"haulm/server/httpapi"
	"haulm/server/trust"
)

func checkPublicURL(u *url.URL) error {
	if u.Scheme != "http" && u.Scheme != "https" || u.Host == "" || u.Path != "" && u.Path != "/" {
		return usagef("--public-url must be like https://garden.example.org, without a path, not %s", u)
	}
	return nil
}

// published reports whether people come from elsewhere by what the server was
// told: then an address of this machine may be a proxy's.
func (c *serveCommand) published() bool {
	return len(c.TrustedProxy) > 0 || c.PublicURL != nil && !httpapi.LoopbackHost(c.PublicURL.Hostname())
}

func (c *serveCommand) publicHost() []string {
	if c.PublicURL == nil {
		return nil
	}
	return []string{c.PublicURL.Hostname()}
}

// publicURL is the address given, or one that works without being told: this
// machine's own under plain HTTP, else its address at home.
func (c *serveCommand) publicURL(at net.Addr, names trust.Names) *url.URL {
	if c.PublicURL != nil {
		return plainOrigin(c.PublicURL)
	}
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		port = ""
	}
	if host := names.HomeAddress(); c.TLS == "local" && host != "" {
		return &url.URL{Scheme: "https", Host: net.JoinHostPort(host, port)}
	}
	scheme := map[string]string{"off": "http", "local": "https"}[c.TLS]
	return &url.URL{Scheme: scheme, Host: net.JoinHostPort("localhost", port)}
}

// plainOrigin writes an address as browsers write an Origin: in lower case and
// without the scheme's own port (RFC 6454, section 6.2).
func plainOrigin(u *url.URL) *url.URL {
	host := strings.ToLower(u.Host)
	if port := map[string]string{"http": ":80", "https": ":443"}[u.Scheme]; port != "" {
		host = strings.TrimSuffix(host, port)
	}
	return &url.URL{Scheme: u.Scheme, Host: host}
}

func trustAddress(public *url.URL, at net.Addr) string {
	_, port, err := net.SplitHostPort(at.String())
	if err != nil {
		port = ""
	}
	return "http://" + net.JoinHostPort(public.Hostname(), port)
}

// warnOfPlainHTTP tells a person who opened plain HTTP to other machines why
// phones will not keep the app.
func (c *serveCommand) warnOfPlainHTTP(at net.Addr, logger *slog.Logger) {
	tcp, ok := at.(*net.TCPAddr)
	if !ok || tcp.IP.IsLoopback() || c.TLS != "off" || c.PublicURL != nil && c.PublicURL.Scheme == "https" {
		return
	}
	logger.Warn("phones keep the app and work without a signal only over HTTPS: use --tls local, or a proxy with HTTPS and --public-url",
		"listening", at.String())
}
