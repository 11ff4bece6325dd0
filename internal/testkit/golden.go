// Package testkit holds what tests share: golden requests and the comparison of
// JSON with a tolerance on its numbers. Only tests import it.
package testkit

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Golden is one request with the answer every door must give. The answer is a
// response or an error object.
type Golden struct {
	Calculation, Name string
	Request, Answer   []byte
	AnswerPath        string
}

// Goldens reads testdata/engine/CALCULATION/NAME.request.json and the answers
// beside them, NAME.answer.json; Answer is nil where that file is missing.
func Goldens(t testing.TB) []Golden {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(Root(t), "testdata", "engine", "*", "*.request.json"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	sort.Strings(paths)
	goldens := make([]Golden, 0, len(paths))
	for _, path := range paths {
		g := Golden{
			Calculation: filepath.Base(filepath.Dir(path)),
			Name:        strings.TrimSuffix(filepath.Base(path), ".request.json"),
			AnswerPath:  strings.TrimSuffix(path, ".request.json") + ".answer.json",
		}
		g.Request, err = os.ReadFile(path)
		require.NoError(t, err)
		if g.Answer, err = os.ReadFile(g.AnswerPath); err != nil && !os.IsNotExist(err) {
			require.NoError(t, err)
		}
		goldens = append(goldens, g)
	}
	return goldens
}

// Root returns the folder that holds go.mod.
func Root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		parent := filepath.Dir(dir)
		require.NotEqual(t, parent, dir, "no go.mod above the test's folder")
		dir = parent
	}
}

// RequireJSONNear fails unless two JSON texts are the same but for numbers that
// differ by at most the relative tolerance (absolute below 1).
func RequireJSONNear(t testing.TB, want, got []byte, tolerance float64) {
	t.Helper()
	var a, b any
	require.NoError(t, json.Unmarshal(want, &a))
	require.NoError(t, json.Unmarshal(got, &b))
	if where := differ(a, b, tolerance, ""); where != "" {
		t.Fatalf("JSON differs at %s\nwant %s\ngot  %s", where, want, got)
	}
}

// differ returns the path of the first difference, or nothing.
func differ(a, b any, tolerance float64, path string) string {
	switch a := a.(type) {
	case float64:
		b, ok := b.(float64)
		if !ok || math.Abs(a-b) > tolerance*math.Max(1, math.Abs(a)) {
			return path + " (number)"
		}
	case []any:
		b, ok := b.([]any)
		if !ok || len(a) != len(b) {
			return path + " (list)"
		}
		for i := range a {
			if where := differ(a[i], b[i], tolerance, path+"["+strconv.Itoa(i)+"]"); where != "" {
				return where
			}
		}
	case map[string]any:
		b, ok := b.(map[string]any)
		if !ok || len(a) != len(b) {
			return path + " (object)"
		}
		for name, value := range a {
			other, ok := b[name]
			if !ok {
				return path + "." + name + " (missing)"
			}
			if where := differ(value, other, tolerance, path+"."+name); where != "" {
				return where
			}
		}
	default:
		if a != b {
			return path
		}
	}
	return ""
}
