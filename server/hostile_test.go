package server_test

import (
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// A connection that never comes to the point is closed, and the server goes on
// for everybody else.
func TestSlowConnections(t *testing.T) {
	p := start(t, build(t), t.TempDir())
	defer p.kill()
	host := strings.TrimPrefix(p.url, "http://")
	var open []net.Conn
	for range 50 {
		conn, err := net.Dial("tcp", host)
		require.NoError(t, err)
		_, err = io.WriteString(conn, "GET / HTTP/1.1\r\nHost: x\r\nX-")
		require.NoError(t, err)
		open = append(open, conn)
	}
	resp, err := http.Get(p.url + "/healthz")
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	for _, conn := range open {
		require.NoError(t, conn.SetReadDeadline(time.Now().Add(time.Minute)))
		_, err := io.Copy(io.Discard, conn)
		assert.NoError(t, err, "the server closes it")
		require.NoError(t, conn.Close())
	}
}

// Another site's page can neither read answers nor act for the rider: there are
// no cookies to ride on, and no header lets it in.
func TestOtherSites(t *testing.T) {
	p := start(t, build(t), t.TempDir())
	defer p.kill()
	for _, method := range []string{"GET", "POST", "OPTIONS"} {
		for _, path := range []string{"/", "/https", "/healthz", "/api/v1/openapi.json", "/api/v1/garages", "/api/v1/garages/x/sync"} {
			r, err := http.NewRequest(method, p.url+path, strings.NewReader(`{"name":"G","device_name":"p"}`))
			require.NoError(t, err)
			r.Header.Set("Origin", "https://elsewhere.example")
			r.Header.Set("Access-Control-Request-Method", "POST")
			resp, err := http.DefaultClient.Do(r)
			require.NoError(t, err)
			require.NoError(t, resp.Body.Close())
			assert.Empty(t, resp.Header["Set-Cookie"])
			for name := range resp.Header {
				assert.NotContains(t, name, "Access-Control")
			}
			assert.Equal(t, "same-origin", resp.Header.Get("Cross-Origin-Resource-Policy"))
		}
	}
}

// Every threat in DEVELOPERS.md has a test beside it; that there is such a test is
// held by internal/meta.
func TestThreats_haveTests(t *testing.T) {
	root := testkit.Root(t)
	text, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	require.NoError(t, err)
	_, section, found := strings.Cut(string(text), "\n## Threats\n")
	require.True(t, found)
	section, _, _ = strings.Cut(section, "\n## ")
	rows := strings.Split(strings.TrimSpace(section[strings.Index(section, "| ---"):]), "\n")[1:]
	name := regexp.MustCompile("`(Test|Fuzz)[A-Za-z0-9_]+`")
	n := 0
	for _, row := range rows {
		if !strings.HasPrefix(row, "|") {
			break
		}
		n++
		assert.Regexp(t, name, row, "no test stands in it")
	}
	assert.Greater(t, n, 10, "the table is gone")
}
