package trust

import (
	"net"
	"net/netip"
	"os"
	"slices"
	"strings"
)

// Names are what a machine answers to.
type Names struct {
	DNS []string
	IPs []net.IP
}

// MachineNames gives this machine's host name, plain and as a .local name,
// localhost, the addresses of its interfaces, and the extra hosts given, each a
// name or an address.
func MachineNames(extra ...string) Names {
	hosts := []string{"localhost"}
	if host, err := os.Hostname(); err == nil && host != "" {
		hosts = append(hosts, host)
		if !strings.Contains(host, ".") {
			hosts = append(hosts, host+".local")
		}
	}
	return namesOf(append(hosts, extra...), interfaceAddresses())
}

func namesOf(hosts []string, ips []net.IP) Names {
	names := Names{IPs: ips}
	for _, host := range hosts {
		host = strings.ToLower(strings.Trim(host, "[]"))
		if addr, err := netip.ParseAddr(host); err == nil {
			names.IPs = append(names.IPs, net.IP(addr.WithZone("").AsSlice()))
		} else if host != "" {
			names.DNS = append(names.DNS, host)
		}
	}
	slices.Sort(names.DNS)
	names.DNS = slices.Compact(names.DNS)
	slices.SortFunc(names.IPs, func(a, b net.IP) int { return strings.Compare(a.String(), b.String()) })
	names.IPs = slices.CompactFunc(names.IPs, net.IP.Equal)
	return names
}

func interfaceAddresses() []net.IP {
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	ips := make([]net.IP, 0, len(addresses))
	for _, address := range addresses {
		if block, ok := address.(*net.IPNet); ok {
			ips = append(ips, block.IP)
		}
	}
	return ips
}

// Hosts gives the names and addresses as a browser writes them in Host, without
// a port.
func (n Names) Hosts() []string {
	hosts := slices.Clone(n.DNS)
	for _, ip := range n.IPs {
		if ip.To4() == nil {
			hosts = append(hosts, "["+ip.String()+"]")
		} else {
			hosts = append(hosts, ip.String())
		}
	}
	return hosts
}

// HomeAddress gives the first private IPv4 address, which a phone in the same
// house can reach, or "" when there is none.
func (n Names) HomeAddress() string {
	for _, ip := range n.IPs {
		if ip.To4() != nil && ip.IsPrivate() {
			return ip.String()
		}
	}
	return ""
}
