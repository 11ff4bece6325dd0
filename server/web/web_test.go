package web

import (
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func dist() fstest.MapFS {
	page := "<style>p{margin:0}</style>" + strings.Repeat("<p>page</p>", 50)
	return fstest.MapFS{
		"placeholder.txt":        {Data: []byte("placeholder")},
		"index.html":             {Data: []byte(page)},
		"index.html.gz":          {Data: []byte("gz of the page")},
		"index.html.br":          {Data: []byte("br of page")},
		"sw.js":                  {Data: []byte("worker")},
		"files/engine-ab.wasm":   {Data: []byte("\x00asm")},
		"files/mark-cd.svg":      {Data: []byte("<svg/>")},
		"files/app-ef.js":        {Data: []byte("script script script")},
		"files/app-ef.js.gz":     {Data: []byte("gz")},
		"files/x-01.webmanifest": {Data: []byte("{}")},
	}
}

func request(t *testing.T, h http.Handler, method, path string, headers ...string) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestFromDist_paths(t *testing.T) {
	h := FromDist(dist())
	const lasting, fresh = "public, max-age=31536000, immutable", "no-cache"
	for _, row := range []struct {
		path, contentType, cache string
		status                   int
	}{
		{"/", "text/html; charset=utf-8", fresh, 200},
		{"/bikes", "text/html; charset=utf-8", fresh, 200},
		{"/bikes/0190-ab", "text/html; charset=utf-8", fresh, 200},
		{"/index.html", "text/html; charset=utf-8", fresh, 200},
		{"/sw.js", "text/javascript; charset=utf-8", fresh, 200},
		{"/files/engine-ab.wasm", "application/wasm", lasting, 200},
		{"/files/mark-cd.svg", "image/svg+xml", lasting, 200},
		{"/files/x-01.webmanifest", "application/manifest+json", lasting, 200},
		{"/files/app-old.js", "", "no-store", 404},
		{"/files/", "", "no-store", 404},
		{"/files", "text/html; charset=utf-8", fresh, 200},
		{"/favicon.ico", "", "no-store", 404},
		{"/placeholder.txt", "", "no-store", 404},
		{"/index.html.br", "", "no-store", 404},
		{"/api/v1/nothing", "", "no-store", 404},
		{"/../go.mod", "", "no-store", 404},
	} {
		w := request(t, h, "GET", row.path)
		assert.Equal(t, row.status, w.Code, row.path)
		assert.Equal(t, row.cache, w.Header().Get("Cache-Control"), row.path)
		if row.contentType != "" {
			assert.Equal(t, row.contentType, w.Header().Get("Content-Type"), row.path)
		}
	}
}

// RFC 9110 section 12.5.3: Accept-Encoding; a quality of 0 means "not acceptable".
func TestFromDist_codings(t *testing.T) {
	h := FromDist(dist())
	for _, row := range []struct{ accept, coding string }{
		{"", ""},
		{"gzip, deflate, br, zstd", "br"},
		{"gzip", "gzip"},
		{"GZIP", "gzip"},
		{"br;q=0, gzip;q=0.5", "gzip"},
		{"br;q=0.000, gzip; q=0", ""},
		{"*", "br"},
		{"*;q=0", ""},
		{"br;q=0, *", "gzip"},
		{"brr, xgzip", ""},
		{"br;q=x", ""},
		{"identity", ""},
	} {
		w := request(t, h, "GET", "/", "Accept-Encoding", row.accept)
		assert.Equal(t, row.coding, w.Header().Get("Content-Encoding"), row.accept)
		assert.Equal(t, "Accept-Encoding", w.Header().Get("Vary"), row.accept)
	}
	w := request(t, h, "GET", "/files/mark-cd.svg", "Accept-Encoding", "br")
	assert.Empty(t, w.Header().Get("Content-Encoding"), "no compressed form was built")
	assert.Empty(t, w.Header().Get("Vary"))
}

func TestFromDist_etags(t *testing.T) {
	h := FromDist(dist())
	plain := request(t, h, "GET", "/").Header().Get("Etag")
	small := request(t, h, "GET", "/", "Accept-Encoding", "br").Header().Get("Etag")
	require.NotEmpty(t, plain)
	assert.NotEqual(t, plain, small, "two forms, two etags")
	assert.Equal(t, http.StatusNotModified, request(t, h, "GET", "/", "If-None-Match", plain).Code)
	assert.Equal(t, http.StatusOK, request(t, h, "GET", "/", "If-None-Match", `"other"`).Code)
	changed := dist()
	changed["index.html"].Data = []byte("another page")
	assert.NotEqual(t, plain, request(t, FromDist(changed), "GET", "/").Header().Get("Etag"))
}

func TestFromDist_methods(t *testing.T) {
	h := FromDist(dist())
	head := request(t, h, "HEAD", "/sw.js")
	assert.Equal(t, http.StatusOK, head.Code)
	assert.Empty(t, head.Body.Bytes())
	assert.Equal(t, "6", head.Header().Get("Content-Length"))
	post := request(t, h, "POST", "/")
	assert.Equal(t, http.StatusMethodNotAllowed, post.Code)
	assert.Equal(t, "GET, HEAD", post.Header().Get("Allow"))
}

// The directives are those of Content Security Policy Level 3 (W3C).
func TestFromDist_policies(t *testing.T) {
	for _, path := range []string{"/", "/sw.js", "/files/app-ef.js", "/missing.js"} {
		h := request(t, FromDist(dist()), "GET", path).Header()
		policy := h.Get("Content-Security-Policy")
		style := "style-src 'none'"
		if path == "/" {
			// printf 'p{margin:0}' | openssl dgst -sha256 -binary | base64
			style = "style-src 'sha256-QRQPRLGyxt3RJiKpYNjpkgHcmHU2PywsfL2e8oI0LQA='"
		}
		for _, directive := range []string{"default-src 'none'", "script-src 'self' 'wasm-unsafe-eval'", style, "frame-ancestors 'none'", "base-uri 'none'"} {
			assert.Contains(t, policy, directive, path)
		}
		for _, hole := range []string{"'unsafe-inline'", "'unsafe-eval'", "http:", "https:", "data:", "blob:", "*"} {
			assert.NotContains(t, policy, hole, path)
		}
		assert.Contains(t, h.Get("Permissions-Policy"), "microphone=()", path)
	}
}

func TestFromDist_ErrNotBuilt(t *testing.T) {
	h := FromDist(fstest.MapFS{"placeholder.txt": {Data: []byte("placeholder")}})
	w := request(t, h, "GET", "/")
	assert.Equal(t, http.StatusServiceUnavailable, w.Code)
	assert.Contains(t, w.Body.String(), "make build")
	assert.Equal(t, http.StatusNotFound, request(t, h, "GET", "/sw.js").Code)
}

func TestHandler_servesWhatIsEmbedded(t *testing.T) {
	w := request(t, Handler(), "GET", "/")
	assert.Contains(t, []int{http.StatusOK, http.StatusServiceUnavailable}, w.Code)
	assert.Contains(t, w.Body.String(), "<!doctype html>")
}

// The page about HTTPS is there without the app, in the reader's language, and
// its policy allows its own style.
func TestHelp(t *testing.T) {
	for language, title := range map[string]string{"": "Why a phone needs HTTPS here", "de-AT,de;q=0.9": "Warum ein Telefon hier HTTPS braucht", "fr": "Why a phone"} {
		r := httptest.NewRequest("GET", "/https", nil)
		r.Header.Set("Accept-Language", language)
		w := httptest.NewRecorder()
		FromDist(fstest.MapFS{}).ServeHTTP(w, r)
		assert.Equal(t, http.StatusOK, w.Code)
		assert.Contains(t, w.Body.String(), title)
		assert.Contains(t, w.Body.String(), "tautspan serve --domain")
		_, rest, _ := strings.Cut(w.Body.String(), "<style>")
		style, _, _ := strings.Cut(rest, "</style>")
		sum := sha256.Sum256([]byte(style))
		assert.Contains(t, w.Header().Get("Content-Security-Policy"), "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
}
