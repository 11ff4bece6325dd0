package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// spareInlining keeps the compiler from copying small functions into their
// callers, which would put the engine past its size budget, except where the
// forecast spends its time.
var spareInlining = []string{
	"-gcflags=all=-l",
	"-gcflags=math=",
	"-gcflags=tautspan/internal/num=",
	"-gcflags=tautspan/internal/forecast=",
}

// engines are the two programs of the phone.
type engines struct{ main, photo []byte }

// compileEngines compiles both. The photo engine is for speed, and loaded by
// some only, so its small functions are inlined.
func compileEngines() (e engines, err error) {
	if e.main, err = compile("./wasm", spareInlining); err != nil {
		return e, err
	}
	e.photo, err = compile("./wasm/photo", nil)
	return e, err
}

// compile returns a program as WebAssembly, without paths, symbols or anything
// else that differs from one machine to the next.
func compile(program string, flags []string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "tautspan-engine")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "engine.wasm")
	args := append([]string{"build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid=", "-o", out}, flags...)
	cmd := exec.Command("go", append(args, program)...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=")
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("compiling %s: %w\n%s", program, err, said)
	}
	return os.ReadFile(out)
}

// goSupport returns the path of the script that runs a Go program in the
// browser. It belongs to the toolchain and changes with it, so it is taken from
// there and never kept in the repository.
func goSupport() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("asking go for its folder: %w", err)
	}
	return filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"), nil
}
