package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// spareInlining returns the main engine's compiler flags and environment.
// Copying functions into their callers as usual would put it past its size
// budget; so only those of a cost of 55 instead of 80 are copied, but where the
// forecast and whatever reads and writes texts spend their time. A compiler that
// no longer knows the experiment with this setting copies none.
func spareInlining() []string {
	const experiment = "GOEXPERIMENT=newinliner"
	where := []string{}
	for _, one := range []string{"math", "tautspan/internal/num", "tautspan/internal/forecast", "strings", "unicode/utf8", "tautspan/internal/jsonscan"} {
		where = append(where, "-gcflags="+one+"=")
	}
	ask := exec.Command("go", "env", "GOOS")
	ask.Env = append(os.Environ(), experiment)
	if ask.Run() != nil {
		return append([]string{"-gcflags=all=-l"}, where...)
	}
	return append([]string{experiment, "-gcflags=all=-d=inlbudgetslack=-25"}, where...)
}

// engines are the two programs of the phone.
type engines struct{ main, photo []byte }

// compileEngines compiles both. The photo engine is for speed, and loaded by
// some only, so its small functions are inlined.
func compileEngines() (e engines, err error) {
	if e.main, err = compile("./wasm", spareInlining()); err != nil {
		return e, err
	}
	e.photo, err = compile("./wasm/photo", nil)
	return e, err
}

// compile returns a program as WebAssembly, without paths, symbols or anything
// else that differs from one machine to the next. Settings are flags, and what
// does not begin with - is environment.
func compile(program string, settings []string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "tautspan-engine")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "engine.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid=", "-o", out}
	env := append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=")
	for _, setting := range settings {
		if strings.HasPrefix(setting, "-") {
			args = append(args, setting)
		} else {
			env = append(env, setting)
		}
	}
	cmd := exec.Command("go", append(args, program)...)
	cmd.Env = env
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("compiling %s: %w\n%s", program, err, said)
	}
	compiled, err := os.ReadFile(out)
	if err != nil {
		return nil, err
	}
	return oneSegment(compiled)
}

// goSupport returns the path of the script that runs a Go program in the
// browser. It belongs to the toolchain and changes with it, so it is taken from
// there and never kept in the repository.
func goSupport() (string, error) {
	root, err := goRoot()
	return filepath.Join(root, "lib", "wasm", "wasm_exec.js"), err
}

// goRoot returns the toolchain's folder.
func goRoot() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("asking go for its folder: %w", err)
	}
	return strings.TrimSpace(string(root)), nil
}
