// Package web serves the built app: index.html for every place of the app, the
// service worker, and files whose names carry the hash of their content.
package web

import (
	"io"
	"io/fs"
	"net/http"
	"path"
	"strings"

	"tautspan/assets"
)

// hashed is where files lie whose content never changes under their name.
const hashed = "/files/"

// notBuilt is the page of a program that was compiled without the app in it.
const notBuilt = `<!doctype html><html lang="en"><meta charset="utf-8"><title>Tautspan: not built</title>
<h1>The app is not in this program</h1>
<p>It was compiled without the page. Run <code>make build</code> in the source folder and start
<code>./tautspan</code>. The calculations at <code>/api/v1/calc/</code> work all the same.</p>
`

// Handler serves the app inside this program.
func Handler() http.Handler {
	dist, err := fs.Sub(assets.Dist, "dist")
	if err != nil {
		panic("web: " + err.Error()) // the folder is embedded, so only a mistake here can do this
	}
	return FromDist(dist)
}

// Version is which build of the page is inside this program, as the page itself
// shows it; empty when there is none.
func Version() string {
	page, err := assets.Dist.ReadFile("dist/index.html")
	if err != nil {
		return ""
	}
	_, rest, _ := strings.Cut(string(page), `<meta name="tautspan-build" content="`)
	version, _, _ := strings.Cut(rest, `"`)
	return version
}

// FromDist serves a folder as the build writes it; without index.html every
// page says that the app was not built.
func FromDist(dist fs.FS) http.Handler {
	return &site{files: load(dist)}
}

type site struct{ files map[string]*file }

// ServeHTTP answers GET and HEAD.
func (s *site) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	protect(w.Header(), "'none'")
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		http.Error(w, "only GET and HEAD are allowed here", http.StatusMethodNotAllowed)
		return
	}
	if r.URL.Path == helpPath {
		serveHelp(w, r)
		return
	}
	switch f := s.find(r.URL.Path); {
	case f != nil:
		f.serve(w, r)
	case !isPlace(r.URL.Path):
		w.Header().Set("Cache-Control", "no-store")
		http.Error(w, "there is no such file", http.StatusNotFound)
	default:
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		w.Header().Set("Cache-Control", "no-store")
		w.WriteHeader(http.StatusServiceUnavailable)
		_, _ = io.WriteString(w, notBuilt) // the client is gone; nobody to tell
	}
}

// find returns the file for a path, index.html for every place of the app.
func (s *site) find(urlPath string) *file {
	if f := s.files[urlPath]; f != nil {
		return f
	}
	if isPlace(urlPath) {
		return s.files["/index.html"]
	}
	return nil
}

// isPlace tells places of the app (/, /bikes) from files, by the dot in the
// last part, and from the server's own paths.
func isPlace(urlPath string) bool {
	return !strings.Contains(path.Base(urlPath), ".") &&
		!strings.HasPrefix(urlPath, hashed) && !strings.HasPrefix(urlPath, "/api/")
}
