package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// targets are the oldest browsers the syntax is written for.
var targets = []api.Engine{
	{Name: api.EngineChrome, Version: "100"},
	{Name: api.EngineFirefox, Version: "100"},
	{Name: api.EngineSafari, Version: "15.4"},
}

// addScripts bundles the page's script and styles, its other language, and the
// engines' workers.
func (s *site) addScripts(source string) error {
	support, err := goSupport()
	if err != nil {
		return err
	}
	for _, entry := range []struct {
		path   string
		format api.Format
	}{
		{"app/main.js", api.FormatESModule},
		{"words/de.js", api.FormatESModule},
		{"styles/app.css", api.FormatDefault},
		{"engine/worker.js", api.FormatIIFE},
		{"engine/photo-worker.js", api.FormatIIFE},
	} {
		content, err := bundle(filepath.Join(source, entry.path), api.BuildOptions{
			Format: entry.format, Alias: map[string]string{"wasm_exec": support},
		})
		if err != nil {
			return err
		}
		url := s.add(entry.path, content)
		s.later[url] = strings.Contains(entry.path, "/photo")
	}
	return nil
}

// addServiceWorker makes /sw.js last, since it lists everything else.
func (s *site) addServiceWorker(source string) error {
	content, err := bundle(filepath.Join(source, "sw.js"), api.BuildOptions{
		Format: api.FormatIIFE,
		Define: map[string]string{
			"VERSION":  fmt.Sprintf("%q", s.version),
			"PRECACHE": s.list(func(url string) bool { return !s.later[url] }),
			"LATER":    s.list(func(url string) bool { return s.later[url] }),
		},
	})
	s.files["/sw.js"] = content
	return err
}

// list writes URLs with their integrity as JavaScript.
func (s *site) list(wanted func(url string) bool) string {
	list := []string{}
	for _, entry := range s.integrities(wanted) {
		list = append(list, fmt.Sprintf("[%q,%q]", entry[0], entry[1]))
	}
	return "[" + strings.Join(list, ",") + "]"
}

// bundle makes one minified file out of an entry and all it imports.
func bundle(entry string, options api.BuildOptions) ([]byte, error) {
	options.EntryPoints = []string{entry}
	options.Bundle = true
	options.MinifyWhitespace, options.MinifyIdentifiers, options.MinifySyntax = true, true, true
	options.Engines = targets
	options.Charset = api.CharsetUTF8
	options.LegalComments = api.LegalCommentsEndOfFile
	options.LogLevel = api.LogLevelSilent
	result := api.Build(options)
	if len(result.Errors) > 0 {
		said := api.FormatMessages(result.Errors, api.FormatMessagesOptions{Kind: api.ErrorMessage})
		return nil, errors.New("bundling " + entry + ":\n" + strings.Join(said, ""))
	}
	return result.OutputFiles[0].Contents, nil
}
