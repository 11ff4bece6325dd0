package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// targets are the oldest browsers the syntax is written for.
var targets = []api.Engine{
	{Name: api.EngineChrome, Version: "100"},
	{Name: api.EngineFirefox, Version: "100"},
	{Name: api.EngineSafari, Version: "15.4"},
}

// addPageScripts bundles the page's script into files: what it starts with, and
// each part that it imports when it is wanted.
func (s *site) addPageScripts(source string) error {
	const entry = "app/main.js"
	dir, err := filepath.Abs(source)
	if err != nil {
		return err
	}
	result, err := bundle(entry, api.BuildOptions{
		AbsWorkingDir: dir, Outdir: dir, Metafile: true,
		Format: api.FormatESModule, Splitting: true,
		EntryNames: "[name]-[hash]", ChunkNames: "[name]-[hash]",
		// Nothing is a LitElement, so its half of the package stays out.
		Alias: map[string]string{"lit": "lit-html"},
	})
	if err != nil {
		return err
	}
	for _, file := range result.OutputFiles {
		s.files[filesPath+filepath.Base(file.Path)] = file.Contents
	}
	return s.readPlan(result.Metafile, dir, entry)
}

// readPlan takes from esbuild's account of a build which file is the entry,
// which ones it imports at once, and what packages are in them.
func (s *site) readPlan(account, dir, entry string) error {
	var plan struct {
		Outputs map[string]struct {
			EntryPoint string
			Imports    []struct{ Path, Kind string }
			Inputs     map[string]struct{ BytesInOutput int }
		}
	}
	if err := json.Unmarshal([]byte(account), &plan); err != nil {
		return fmt.Errorf("reading esbuild's account: %w", err)
	}
	for name, output := range plan.Outputs {
		for input, share := range output.Inputs {
			if found := packageOf.FindString(input); found != "" && share.BytesInOutput > 0 {
				s.packages[filepath.Join(dir, found)] = true
			}
		}
		if output.EntryPoint != entry {
			continue
		}
		s.urls[entry] = filesPath + name
		for _, one := range output.Imports {
			if one.Kind == "import-statement" {
				s.first = append(s.first, filesPath+one.Path)
			}
		}
	}
	return nil
}

// packageOf finds the folder of an npm package in the path of one of its files.
var packageOf = regexp.MustCompile(`^.*node_modules/(@[^/]+/)?[^/]+`)

// addScripts bundles the engines' workers.
func (s *site) addScripts(source string) error {
	support, err := goSupport()
	if err != nil {
		return err
	}
	for _, entry := range []string{"engine/worker.js", "engine/photo-worker.js"} {
		result, err := bundle(filepath.Join(source, entry), api.BuildOptions{
			Format: api.FormatIIFE, Alias: map[string]string{"wasm_exec": support},
		})
		if err != nil {
			return err
		}
		url := s.add(entry, result.OutputFiles[0].Contents)
		s.later[url] = strings.Contains(entry, "/photo")
	}
	return nil
}

// addServiceWorker makes /sw.js last, since it lists everything else.
func (s *site) addServiceWorker(source string) error {
	result, err := bundle(filepath.Join(source, "sw.js"), api.BuildOptions{
		Format: api.FormatIIFE,
		Define: map[string]string{
			"VERSION":  fmt.Sprintf("%q", s.version),
			"PRECACHE": s.list(func(url string) bool { return !s.later[url] }),
			"LATER":    s.list(func(url string) bool { return s.later[url] }),
		},
	})
	if err != nil {
		return err
	}
	s.files["/sw.js"] = result.OutputFiles[0].Contents
	return nil
}

// list writes URLs with their integrity as JavaScript.
func (s *site) list(wanted func(url string) bool) string {
	list := []string{}
	for _, entry := range s.integrities(wanted) {
		list = append(list, fmt.Sprintf("[%q,%q]", entry[0], entry[1]))
	}
	return "[" + strings.Join(list, ",") + "]"
}

// bundle minifies an entry and all it imports. Licences have a file of their own.
func bundle(entry string, options api.BuildOptions) (api.BuildResult, error) {
	options.EntryPoints = []string{entry}
	options.Bundle = true
	options.MinifyWhitespace, options.MinifyIdentifiers, options.MinifySyntax = true, true, true
	options.Engines = targets
	options.Charset = api.CharsetUTF8
	options.LegalComments = api.LegalCommentsNone
	options.LogLevel = api.LogLevelSilent
	result := api.Build(options)
	if len(result.Errors) > 0 {
		said := api.FormatMessages(result.Errors, api.FormatMessagesOptions{Kind: api.ErrorMessage})
		return result, errors.New("bundling " + entry + ":\n" + strings.Join(said, ""))
	}
	return result, nil
}
