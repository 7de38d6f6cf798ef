package main

import (
	"net"
	"net/url"
	"strings"
	"testing"

	"haulm/server/trust"
)

func TestPublicAddress(t *testing.T) {
	home := trust.Names{DNS: []string{"shed"}, IPs: []net.IP{net.IPv4(127, 0, 0, 1), net.IPv4(192, 168, 1, 20)}}
	cases := []struct {
		name, tls, given string
		names            trust.Names
		want             string
	}{
		{"this machine's own", "off", "", home, "http://localhost:8080"},
		{"at home", "local", "", home, "https://192.168.1.20:8080"},
		{"without a network", "local", "", trust.Names{}, "https://localhost:8080"},
		{"as told", "off", "https://garden.example.org", home, "https://garden.example.org"},
		{"as browsers write it", "off", "HTTPS://Garden.Example.org:443/", home, "https://garden.example.org"},
		{"on a port of its own", "local", "https://shed.local:8443", home, "https://shed.local:8443"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			serve := serveCommand{TLS: c.tls}
			if c.given != "" {
				given, err := url.Parse(c.given)
				if err != nil {
					t.Fatal(err)
				}
				serve.PublicURL = given
			}
			if err := serve.check(); err != nil {
				t.Fatal(err)
			}
			if got := serve.publicURL(&net.TCPAddr{Port: 8080}, c.names).String(); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

func TestPlainHTTPForOtherMachinesIsWarnedOf(t *testing.T) {
	open := startServer(t, "", "--listen", "0.0.0.0:0")
	if !strings.Contains(open.log.String(), "only over HTTPS") {
		t.Error("no word of HTTPS")
	}
	own := startServer(t, "")
	if strings.Contains(own.log.String(), "only over HTTPS") {
		t.Error("warned on this machine alone")
	}
}
