// Command bundle builds the app: it compiles the engines to WebAssembly, bundles
// scripts and styles, names every file by its content, writes the list that the
// service worker keeps, and compresses everything. The same sources and tools
// give the same bytes. It runs from the folder that holds go.mod, after
// `npm ci` in assets.
package main

import (
	"flag"
	"fmt"
	"os"
	"strings"
)

func main() {
	source := flag.String("src", "assets/src", "folder with the app's sources")
	out := flag.String("out", "assets/dist", "folder to write; everything in it but placeholder.txt is replaced")
	flags := flag.Bool("flags", false, "only print the engine's compiler flags and environment, one a line, to measure what is shipped")
	flag.Parse()
	if *flags {
		fmt.Println(strings.Join(spareInlining(), "\n"))
		return
	}
	version, err := run(*source, *out)
	if err != nil {
		fmt.Fprintln(os.Stderr, "bundle:", err)
		os.Exit(1)
	}
	fmt.Println("bundled version", version)
}

func run(source, out string) (version string, err error) {
	both, err := compileEngines()
	if err != nil {
		return "", err
	}
	program, err := programLicences()
	if err != nil {
		return "", err
	}
	s, err := build(source, both, program)
	if err != nil {
		return "", err
	}
	return s.version, s.write(out)
}

// build makes the whole app in memory from its sources, the two engines, and
// the licences of what else is in the program.
func build(source string, both engines, program licences) (*site, error) {
	s := newSite()
	s.add("engine/engine.wasm", both.main)
	s.later[s.add("engine/photo.wasm", both.photo)] = true // see addScripts for its worker
	for _, step := range []func() error{
		func() error { return s.addStatic(source) },
		func() error { return s.addPageScripts(source) },
		func() error { return s.addScripts(source) },
		func() error { return s.addLicences(program) },
		func() error { return s.addManifest(source) },
		func() error { return s.addPage(source) },
		func() error { return s.addServiceWorker(source) },
	} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	return s, nil
}
