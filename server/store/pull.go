package store

import (
	"database/sql"
	"errors"
	"strconv"
	"strings"

	"tautspan/internal/fault"
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
}

// cursor writes a place in the order of arrival.
func cursor(epoch string, seq int64) string { return epoch + "-" + strconv.FormatInt(seq, 10) }

// readCursor returns the sequence number after which to go on. A cursor from
// before a backup was restored, or ahead of what there is, means the beginning:
// pulling twice changes nothing.
func readCursor(text, epoch string, lastSeq int64) (int64, error) {
	if text == "" {
		return 0, nil
	}
	from, number, found := strings.Cut(text, "-")
	seq, err := strconv.ParseInt(number, 10, 64)
	if !found || err != nil || seq < 0 || len(from) != len(epoch) || number[0] == '+' {
		return 0, fault.New(fault.Unreadable, "cursor", "this is no cursor; send the one of the last answer, or an empty text to begin anew")
	}
	if from != epoch || seq > lastSeq {
		return 0, nil
	}
	return seq, nil
}

// CheckCursor refuses a text that is no cursor.
func (s *Store) CheckCursor(text string) error {
	_, err := readCursor(text, s.epoch, 0)
	return err
}

// Pull returns the operations that arrived after the cursor.
func (s *Store) Pull(who *Session, from string) (*Page, error) {
	var last int64
	err := s.reader.QueryRow("SELECT last_seq FROM garages WHERE gid = ?", who.gid).Scan(&last)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, errNoGarage
	}
	if err != nil {
		return nil, explain(err)
	}
	seq, err := readCursor(from, s.epoch, last)
	if err != nil {
		return nil, err
	}
	page := &Page{Ops: [][]byte{}}
	if seq == last {
		page.Cursor = cursor(s.epoch, seq)
		return page, nil
	}
	rows, err := s.reader.Query("SELECT place, body FROM ops WHERE place > ? AND place <= ? ORDER BY place LIMIT ?",
		place(who.gid, seq), place(who.gid, last), MaxPage+1)
	if err != nil {
		return nil, explain(err)
	}
	defer func() { _ = rows.Close() }()
	for size := 0; rows.Next(); {
		var body []byte
		var at int64
		if err := rows.Scan(&at, &body); err != nil {
			return nil, explain(err)
		}
		if size += len(body); len(page.Ops) == MaxPage || len(page.Ops) > 0 && size > maxPageBytes {
			page.More = true
			break
		}
		page.Ops = append(page.Ops, body)
		seq = at - place(who.gid, 0)
	}
	page.Cursor = cursor(s.epoch, seq)
	return page, explain(rows.Err())
}

// queryer is a connection or a transaction that is only read.
type queryer interface {
	Query(query string, args ...any) (*sql.Rows, error)
	QueryRow(query string, args ...any) *sql.Row
}

// EachOp calls visit with every operation of a garage in the order of arrival.
func (s *Store) EachOp(who *Session, visit func(*record.Op) error) error {
	rows, err := s.reader.Query("SELECT body FROM ops WHERE place BETWEEN ? AND ? ORDER BY place", place(who.gid, 1), place(who.gid+1, 0))
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
