package engine_test

import (
	"encoding/json"
	"errors"
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
	"tautspan/internal/testkit"
)

var update = flag.Bool("update", false, "write the golden answers anew; read the diff before committing it")

// answer is what every door gives: the response or the error object.
func answer(name string, request []byte) []byte {
	response, err := engine.Call(name, request)
	if err != nil {
		return engine.ErrorJSON(err)
	}
	return response
}

// TestCall_golden runs natively and, with GOOS=js, under WebAssembly; the
// tolerance is the one the contract allows between the two.
func TestCall_golden(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range testkit.Goldens(t) {
		t.Run(g.Calculation+"/"+g.Name, func(t *testing.T) {
			seen[g.Calculation] = true
			got := answer(g.Calculation, g.Request)
			if *update {
				require.NoError(t, os.WriteFile(g.AnswerPath, append(got, '\n'), 0o644))
				return
			}
			testkit.RequireJSONNear(t, g.Answer, got, 1e-9)
		})
	}
	for _, c := range engine.Calculations() {
		assert.True(t, seen[c.Name], "no golden request for %s", c.Name)
	}
}

func TestCall_bad(t *testing.T) {
	for _, row := range []struct {
		name, calculation, request string
		code                       fault.Code
	}{
		{"unknown calculation", "waer", `{}`, fault.UnknownName},
		{"no calculation", "", `{}`, fault.UnknownName},
		{"too large", "wear", strings.Repeat(" ", engine.MaxRequestBytes+1), fault.TooLarge},
		{"not JSON", "wear", `drive=hub`, fault.InvalidJSON},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := engine.Call(row.calculation, []byte(row.request))
			var f *fault.Error
			require.True(t, errors.As(err, &f))
			assert.Equal(t, row.code, f.Code)
		})
	}
}

func TestErrorJSON(t *testing.T) {
	assert.JSONEq(t, `{"error":{"code":"out_of_range","field":"a.b","message":"no"}}`,
		string(engine.ErrorJSON(fault.New(fault.OutOfRange, "a.b", "no"))))
	assert.Contains(t, string(engine.ErrorJSON(errors.New("secret"))), `"internal"`)
	assert.NotContains(t, string(engine.ErrorJSON(errors.New("secret"))), "secret")
}

// Every number and list a request may hold has a stated range, so that nothing
// unbounded reaches a model.
func TestCalculations_requestsAreBounded(t *testing.T) {
	for _, c := range engine.Calculations() {
		var schema map[string]any
		require.NoError(t, json.Unmarshal(engine.RequestSchema(c), &schema))
		requireBounded(t, c.Name, schema)
	}
}

func requireBounded(t *testing.T, path string, node any) {
	t.Helper()
	switch node := node.(type) {
	case map[string]any:
		switch node["type"] {
		case "number", "integer":
			assert.Contains(t, node, "maximum", path)
		case "array":
			assert.Contains(t, node, "maxItems", path)
		case "string":
			assert.True(t, node["enum"] != nil || node["const"] != nil || node["maxLength"] != nil, path)
		}
		for name, child := range node {
			requireBounded(t, path+"."+name, child)
		}
	case []any:
		for _, child := range node {
			requireBounded(t, path, child)
		}
	}
}
