package engine_test

import (
	"encoding/json"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
)

// The phone's way from a tap to a meaning: stamp, merge, ask. It runs natively
// and under WebAssembly.
func TestCallRecords_fromTapToMeaning(t *testing.T) {
	var made struct{ Ops, Rows json.RawMessage }
	ask(t, "change", `{"rows":[],"now_ms":1772352000000,"device_id":"00000000-0000-4000-8000-00000000000a","changes":[
		{"random":"0cc318c4dc0c0c07398f","table":"bikes","record_id":"11111111-1111-4111-8111-111111111111","put":{"name":"Loaner","drive":"hub"}}]}`, &made)
	var merged struct{ Rows json.RawMessage }
	ask(t, "merge", `{"rows":[],"ops":`+string(made.Ops)+`}`, &merged)
	assert.JSONEq(t, string(made.Rows), string(merged.Rows))
	var meaning struct {
		Bikes []struct {
			ID string `json:"bike_id"`
		}
	}
	ask(t, "garage", `{"rows":`+string(merged.Rows)+`}`, &meaning)
	require.Len(t, meaning.Bikes, 1)
	assert.Equal(t, "11111111-1111-4111-8111-111111111111", meaning.Bikes[0].ID)
	var imported struct{ Records []any }
	ask(t, "import", `{"file":{"format":"tautspan-garage-1","tables":{"bikes":[]}}}`, &imported)
	assert.Empty(t, imported.Records)
}

func ask(t *testing.T, name, request string, into any) {
	t.Helper()
	answer, err := engine.CallRecords(name, []byte(request))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(answer, into), "%s", answer)
}

// FuzzCallRecords holds that any bytes give JSON or an error of the caller's.
func FuzzCallRecords(f *testing.F) {
	for _, r := range engine.Records() {
		f.Add(r.Name, []byte(`{"rows":[],"ops":[]}`))
		f.Add(r.Name, []byte(`{"file":{"format":"tautspan-garage-1","tables":{}}}`))
	}
	f.Fuzz(func(t *testing.T, name string, request []byte) {
		answer, err := engine.CallRecords(name, request)
		if err == nil {
			require.True(t, json.Valid(answer), "%s", answer)
			return
		}
		var known *fault.Error
		require.True(t, errors.As(err, &known))
		require.NotEqual(t, fault.Internal, known.Code, "%s: %v", request, known.Cause)
	})
}

// What was made before is told again as it was made; one clock's parts are sent
// in the order of their ids.
func TestRecords_toldAgain(t *testing.T) {
	const put = `{"bike_id":"11111111-1111-4111-8111-111111111111","at":"2026-03-01T08:00:00Z","odometer_km":5,"add_km":3}`
	var answer struct {
		Ops []struct {
			ID     string `json:"op_id"`
			HLC    string
			Device string `json:"device_id"`
		}
		HLC string
	}
	ask(t, "change", `{"rows":[],"last_hlc":"2026-03-02T08:00:00.000Z-0007","now_ms":1772352000000,"device_id":"00000000-0000-4000-8000-00000000000a","changes":[
		{"table":"distances","record_id":"22222222-2222-4222-8222-222222222222","random":"ffffffffffffffffffff","whole":true,
		"hlc":"2026-03-01T07:00:00.000Z-0003","device_id":"00000000-0000-4000-8000-00000000000b","put":`+put+`}]}`, &answer)
	require.Len(t, answer.Ops, 2, "fields that contradict each other come one by one")
	for _, op := range answer.Ops {
		assert.Equal(t, "2026-03-01T07:00:00.000Z-0003", op.HLC)
		assert.Equal(t, "00000000-0000-4000-8000-00000000000b", op.Device)
	}
	assert.Less(t, answer.Ops[0].ID, answer.Ops[1].ID)
	assert.Equal(t, "2026-03-02T08:00:00.000Z-0007", answer.HLC, "the phone's own clock goes on")
}
