package store

import (
	"database/sql"
	"errors"

	"tautspan/internal/record"
)

// MaxPage is how many operations one pull gives at most.
const MaxPage = 500

// maxPageBytes ends a page early, so that an answer stays small enough for a
// weak signal. One operation always fits.
const maxPageBytes = 1 << 20

// Page is one pull's answer.
type Page struct {
	Ops    [][]byte // canonical JSON, in the order of arrival
	Cursor string   // where the next pull begins
	More   bool     // whether there is more at once
	// SetBack says that the server does not have what the cursor named: it was
	// set back to an earlier state. Ops is empty, and Cursor the beginning.
	SetBack bool
}

// Pull returns the operations that arrived after the cursor.
func (s *Store) Pull(who *Session, cursor string) (*Page, error) {
	from, err := s.find(who, cursor)
	if err != nil {
		return nil, err
	}
	return s.pull(who, from)
}

// takesPart is whether a device, the first argument, is of a garage, the second, and not revoked.
const takesPart = "EXISTS (SELECT 1 FROM devices WHERE device_id = ? AND gid = ? AND revoked_ms IS NULL)"

func (s *Store) pull(who *Session, from *mark) (*Page, error) {
	if from == nil {
		return &Page{Ops: [][]byte{}, Cursor: s.beginning(), More: true, SetBack: true}, nil
	}
	var last int64
	// A body may have taken long to arrive: who was let in then may be out by
	// now, and the number of a deleted garage another's.
	err := s.reader.QueryRow("SELECT last_seq FROM garages WHERE gid = ? AND "+takesPart, who.gid, who.Device, who.gid).Scan(&last)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, ErrShutOut
	}
	if err != nil {
		return nil, explain(err)
	}
	page := &Page{Ops: [][]byte{}, Cursor: from.String()}
	if from.seq == last {
		return page, nil
	}
	rows, err := s.reader.Query("SELECT place, op_id, draw, body FROM ops WHERE place > ? AND place <= ? AND "+takesPart+" ORDER BY place LIMIT ?",
		place(who.gid, from.seq), place(who.gid, last), who.Device, who.gid, MaxPage+1)
	if err != nil {
		return nil, explain(err)
	}
	defer func() { _ = rows.Close() }()
	for size := 0; rows.Next(); {
		var id, body []byte
		var at, draw int64
		if err := rows.Scan(&at, &id, &draw, &body); err != nil {
			return nil, explain(err)
		}
		if size += len(body); len(page.Ops) == MaxPage || len(page.Ops) > 0 && size > maxPageBytes {
			page.More = true
			break
		}
		page.Ops = append(page.Ops, body)
		page.Cursor = s.markAt(at-place(who.gid, 0), trace{uuid(id), draw}).String()
	}
	return page, explain(rows.Err())
}

// queryer is a connection or a transaction that is only read.
type queryer interface {
	Query(query string, args ...any) (*sql.Rows, error)
	QueryRow(query string, args ...any) *sql.Row
}

// EachOp calls visit with every operation of a garage in the order of arrival.
func (s *Store) EachOp(who *Session, visit func(*record.Op) error) error {
	rows, err := s.reader.Query("SELECT body FROM ops WHERE place BETWEEN ? AND ? AND EXISTS (SELECT 1 FROM garages WHERE gid = ? AND garage_id = ?) ORDER BY place",
		place(who.gid, 1), place(who.gid+1, 0), who.gid, who.GarageID)
	if err != nil {
		return explain(err)
	}
	defer func() { _ = rows.Close() }()
	for rows.Next() {
		var body sql.RawBytes
		if err := rows.Scan(&body); err != nil {
			return explain(err)
		}
		op, err := record.ReadOp(body)
		if err != nil {
			return err
		}
		if err := visit(op); err != nil {
			return err
		}
	}
	return explain(rows.Err())
}

// State merges every operation of a garage.
func (s *Store) State(who *Session) (record.State, error) {
	state := record.State{}
	err := s.EachOp(who, func(op *record.Op) error {
		state.Apply(op)
		return nil
	})
	return state, err
}
