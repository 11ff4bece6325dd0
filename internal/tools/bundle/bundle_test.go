package main

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/base64"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sources is a small app of its own, so that these tests need no npm packages.
var sources = map[string]string{
	"index.html": `<!doctype html><html lang="en"><head><meta charset="utf-8" />` +
		`<link rel="manifest" href="manifest.webmanifest"><link rel="icon" href="icons/mark.svg">` +
		`<link rel="stylesheet" href="styles/app.css"><script type="module" src="app/main.js"></script></head>` +
		`<body><a href="/bikes">Bikes</a><a href="#top">Top</a></body></html>`,
	"manifest.webmanifest":   `{"id":"/","name":"x","icons":[{"src":"icons/mark.svg","sizes":"any"}]}`,
	"icons/mark.svg":         `<svg xmlns="http://www.w3.org/2000/svg"/>`,
	"styles/app.css":         `@import "./more.css"; body { color: red }`,
	"styles/more.css":        `p { color: blue }`,
	"app/main.js":            `import { greet } from "./greet.js"; greet(); import("../places/bikes.js");`,
	"app/greet.js":           `export function greet() { document.title = "hello"; }`,
	"places/bikes.js":        `import { greet } from "../app/greet.js"; export const places = { greet };`,
	"engine/worker.js":       `import "wasm_exec"; postMessage(typeof Go);`,
	"engine/photo-worker.js": `import "wasm_exec"; postMessage("photo");`,
	"sw.js":                  `self.addEventListener("install", () => [VERSION, PRECACHE, LATER]);`,
}

var both = engines{
	main:  bytes.Repeat([]byte("not really an engine "), 100),
	photo: bytes.Repeat([]byte("nor is this one "), 100),
}

// others are the licences of what else is in the program.
var others = licences{"Do as you please.": {"one 1.0"}}

func write(t *testing.T, changes map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	all := maps.Clone(sources)
	maps.Copy(all, changes)
	for name, text := range all {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	return dir
}

func mustBuild(t *testing.T, changes map[string]string) *site {
	t.Helper()
	s, err := build(write(t, changes), both, others)
	require.NoError(t, err)
	return s
}

func TestBuild_sameSourcesSameBytes(t *testing.T) {
	one, two := mustBuild(t, nil), mustBuild(t, nil)
	assert.Equal(t, one.version, two.version)
	assert.Equal(t, one.files, two.files)
}

func TestBuild_everyByteCountsForTheVersion(t *testing.T) {
	seen := map[string]string{mustBuild(t, nil).version: "unchanged"}
	for name, change := range map[string]string{
		"index.html": " ", "manifest.webmanifest": "\n", "icons/mark.svg": " ",
		"styles/more.css": "i{color:red}", "app/greet.js": ";greet.x=1",
		"places/bikes.js": ";places.x=1", "engine/worker.js": ";postMessage(1)",
	} {
		text := sources[name] + change
		if name == "manifest.webmanifest" {
			text = strings.Replace(sources[name], `"x"`, `"y"`, 1)
		}
		version := mustBuild(t, map[string]string{name: text}).version
		assert.Empty(t, seen[version], name)
		seen[version] = name
	}
	other, err := build(write(t, nil), engines{[]byte("another engine"), both.photo}, others)
	require.NoError(t, err)
	assert.Empty(t, seen[other.version], "engine")
	seen[other.version] = "engine"
	other, err = build(write(t, nil), engines{both.main, []byte("another engine")}, others)
	require.NoError(t, err)
	assert.Empty(t, seen[other.version], "photo engine")
}

func TestBuild_pageNamesOnlyWhatIsThere(t *testing.T) {
	s := mustBuild(t, nil)
	page := string(s.files["/"])
	urls := regexp.MustCompile(`/files/[^"]+`).FindAllString(page, -1)
	assert.GreaterOrEqual(t, len(urls), 9, "manifest, icon, script and what it imports, worker, engine twice, licences")
	for _, url := range urls {
		assert.Contains(t, s.files, url)
	}
	assert.Contains(t, page, "<style>p{color:#00f}body{color:red}\n</style>")
	assert.NotContains(t, page, "stylesheet")
	assert.Contains(t, page, `href="/bikes"`)
	assert.Contains(t, page, `href="#top"`)
	assert.Contains(t, page, `content="`+s.version+`"`)
}

// The integrity is that of W3C Subresource Integrity: the base64 of SHA-256.
func TestBuild_serviceWorkerListsEverything(t *testing.T) {
	s := mustBuild(t, nil)
	worker := string(s.files["/sw.js"])
	assert.Contains(t, worker, s.version)
	for url, content := range s.files {
		if url == "/sw.js" {
			continue
		}
		sum := sha256.Sum256(content)
		assert.Contains(t, worker, `["`+url+`","sha256-`+base64.StdEncoding.EncodeToString(sum[:])+`"]`)
	}
	// The photo engine stands in a list of its own: few riders load it.
	lists := regexp.MustCompile(`\[\[.*?\]\]`).FindAllString(worker, -1)
	require.Len(t, lists, 2)
	later := lists[slices.IndexFunc(lists, func(list string) bool { return strings.Contains(list, "photo") })]
	assert.Equal(t, 2, strings.Count(later, "/files/"))
	assert.Equal(t, 2, strings.Count(worker, "/files/photo"))
	assert.Contains(t, later, s.urls["engine/photo.wasm"])
	assert.Contains(t, later, s.urls["engine/photo-worker.js"])
}

// What all parts share is loaded with the page; a part of its own only when it is
// wanted, under a name that changes with its content.
func TestBuild_partsAreFilesOfTheirOwn(t *testing.T) {
	s := mustBuild(t, nil)
	page := string(s.files["/"])
	shared, part := "", ""
	for url, content := range s.files {
		if strings.Contains(string(content), `"hello"`) {
			shared = url
		}
		if strings.HasPrefix(url, "/files/bikes-") {
			part = url
		}
	}
	require.NotEmpty(t, part)
	assert.Contains(t, page, `<link rel="modulepreload" href="`+shared+`">`)
	assert.NotContains(t, page, part)
	assert.Contains(t, string(s.files[s.urls["app/main.js"]]), strings.TrimPrefix(part, "/files"))
	other := mustBuild(t, map[string]string{"places/bikes.js": sources["places/bikes.js"] + ";places.x=1"})
	assert.NotContains(t, other.files, part)
}

func TestBuild_licences(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "src")
	require.NoError(t, os.Rename(write(t, map[string]string{
		"app/greet.js": `import { kind } from "@some/thing"; import "unused"; export const greet = () => kind;`,
	}), dir))
	for name, text := range map[string]string{
		"@some/thing/package.json": `{"name":"@some/thing","version":"1.2.3","main":"index.js"}`,
		"@some/thing/index.js":     `export const kind = "a thing";`,
		"@some/thing/LICENSE":      "Do as you please.\r\n",
		"unused/package.json":      `{"name":"unused","version":"1.0.0","main":"index.js","sideEffects":false}`,
		"unused/index.js":          `export const nothing = 1;`,
	} {
		file := filepath.Join(dir, "..", "node_modules", name)
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	}
	s, err := build(dir, both, licences{"Do as you please.": {"one 1.0"}, "Do not.": {"two 2.0"}})
	require.NoError(t, err)
	text := string(s.files[s.urls[licencesName]])
	assert.Equal(t, "@some/thing 1.2.3\none 1.0\n\nDo as you please.\n\n"+strings.Repeat("-", 72)+"\n\ntwo 2.0\n\nDo not.\n", text)

	require.NoError(t, os.Remove(filepath.Join(dir, "../node_modules/@some/thing/LICENSE")))
	_, err = build(dir, both, others)
	assert.ErrorContains(t, err, "the licence of @some/thing 1.2.3")
}

func TestBuild_ErrSources(t *testing.T) {
	for says, changes := range map[string]map[string]string{
		`index.html names "icons/gone.png"`:           {"index.html": sources["index.html"] + `<img src="icons/gone.png">`},
		`manifest.webmanifest names "icons/gone.png"`: {"manifest.webmanifest": `{"icons":[{"src":"icons/gone.png"}]}`},
		"manifest.webmanifest: ":                      {"manifest.webmanifest": `{`},
		"main.js":                                     {"app/main.js": `import "./gone.js"`},
		"index.html must hold":                        {"index.html": "<!doctype html>"},
	} {
		_, err := build(write(t, changes), both, others)
		require.Error(t, err, says)
		assert.Contains(t, err.Error(), says)
	}
}

func TestSite_write(t *testing.T) {
	out := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(out, "placeholder.txt"), []byte("stays"), 0o644))
	require.NoError(t, mustBuild(t, map[string]string{"app/greet.js": "export const greet = () => 1"}).write(out))
	s := mustBuild(t, nil)
	require.NoError(t, s.write(out))
	found := []string{}
	require.NoError(t, filepath.WalkDir(out, func(name string, entry os.DirEntry, err error) error {
		if !entry.IsDir() {
			relative, _ := filepath.Rel(out, name)
			found = append(found, "/"+filepath.ToSlash(relative))
		}
		return err
	}))
	wanted := []string{"/placeholder.txt"}
	for url, content := range s.files {
		if url == "/" {
			url = "/index.html"
		}
		wanted = append(wanted, url)
		for _, ext := range []string{".br", ".gz"} {
			if slices.Contains(found, url+ext) {
				wanted = append(wanted, url+ext)
				assert.Equal(t, content, unpack(t, filepath.Join(out, url)+ext), url+ext)
			}
		}
	}
	assert.ElementsMatch(t, wanted, found, "the old build's files are gone")
	assert.Contains(t, found, "/index.html.br")
	assert.Contains(t, found, "/index.html.gz")
}

func unpack(t *testing.T, name string) []byte {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	var r io.Reader = brotli.NewReader(f)
	if strings.HasSuffix(name, ".gz") {
		r, err = gzip.NewReader(f)
		require.NoError(t, err)
	}
	content, err := io.ReadAll(r)
	require.NoError(t, err)
	return content
}
