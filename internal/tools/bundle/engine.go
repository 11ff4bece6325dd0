package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// spareInlining keeps the compiler from copying the JSON reader's and writer's
// small functions into every message: 24 kB less to load with brotli (756 to
// 732 kB when it was introduced), and calculations run as fast as before.
const spareInlining = "-gcflags=tautspan/internal/wire=-l"

// compileEngine returns the engine as WebAssembly, without paths, symbols or
// anything else that differs from one machine to the next.
func compileEngine() ([]byte, error) {
	dir, err := os.MkdirTemp("", "tautspan-engine")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	out := filepath.Join(dir, "engine.wasm")
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid=", spareInlining, "-o", out, "./wasm")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0", "GOFLAGS=")
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("compiling the engine: %w\n%s", err, said)
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
