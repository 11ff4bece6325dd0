package engine_test

import (
	"encoding/json"
	"errors"
	"flag"
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
	"tautspan/internal/testkit"
)

// Each calculation has its own target, so that each gets its whole time.

func FuzzCall_wear(f *testing.F)     { fuzz(f, "wear") }
func FuzzCall_identify(f *testing.F) { fuzz(f, "identify") }
func FuzzCall_cost(f *testing.F)     { fuzz(f, "cost") }
func FuzzCall_care(f *testing.F)     { fuzz(f, "care") }
func FuzzCall_length(f *testing.F)   { fuzz(f, "length") }
func FuzzCall_centre(f *testing.F)   { fuzz(f, "centre") }
func FuzzCall_gears(f *testing.F)    { fuzz(f, "gears") }
func FuzzCall_forecast(f *testing.F) { fuzz(f, "forecast") }
func FuzzCall_ride(f *testing.F)     { fuzz(f, "ride") }

func TestFuzz_coversEveryCalculation(t *testing.T) {
	source, err := os.ReadFile("fuzz_test.go")
	require.NoError(t, err)
	for _, c := range engine.Calculations() {
		assert.Contains(t, string(source), `{ fuzz(f, "`+c.Name+`") }`)
	}
}

// fuzz holds that any bytes into a calculation give, within 2 s while fuzzing,
// JSON with finite numbers or an error of the caller's, never a panic. The
// other calculations' requests are seeds too.
func fuzz(f *testing.F, name string) {
	for _, g := range testkit.Goldens(f) {
		f.Add(g.Request)
	}
	for _, n := range []int{2, 40} {
		f.Add(forecastRequest(n, false))
		f.Add(forecastRequest(n, true))
	}
	fuzzing := flag.Lookup("test.fuzz").Value.String() != ""
	f.Fuzz(func(t *testing.T, request []byte) {
		begin := time.Now()
		response, err := engine.Call(name, request)
		took := time.Since(begin)
		require.True(t, !fuzzing || took < 2*time.Second, "took %v", took)
		if err == nil {
			var numbers any // a number beyond the finite ones does not decode
			require.NoError(t, json.Unmarshal(response, &numbers), "%s", response)
			return
		}
		var known *fault.Error
		require.True(t, errors.As(err, &known))
		require.NotEqual(t, fault.Internal, known.Code, "%s: %v", request, known.Cause)
		require.True(t, json.Valid(engine.ErrorJSON(err)))
	})
}
