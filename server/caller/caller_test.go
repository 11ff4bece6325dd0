package caller_test

import (
	"crypto/tls"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/server/caller"
)

// Addresses are those RFC 5737 and RFC 3849 keep for examples.
func TestTrusted_Address(t *testing.T) {
	for name, c := range map[string]struct {
		trusted, peer string
		told          []string
		want          string
	}{
		"no proxy":                     {"", "192.0.2.1:1", nil, "192.0.2.1"},
		"said by a stranger":           {"", "192.0.2.1:1", []string{"198.51.100.7"}, "192.0.2.1"},
		"said by another than ours":    {"10.0.0.1", "192.0.2.1:1", []string{"198.51.100.7"}, "192.0.2.1"},
		"said by ours":                 {"10.0.0.1", "10.0.0.1:1", []string{"198.51.100.7"}, "198.51.100.7"},
		"made up before ours":          {"10.0.0.1", "10.0.0.1:1", []string{"203.0.113.9, 198.51.100.7"}, "198.51.100.7"},
		"two of ours":                  {"10.0.0.0/8", "10.0.0.1:1", []string{"203.0.113.9, 198.51.100.7", "10.0.0.2"}, "198.51.100.7"},
		"ours said nothing":            {"10.0.0.1", "10.0.0.1:1", nil, "10.0.0.1"},
		"ours said nonsense":           {"10.0.0.1", "10.0.0.1:1", []string{"unknown"}, "10.0.0.1"},
		"IPv4 inside IPv6":             {"10.0.0.1", "[::ffff:10.0.0.1]:1", []string{"::ffff:198.51.100.7"}, "198.51.100.7"},
		"IPv6":                         {"2001:db8::/64", "[2001:db8::1]:1", []string{"2001:db8:1::7"}, "2001:db8:1::7"},
		"everybody named a proxy here": {"0.0.0.0/0", "192.0.2.1:1", []string{"198.51.100.7,203.0.113.9"}, "198.51.100.7"},
		"ours says the port, too":      {"10.0.0.1", "10.0.0.1:1", []string{"198.51.100.7:4711"}, "198.51.100.7"},
		"and of IPv6":                  {"10.0.0.1", "10.0.0.1:1", []string{"[2001:db8::7]:4711"}, "2001:db8::7"},
		"in brackets alone":            {"10.0.0.1", "10.0.0.1:1", []string{"[2001:db8::7]"}, "2001:db8::7"},
	} {
		t.Run(name, func(t *testing.T) {
			trusted, err := caller.Parse(c.trusted)
			require.NoError(t, err)
			r := httptest.NewRequest("GET", "/", nil)
			r.RemoteAddr = c.peer
			for _, told := range c.told {
				r.Header.Add("X-Forwarded-For", told)
			}
			assert.Equal(t, c.want, trusted.Address(r).String())
		})
	}
}

func TestTrusted_Secure(t *testing.T) {
	trusted, err := caller.Parse("10.0.0.1")
	require.NoError(t, err)
	r := httptest.NewRequest("GET", "/", nil)
	r.Header.Set("X-Forwarded-Proto", "https")
	r.RemoteAddr = "192.0.2.1:1"
	assert.False(t, trusted.Secure(r), "a stranger may say what he likes")
	r.RemoteAddr = "10.0.0.1:1"
	assert.True(t, trusted.Secure(r))
	r.Header.Set("X-Forwarded-Proto", "http")
	assert.False(t, trusted.Secure(r))
	r.TLS = &tls.ConnectionState{}
	assert.True(t, trusted.Secure(r))
}

func TestParse_bad(t *testing.T) {
	for _, text := range []string{"proxy", "10.0.0.1/99", "10.0.0", "1,2"} {
		_, err := caller.Parse(text)
		assert.ErrorContains(t, err, "neither", text)
	}
}

func TestHousehold(t *testing.T) {
	for peer, want := range map[string]string{
		"192.0.2.1:1": "192.0.2.1", "[2001:db8:1:2:3::4]:1": "2001:db8:1:2::/64", "[fe80::1%eth0]:1": "fe80::/64", "": "invalid IP",
	} {
		r := httptest.NewRequest("GET", "/", nil)
		r.RemoteAddr = peer
		assert.Equal(t, want, caller.Household(caller.Trusted{}.Address(r)))
	}
}

// A proxy on this machine brings strangers from this machine's own address.
func TestLocal(t *testing.T) {
	for _, c := range []struct {
		peer, header string
		want         bool
	}{
		{"127.0.0.1:999", "", true},
		{"[::1]:999", "", true},
		{"[::ffff:127.0.0.1]:999", "", true},
		{"192.0.2.7:999", "", false},
		{"10.0.0.1:999", "", false},
		{"127.0.0.1:999", "X-Forwarded-For", false},
		{"127.0.0.1:999", "X-Real-Ip", false},
		{"127.0.0.1:999", "Forwarded", false},
		{"127.0.0.1:999", "Via", false},
		{"@", "", false},
	} {
		r := httptest.NewRequest("GET", "/metrics", nil)
		r.RemoteAddr = c.peer
		if c.header != "" {
			r.Header.Set(c.header, "127.0.0.1")
		}
		assert.Equal(t, c.want, caller.Local(r), "%v", c)
	}
}
