package meta_test

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/testkit"
)

// banned names what the engine must never import, and why. A name ending in /
// stands for everything below it.
var banned = map[string]string{
	"tautspan/server":            "the engine knows no technology",
	"tautspan/server/":           "the engine knows no technology",
	"tautspan/assets":            "the engine knows no technology",
	"tautspan/wasm":              "the engine knows no technology",
	"net/http":                   "1.4 MB of WebAssembly, and the engine knows no network",
	"database/sql":               "storage belongs to server/store",
	"github.com/gorilla/mux":     "routes belong to the server",
	"github.com/mattn/":          "storage belongs to server/store",
	"github.com/rs/":             "the engine returns errors and never logs",
	"github.com/stretchr/":       "tests only",
	"gonum.org/":                 "an oracle for tests only",
	"tautspan/internal/testkit":  "tests only",
	"tautspan/internal/testkit/": "tests only",
}

// bannedInWasm adds what would burst the size budget on the phone.
var bannedInWasm = map[string]string{
	"reflect":       "reflection keeps every method alive in the linker",
	"fmt":           "imports reflect",
	"encoding/json": "imports reflect; internal/wire does the work",
	"time/tzdata":   "450 kB",
	"regexp":        "large, and plain parsing is clearer here",
	"text/template": "imports reflect",
	"os":            "the engine reads no files",
	// The photo engine is a file of its own, which only some riders load.
	"tautspan/internal/photo":  "belongs to the photo engine",
	"tautspan/internal/photo/": "belongs to the photo engine",
}

func deps(t *testing.T, env []string, packages ...string) []string {
	t.Helper()
	args := append([]string{"list", "-deps"}, packages...)
	cmd := exec.Command("go", args...)
	cmd.Dir = testkit.Root(t)
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.Output()
	require.NoError(t, err)
	return strings.Fields(string(out))
}

func requireNone(t *testing.T, imports []string, bans map[string]string) {
	t.Helper()
	for _, path := range imports {
		for ban, reason := range bans {
			if path == ban || strings.HasSuffix(ban, "/") && strings.HasPrefix(path, ban) {
				assert.Fail(t, "forbidden import", "%s: %s", path, reason)
			}
		}
	}
}

func TestImports_engineKnowsNoTechnology(t *testing.T) {
	requireNone(t, deps(t, nil, "./internal/engine"), banned)
}

func TestImports_photoKnowsNoTechnology(t *testing.T) {
	requireNone(t, deps(t, []string{"GOOS=js", "GOARCH=wasm"}, "./internal/photo"), banned)
}

func TestImports_wasmStaysSmall(t *testing.T) {
	imports := deps(t, []string{"GOOS=js", "GOARCH=wasm"}, "./internal/engine")
	requireNone(t, imports, banned)
	requireNone(t, imports, bannedInWasm)
}

// mayImport lists which of our packages each model may import; a model that is
// not listed may import only the foundation.
func TestImports_oneWay(t *testing.T) {
	foundation := map[string]bool{"units": true, "num": true, "chain": true, "wire": true, "order": true, "words": true, "fault": true, "jsonscan": true, "geodesic": true, "xmlscan": true}
	alsoAllowed := map[string][]string{"forecast": {"wear"}, "cost": {"forecast", "wear"}, "photo": {"photo/raster", "words/photowords"}}
	for _, model := range []string{"wear", "identify", "drive", "gears", "forecast", "cost", "care", "ride", "photo"} {
		for _, path := range deps(t, nil, "./internal/"+model) {
			name, ours := strings.CutPrefix(path, "tautspan/internal/")
			if !ours || name == model || foundation[name] {
				continue
			}
			assert.Contains(t, alsoAllowed[model], name, "%s may not import %s", model, path)
		}
	}
}
