package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"

	"github.com/evanw/esbuild/pkg/api"
)

// named finds what index.html loads: relative href and src.
var named = regexp.MustCompile(`\b(href|src)="([^"/#:?][^":?#]*)"`)

// styled finds the style sheet that index.html links to.
var styled = regexp.MustCompile(`<link rel="stylesheet" href="([^"]+)" ?/?>`)

// addManifest takes in the web app manifest with its icons' URLs.
func (s *site) addManifest(source string) error {
	const name = "manifest.webmanifest"
	text, err := os.ReadFile(filepath.Join(source, name))
	if err != nil {
		return err
	}
	manifest := map[string]any{}
	if err := json.Unmarshal(text, &manifest); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	icons, _ := manifest["icons"].([]any)
	for _, icon := range icons {
		fields, _ := icon.(map[string]any)
		src, _ := fields["src"].(string)
		if fields["src"], err = s.url(src, name); err != nil {
			return err
		}
	}
	text, err = json.Marshal(manifest)
	s.add(name, text)
	return err
}

// addPage takes in index.html with its style sheet inside, which spares a slow
// line one trip before text is seen; with the URLs of what it loads, and with the
// build's meta element and the engine's preload, which sync/build.js and
// engine/engine.js read, and those of the scripts that the page's own imports.
// The version covers everything, the page before its own version was put in
// included.
func (s *site) addPage(source string) error {
	page, err := os.ReadFile(filepath.Join(source, "index.html"))
	if err != nil {
		return err
	}
	page = styled.ReplaceAllFunc(page, func(match []byte) []byte {
		css, wrong := bundle(filepath.Join(source, string(styled.FindSubmatch(match)[1])), api.BuildOptions{})
		if err = errors.Join(err, wrong); err != nil {
			return match
		}
		return fmt.Appendf(nil, "<style>%s</style>", css.OutputFiles[0].Contents)
	})
	page = named.ReplaceAllFunc(page, func(match []byte) []byte {
		parts := named.FindSubmatch(match)
		url, missing := s.url(string(parts[2]), "index.html")
		err = errors.Join(err, missing)
		return fmt.Appendf(nil, "%s=%q", parts[1], url)
	})
	if err != nil {
		return err
	}
	s.files["/"] = page
	s.version = s.hash()
	const anchor = `<meta charset="utf-8" />`
	if bytes.Count(page, []byte(anchor)) != 1 {
		return errors.New("index.html must hold " + anchor + " once; the build puts its own elements after it")
	}
	head := anchor + fmt.Sprintf(`
    <meta name="tautspan-build" content="%s" data-worker="%s" data-wasm="%s" data-photo="%s" data-photo-worker="%s" data-licences="%s">
    <link rel="preload" as="fetch" type="application/wasm" href="%[3]s" crossorigin>`,
		s.version, s.urls["engine/worker.js"], s.urls["engine/engine.wasm"], s.urls["engine/photo.wasm"], s.urls["engine/photo-worker.js"], s.urls[licencesName])
	for _, url := range s.first {
		head += fmt.Sprintf("\n    <link rel=%q href=%q>", "modulepreload", url)
	}
	s.files["/"] = bytes.Replace(page, []byte(anchor), []byte(head), 1)
	return nil
}
