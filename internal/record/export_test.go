package record_test

import (
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
	again, last := record.State{}, record.Clock("")
	for _, i := range imported {
		answer, err := record.NewOp(&record.StampRequest{Last: last, Random: "0cc318c4dc0c0c07398f", Role: record.Owner,
			Device: deviceB, Table: i.Table, Record: i.ID, Put: i.Put})
		require.NoError(t, err)
		last = answer.Clock
		o, err := record.ReadOp(answer.Op)
		require.NoError(t, err)
		again.Apply(o)
	}
	assert.Equal(t, testkit.View(state), testkit.View(again))
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
			return
		}
		for _, i := range imported {
			_, err := record.NewOp(&record.StampRequest{Random: "0cc318c4dc0c0c07398f", Role: record.Owner,
				Device: deviceB, Table: i.Table, Record: i.ID, Put: i.Put})
			require.NoError(t, err)
		}
	})
}
