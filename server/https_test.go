package server

import (
	"bytes"
	"context"
	"crypto/tls"
	"errors"
	"net/http"
	"net/http/httptest"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"github.com/stretchr/testify/assert"
)

// What fails is tried again, what came is not; the authority itself is in TestDomain.
func TestFetchCertificates(t *testing.T) {
	asked := map[string]int{}
	get := func(hello *tls.ClientHelloInfo) (*tls.Certificate, error) {
		asked[hello.ServerName]++
		if hello.ServerName == "slow.test" && asked["slow.test"] < 3 {
			return nil, errors.New("no such name")
		}
		return &tls.Certificate{}, nil
	}
	var logs bytes.Buffer
	names := []string{"slow.test", "quick.test"}
	fetchCertificates(t.Context(), zerolog.New(&logs), names, time.Millisecond, get)
	assert.Equal(t, map[string]int{"slow.test": 3, "quick.test": 1}, asked)
	assert.Equal(t, []string{"slow.test", "quick.test"}, names, "what the server goes by is left alone")
	assert.Equal(t, 2, bytes.Count(logs.Bytes(), []byte("no such name")))
	assert.Equal(t, 2, bytes.Count(logs.Bytes(), []byte("the certificate is there")))

	stopping, stop := context.WithCancel(t.Context())
	logs.Reset()
	fetchCertificates(stopping, zerolog.New(&logs), names, time.Hour, func(*tls.ClientHelloInfo) (*tls.Certificate, error) {
		stop()
		return nil, errors.New("cut off")
	})
	assert.Empty(t, logs.String(), "who stops hears no more of it")
}

func TestToHTTPS(t *testing.T) {
	for _, c := range []struct {
		domains    []string
		port       int
		host, want string
	}{
		{nil, 443, "bikes.test:80", "https://bikes.test/a?b"},
		{nil, 8443, "192.0.2.7", "https://192.0.2.7:8443/a?b"},
		{nil, 443, "[2001:db8::1]:80", "https://[2001:db8::1]/a?b"},
		{nil, 443, "[2001:db8::1]", "https://[2001:db8::1]/a?b"},
		{nil, 8443, "[2001:db8::1]", "https://[2001:db8::1]:8443/a?b"},
		{[]string{"a.test", "b.test"}, 443, "b.test", "https://b.test/a?b"},
		{[]string{"a.test", "b.test"}, 443, "evil.test", "https://a.test/a?b"},
	} {
		r, w := httptest.NewRequest(http.MethodGet, "/a?b", nil), httptest.NewRecorder()
		r.Host = c.host
		toHTTPS(c.domains, c.port).ServeHTTP(w, r)
		assert.Equal(t, c.want, w.Header().Get("Location"), c.host)
	}
}
