package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"io/fs"
	"maps"
	"mime"
	"net/http"
	"path"
	"strings"
	"time"
)

// contentTypes is fixed here, since the system's own table differs by machine.
var contentTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".wasm":        "application/wasm",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".json":        "application/json",
	".txt":         "text/plain; charset=utf-8",
	".webmanifest": "application/manifest+json",
}

// file is one file of the app with its precompressed forms.
type file struct {
	contentType string
	cache       string
	hash        string
	style       string            // what its style-src is
	forms       map[string][]byte // by content coding; "" is the plain form
}

// load reads all of dist into memory, by URL path. Files ending in .gz and .br
// are forms of the file they are named after.
func load(dist fs.FS) map[string]*file {
	files := map[string]*file{}
	_ = fs.WalkDir(dist, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || name == "placeholder.txt" {
			return nil // what cannot be read is not served
		}
		content, err := fs.ReadFile(dist, name)
		if err != nil {
			return nil
		}
		plain, coding := formOf(name)
		f := files["/"+plain]
		if f == nil {
			f = &file{contentType: typeOf(plain), cache: cacheOf("/" + plain), forms: map[string][]byte{}}
			files["/"+plain] = f
		}
		f.forms[coding] = content
		if coding == "" {
			sum := sha256.Sum256(content)
			f.hash = hex.EncodeToString(sum[:12])
			f.style = styleOf(content)
		}
		return nil
	})
	maps.DeleteFunc(files, func(_ string, f *file) bool { return f.hash == "" }) // a form of nothing
	return files
}

func formOf(name string) (plain, coding string) {
	switch path.Ext(name) {
	case ".br":
		return strings.TrimSuffix(name, ".br"), "br"
	case ".gz":
		return strings.TrimSuffix(name, ".gz"), "gzip"
	}
	return name, ""
}

func typeOf(name string) string {
	if known := contentTypes[path.Ext(name)]; known != "" {
		return known
	}
	if guess := mime.TypeByExtension(path.Ext(name)); guess != "" {
		return guess
	}
	return "application/octet-stream"
}

func cacheOf(urlPath string) string {
	if strings.HasPrefix(urlPath, hashed) {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}

// serve answers with the smallest form the client takes. Each form has its own
// etag, so that a cache never joins parts of two.
func (f *file) serve(w http.ResponseWriter, r *http.Request) {
	coding := choose(r.Header.Get("Accept-Encoding"), f.forms)
	h := w.Header()
	protect(h, f.style)
	h.Set("Content-Type", f.contentType)
	h.Set("Cache-Control", f.cache)
	h.Set("Etag", `"`+f.hash+coding+`"`)
	if len(f.forms) > 1 {
		h.Set("Vary", "Accept-Encoding")
	}
	if coding != "" {
		h.Set("Content-Encoding", coding)
	}
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(f.forms[coding]))
}
