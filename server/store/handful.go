package store

import (
	"database/sql"
	"strings"

	"tautspan/internal/record"
)

// A statement costs more than a row. So operations are looked up and written by
// the handful, with statements that are prepared once for each number of rows.
const handful = 32

var (
	lookOps       = "SELECT op_id, body FROM ops WHERE gid = ? AND op_id IN (" + marks(handful) + ")"
	lookRecords   = "SELECT record_id, tbl, created_by FROM records WHERE gid = ? AND record_id IN (" + marks(handful) + ")"
	insertOps     = inserts("ops (place, op_id, body)", 3)
	insertRecords = inserts("records (gid, record_id, tbl, created_by)", 4)
)

// marks is n parameters.
func marks(n int) string { return strings.Repeat("?, ", n-1) + "?" }

// inserts is the statements that insert 1, 2, … rows into a table.
func inserts(table string, columns int) (all [handful + 1]string) {
	row := "(" + marks(columns) + ")"
	for n := 1; n <= handful; n++ {
		all[n] = "INSERT INTO " + table + " VALUES " + strings.Repeat(row+", ", n-1) + row
	}
	return all
}

// rows gathers a handful of rows to insert.
type rows struct {
	n    int
	args []any
}

func (r *rows) add(columns ...any) {
	r.n++
	r.args = append(r.args, columns...)
}

func (r *rows) insert(t *tx, statements [handful + 1]string) error {
	if r.n == 0 {
		return nil
	}
	return t.exec(statements[r.n], r.args...)
}

// place is where a garage's operation lies.
func place(gid, seq int64) int64 { return gid<<32 | seq }

type recordKey struct {
	id    uuid
	table string
}

// known is what the garage holds of a handful of operations.
type known struct {
	ops     map[uuid]string
	records map[recordKey]*record.Prior
}

func look(t *tx, gid int64, ops []*record.Op) (*known, error) {
	k := &known{ops: map[uuid]string{}, records: map[recordKey]*record.Prior{}}
	opIDs, recordIDs := make([]any, 1+handful), make([]any, 1+handful) // those left over ask for NULL, which is nowhere
	opIDs[0], recordIDs[0] = gid, gid
	for i, op := range ops {
		id, of := readUUID(op.ID), readUUID(op.Record)
		opIDs[1+i], recordIDs[1+i] = id[:], of[:]
	}
	err := t.each(lookOps, opIDs, func(rows *sql.Rows) error {
		var id, body sql.RawBytes
		err := rows.Scan(&id, &body)
		if err == nil {
			k.ops[uuid(id)] = string(body)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	return k, t.each(lookRecords, recordIDs, func(rows *sql.Rows) error {
		var id, by sql.RawBytes
		var table string
		err := rows.Scan(&id, &table, &by)
		if err == nil {
			k.records[recordKey{uuid(id), table}] = &record.Prior{CreatedBy: uuid(by).String()}
		}
		return err
	})
}
