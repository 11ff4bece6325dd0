package record_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/internal/testkit"
	"tautspan/internal/wire"
)

const (
	deviceA = "00000000-0000-4000-8000-00000000000a"
	deviceB = "00000000-0000-4000-8000-00000000000b"
	bike    = "11111111-1111-4111-8111-111111111111"
)

// opText writes an operation; body is put or remove with its comma.
func opText(n int, clock, device, table, id, body string) []byte {
	return fmt.Appendf(nil, `{"op_id":"017f22e2-79b0-7cc3-98c4-%012x","hlc":%q,"device_id":%q,"table":%q,"record_id":%q%s}`,
		n, clock, device, table, id, body)
}

func op(t testing.TB, n int, clock, device, body string) *record.Op {
	t.Helper()
	o, err := record.ReadOp(opText(n, clock, device, "bikes", bike, body))
	require.NoError(t, err)
	return o
}

func clockOf(n int) string { return string(record.Clock("").Next(1772352000000 + int64(n))) }

// Each row names the winner; it is merged in both orders, and repeated.
func TestRecord_Apply(t *testing.T) {
	early, late := clockOf(1), clockOf(2)
	for _, row := range []struct {
		name string
		a, b *record.Op
		want string
	}{
		{"the later clock wins", op(t, 1, early, deviceB, `,"put":{"name":"a"}`), op(t, 2, late, deviceA, `,"put":{"name":"b"}`), `{"name":"b"}`},
		{"at one clock the greater device wins", op(t, 2, early, deviceA, `,"put":{"name":"a"}`), op(t, 1, early, deviceB, `,"put":{"name":"b"}`), `{"name":"b"}`},
		{"at one clock and device the greater id wins", op(t, 1, early, deviceA, `,"put":{"name":"a"}`), op(t, 2, early, deviceA, `,"put":{"name":"b"}`), `{"name":"b"}`},
		{"fields do not disturb each other", op(t, 1, early, deviceA, `,"put":{"name":"a"}`), op(t, 2, late, deviceB, `,"put":{"note":"n"}`), `{"name":"a","note":"n"}`},
		{"null clears", op(t, 1, early, deviceA, `,"put":{"name":"a","note":"n"}`), op(t, 2, late, deviceB, `,"put":{"note":null}`), `{"name":"a"}`},
		{"a remove hides", op(t, 1, early, deviceA, `,"put":{"name":"a"}`), op(t, 2, late, deviceB, `,"remove":true`), ``},
		{"a later put brings back", op(t, 1, late, deviceA, `,"put":{"name":"a"}`), op(t, 2, early, deviceB, `,"remove":true`), `{"name":"a"}`},
	} {
		t.Run(row.name, func(t *testing.T) {
			for _, order := range [][]*record.Op{{row.a, row.b}, {row.b, row.a}, {row.b, row.a, row.b, row.a}} {
				state := record.State{}
				for _, o := range order {
					state.Apply(o)
				}
				assert.Equal(t, row.want, testkit.View(state)["bikes/"+bike])
			}
		})
	}
}

// randomOps makes operations with many equal clocks, fields and records.
func randomOps(t testing.TB, r *rand.Rand, n int) []*record.Op {
	ops := make([]*record.Op, n)
	for i := range ops {
		body := fmt.Sprintf(`,"put":{%q:%q}`, []string{"name", "note", "tag"}[r.IntN(3)], fmt.Sprint(r.IntN(5)))
		switch r.IntN(6) {
		case 0:
			body = `,"remove":true`
		case 1:
			body = `,"put":{"note":null}`
		}
		id := fmt.Sprintf("11111111-1111-4111-8111-%012d", r.IntN(3))
		o, err := record.ReadOp(opText(i, clockOf(r.IntN(6)), []string{deviceA, deviceB}[r.IntN(2)], "bikes", id, body))
		require.NoError(t, err)
		ops[i] = o
	}
	return ops
}

// Merging equals the definition, in any order, with repeats, in one go or in
// parts kept as rows between.
func TestState_equalsTheReference(t *testing.T) {
	for seed := range uint64(300) {
		r := rand.New(rand.NewPCG(seed, 7))
		ops := randomOps(t, r, 1+r.IntN(40))
		want := testkit.Reference(ops)
		shuffled := append(ops[:len(ops):len(ops)], ops[:len(ops)/2]...)
		r.Shuffle(len(shuffled), func(i, j int) { shuffled[i], shuffled[j] = shuffled[j], shuffled[i] })
		state := record.State{}
		for _, o := range shuffled {
			state.Apply(o)
		}
		require.Equal(t, want, testkit.View(state), "seed %d", seed)
		require.Equal(t, want, mergedInParts(t, r, shuffled), "seed %d", seed)
	}
}

// mergedInParts sends the operations through the phone's door in several calls.
func mergedInParts(t *testing.T, r *rand.Rand, ops []*record.Op) map[string]string {
	rows := [][]byte{}
	for len(ops) > 0 {
		n := 1 + r.IntN(len(ops))
		request := &record.MergeRequest{Rows: rows}
		for _, o := range ops[:n] {
			request.Ops = append(request.Ops, o.Text)
		}
		answer, err := record.Merge(request)
		require.NoError(t, err)
		rows, ops = answer.Rows, ops[n:]
	}
	state := record.State{}
	for _, text := range rows {
		back, err := record.ReadRow(text)
		require.NoError(t, err)
		state[record.Key{Table: back.Table, ID: back.ID}] = back
	}
	return testkit.View(state)
}

func TestReadRow_bad(t *testing.T) {
	for _, text := range []string{
		``, `[]`, `{}`, `{"table":"bikes","record_id":"x","fields":{"name":"a"},"stamps":{}}`,
		`{"table":"bikes","record_id":"x","fields":{"name":"a"},"stamps":{"name":"2026"}}`,
		`{"table":"bikes","record_id":"x","fields":[],"stamps":{}}`,
	} {
		_, err := record.ReadRow([]byte(text))
		assert.Error(t, err, text)
	}
}

// FuzzReadOp holds that any bytes give an operation whose text reads back to
// itself, or an error; and that checking never panics.
func FuzzReadOp(f *testing.F) {
	f.Add(opText(1, clockOf(1), deviceA, "bikes", bike, `,"put":{"name":"a","drive":"hub"}`))
	f.Add(opText(1, clockOf(1), deviceA, "readings", bike, `,"put":{"reading":{"kind":"rule","pitches":24,"span_mm":305}}`))
	f.Add(opText(1, clockOf(1), deviceA, "care", bike, `,"remove":true`))
	f.Fuzz(func(t *testing.T, text []byte) {
		o, err := record.ReadOp(text)
		if err != nil {
			return
		}
		again, err := record.ReadOp(o.Text)
		require.NoError(t, err)
		require.Equal(t, string(o.Text), string(again.Text))
		author := record.Author{Device: o.Device, Role: record.Owner}
		if o.Check(author, o.Clock.MS()) == nil {
			_ = o.Admit(author, nil)
			state := record.State{}
			state.Apply(o)
			for _, r := range state {
				back, err := record.ReadRow(r.Row())
				require.NoError(t, err)
				require.Equal(t, r.Text(), back.Text())
			}
		}
	})
}

func TestMerge_writes(t *testing.T) {
	answer, err := record.Merge(&record.MergeRequest{Ops: [][]byte{opText(1, clockOf(1), deviceA, "bikes", bike, `,"put":{"name":"a"}`)}})
	require.NoError(t, err)
	text, err := wire.Write(answer)
	require.NoError(t, err)
	assert.JSONEq(t, `{"hlc":"2026-03-01T08:00:00.001Z-0000","rows":[{"table":"bikes","record_id":"`+bike+`","removed":false,"fields":{"name":"a"},
		"stamps":{"name":"2026-03-01T08:00:00.001Z-0000 `+deviceA+` 017f22e2-79b0-7cc3-98c4-000000000001"}}]}`, string(text))
}
