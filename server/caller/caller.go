// Package caller tells who sent a request when a proxy stands before the server.
// What a request says of itself counts only as far as addresses the operator
// named as proxies vouch for it.
package caller

import (
	"fmt"
	"net/http"
	"net/netip"
	"strings"
)

// Trusted is the addresses of the operator's own proxies.
type Trusted []netip.Prefix

// Parse reads addresses and prefixes with commas between: "127.0.0.1,10.0.0.0/8".
func Parse(text string) (Trusted, error) {
	all := Trusted{}
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		prefix, err := netip.ParsePrefix(part)
		if err != nil {
			addr, notAddr := netip.ParseAddr(part)
			if notAddr != nil {
				return nil, fmt.Errorf("%q is neither an address nor a prefix such as 10.0.0.0/8", part)
			}
			prefix = netip.PrefixFrom(addr, addr.BitLen())
		}
		all = append(all, prefix.Masked())
	}
	return all, nil
}

func (t Trusted) has(addr netip.Addr) bool {
	for _, prefix := range t {
		if prefix.Contains(addr) {
			return true
		}
	}
	return false
}

// Address is who sent the request: the nearest address that is no proxy of
// ours. It is not valid when the connection has none.
func (t Trusted) Address(r *http.Request) netip.Addr {
	at := peer(r)
	told := strings.Split(strings.Join(r.Header.Values("X-Forwarded-For"), ","), ",")
	for i := len(told) - 1; i >= 0 && t.has(at); i-- {
		next, ok := address(strings.TrimSpace(told[i]))
		if !ok {
			break
		}
		at = next
	}
	return at
}

// address reads what a proxy tells; some add the port.
func address(told string) (netip.Addr, bool) {
	at, err := netip.ParseAddr(strings.Trim(told, "[]"))
	if err != nil {
		withPort, noPort := netip.ParseAddrPort(told)
		if noPort != nil {
			return netip.Addr{}, false
		}
		at = withPort.Addr()
	}
	return at.Unmap().WithZone(""), true
}

// Secure reports whether the caller speaks HTTPS, to us or to our proxy.
func (t Trusted) Secure(r *http.Request) bool {
	return r.TLS != nil || t.has(peer(r)) && r.Header.Get("X-Forwarded-Proto") == "https"
}

// byProxies are the headers by which a proxy shows, named or not.
var byProxies = [...]string{"X-Forwarded-For", "X-Forwarded-Proto", "X-Forwarded-Host", "X-Real-Ip", "Forwarded", "Via"}

// Local reports whether the request comes from this machine itself, through no
// proxy.
func Local(r *http.Request) bool {
	for _, name := range byProxies {
		if len(r.Header.Values(name)) > 0 {
			return false
		}
	}
	return peer(r).IsLoopback()
}

// peer is the other end of the connection.
func peer(r *http.Request) netip.Addr {
	at, _ := address(r.RemoteAddr)
	return at
}

// Household is what limits count: one IPv4 address, or one /64 of IPv6, which
// is what one household gets.
func Household(addr netip.Addr) string {
	if addr.Is6() {
		if whole, err := addr.Prefix(64); err == nil {
			return whole.String()
		}
	}
	return addr.String()
}
