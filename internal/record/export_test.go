package record_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/testkit"
)

func exportText(s record.State) []byte {
	return append(append([]byte(`{"format":"tautspan-garage-1","name":"G","tables":`), record.ExportTables(s)...), '}')
}

// A garage that is given out and taken into an empty one is the same garage.
func TestReadExport_losesNothing(t *testing.T) {
	state, n := record.State{}, 0
	for _, table := range record.Tables() {
		for range 3 {
			n++
			o, err := record.ReadOp(opText(n, clockOf(n), deviceA, table.Name, record.UUIDv7(int64(n), [10]byte{}), `,"put":`+whole[table.Name]))
			require.NoError(t, err)
			state.Apply(o)
		}
	}
	o, err := record.ReadOp(opText(n+1, clockOf(n+1), deviceA, "bikes", record.UUIDv7(1, [10]byte{}), `,"remove":true`))
	require.NoError(t, err)
	state.Apply(o)

	imported, err := record.ReadExport(exportText(state))
	require.NoError(t, err)
	require.Len(t, imported, n-1)
	assert.Equal(t, testkit.View(state), testkit.View(putAgain(t, imported)))
}

// putAgain puts what was taken in into an empty garage.
func putAgain(t *testing.T, imported []record.Imported) record.State {
	t.Helper()
	ask := &record.ChangeRequest{Role: record.Owner, Device: deviceB}
	for _, i := range imported {
		ask.Changes = append(ask.Changes, record.Change{Random: "0cc318c4dc0c0c07398f", Table: i.Table, Record: i.ID, Put: i.Put, Whole: true})
	}
	if len(imported) == 0 {
		return record.State{}
	}
	answer, err := record.Apply(ask)
	require.NoError(t, err)
	again := record.State{}
	for _, text := range answer.Ops {
		o, err := record.ReadOp(text)
		require.NoError(t, err)
		require.NoError(t, o.Check(record.Author{Device: deviceB, Role: record.Owner}, o.Clock.MS()), "the server takes it too")
		again.Apply(o)
	}
	return again
}

// What several phones have put into one record, each right by itself, can be
// too large for one operation, or contradict itself; it is still given out and
// taken in without loss.
func TestReadExport_whatOneOperationCannotHold(t *testing.T) {
	state := record.State{}
	long := `"` + strings.Repeat("\U0001F6B2", 2000) + `"`
	reading := "22222222-2222-4222-8222-222222222222"
	for n, put := range []struct{ table, id, fields string }{
		{"bikes", bike, `{"name":"a","drive":"hub","chainstay_mm":450}`},
		{"bikes", bike, `{"longest_chainstay_mm":420}`},
		{"distances", reading, `{"bike_id":"` + bike + `","at":"2026-03-01T08:00:00Z","odometer_km":1}`},
		{"distances", reading, `{"add_km":2,"note":` + long + `}`},
		{"readings", reading, `{"chain_id":"` + bike + `","at":"2026-03-01T08:00:00Z","at_km":1,"reading":{"kind":"compare","pitches":100,"growth_mm":1},"note":` + long + `,
			"by":"` + strings.Repeat("\U0001F6B2", 80) + `","instrument_id":"` + bike + `"}`},
		{"readings", reading, `{"void_reason":` + long + `}`},
	} {
		o, err := record.ReadOp(opText(n, clockOf(n), deviceA, put.table, put.id, `,"put":`+put.fields))
		require.NoError(t, err)
		require.NoError(t, o.Check(record.Author{Device: deviceA, Role: record.Owner}, o.Clock.MS()))
		state.Apply(o)
	}
	imported, err := record.ReadExport(exportText(state))
	require.NoError(t, err)
	assert.Equal(t, testkit.View(state), testkit.View(putAgain(t, imported)))
}

func TestReadExport_bad(t *testing.T) {
	for _, row := range []struct {
		name, text string
		code       fault.Code
		field      string
	}{
		{"empty", ``, fault.InvalidJSON, ""},
		{"cut short", `{"format":"tautspan-garage-1","tables":{"bi`, fault.InvalidJSON, "tables.bi"},
		{"not ours", `{"format":"other"}`, fault.NotAllowed, "format"},
		{"no tables", `{"format":"tautspan-garage-1"}`, fault.Unreadable, "tables"},
		{"tables is a list", `{"format":"tautspan-garage-1","tables":[]}`, fault.Unreadable, "tables"},
		{"unknown table", `{"format":"tautspan-garage-1","tables":{"wheels":[]}}`, fault.UnknownName, "tables.wheels"},
		{"bad id", `{"format":"tautspan-garage-1","tables":{"bikes":[{"record_id":"1","fields":{"name":"a","drive":"hub"}}]}}`, fault.Unreadable, "tables.bikes[0].record_id"},
		{"bad field", `{"format":"tautspan-garage-1","tables":{"bikes":[{"record_id":"` + bike + `","fields":{"name":7,"drive":"hub"}}]}}`, fault.WrongType, "tables.bikes[0].fields.name"},
		{"missing field", `{"format":"tautspan-garage-1","tables":{"bikes":[{"record_id":"` + bike + `","fields":{"name":"a"}}]}}`, fault.MissingField, "tables.bikes[0].fields.drive"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := record.ReadExport([]byte(row.text))
			var f *fault.Error
			require.ErrorAs(t, err, &f)
			assert.Equal(t, row.code, f.Code)
			if row.code != fault.InvalidJSON {
				assert.Equal(t, row.field, f.Field)
			}
		})
	}
}

// FuzzReadExport holds that any file gives records that may be put, or an error.
func FuzzReadExport(f *testing.F) {
	f.Add(exportText(record.State{}))
	f.Add([]byte(`{"format":"tautspan-garage-1","tables":{"bikes":[{"record_id":"` + bike + `","fields":{"name":"a","drive":"hub"}}]}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		imported, err := record.ReadExport(text)
		if err != nil {
			var f *fault.Error
			require.ErrorAs(t, err, &f)
			return
		}
		ids := map[record.Key]bool{}
		for _, i := range imported {
			key := record.Key{Table: i.Table, ID: i.ID}
			if ids[key] { // twice in one file: the second is a change
				return
			}
			ids[key] = true
		}
		putAgain(t, imported)
	})
}
