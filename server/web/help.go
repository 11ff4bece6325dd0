package web

import (
	"embed"
	"net/http"
	"strings"
	"time"
)

// helpPath is where the page is that tells why a phone needs HTTPS and how to
// get it. It must work over plain HTTP and without the app.
const helpPath = "/https"

//go:embed pages/*.html
var pages embed.FS

// helpPage is the page in one language, with a policy that allows its own style
// and nothing else.
type helpPage struct{ text, policy string }

var help = map[string]helpPage{"en": loadHelp("en"), "de": loadHelp("de")}

func loadHelp(language string) helpPage {
	text, err := pages.ReadFile("pages/https." + language + ".html")
	if err != nil {
		panic("web: " + err.Error()) // the pages are embedded, so only a mistake here can do this
	}
	return helpPage{string(text), "default-src 'none'; style-src " + styleOf(text) +
		"; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"}
}

func serveHelp(w http.ResponseWriter, r *http.Request) {
	page := help["en"]
	if first, _, _ := strings.Cut(r.Header.Get("Accept-Language"), ","); strings.HasPrefix(strings.ToLower(first), "de") {
		page = help["de"]
	}
	h := w.Header()
	h.Set("Content-Security-Policy", page.policy)
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Vary", "Accept-Language")
	h.Set("Cache-Control", "no-cache")
	http.ServeContent(w, r, "", time.Time{}, strings.NewReader(page.text))
}
