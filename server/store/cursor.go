package store

import (
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"tautspan/internal/fault"
)

// maxSeq is the last place a garage has (see place).
const maxSeq = 1<<32 - 1

// mark is a place in a garage's order of arrival, with what tells whether this
// database still has that place: its epoch, which a restore renews, and the
// operation that lies there, which a database that was copied back by hand lacks
// or has another of, or has kept anew.
type mark struct {
	epoch string
	seq   int64
	op    string // eight digits, empty at 0
}

// trace is what tells an operation as it was kept once.
type trace struct {
	id   uuid
	draw int64
}

// String is the cursor's text.
func (m mark) String() string {
	text := m.epoch + "-" + strconv.FormatInt(m.seq, 10)
	if m.op != "" {
		text += "-" + m.op
	}
	return text
}

// beginning is the cursor before the first operation of any garage.
func (s *Store) beginning() string { return mark{epoch: s.epoch}.String() }

func (s *Store) markAt(seq int64, op trace) mark {
	told := binary.BigEndian.Uint32(op.id[len(op.id)-4:]) ^ uint32(op.draw)
	return mark{s.epoch, seq, fmt.Sprintf("%08x", told)}
}

// readCursor reads a cursor; an empty one is the beginning. One that an older
// version gave names no operation, and is believed.
func (s *Store) readCursor(text string) (mark, error) {
	if text == "" {
		return mark{epoch: s.epoch}, nil
	}
	parts := append(strings.Split(text, "-"), "", "")
	m := mark{epoch: parts[0], op: parts[2]}
	var err error
	m.seq, err = strconv.ParseInt(parts[1], 10, 64)
	if err != nil || m.seq < 0 || m.seq > maxSeq || m.String() != text || len(m.epoch) != len(s.epoch) || len(m.op) > 8 {
		return mark{}, fault.New(fault.Unreadable, "cursor", "this is no cursor; send the one of the last answer, or an empty text to begin anew")
	}
	return m, nil
}

// find returns the place a cursor names, nil when this database does not have
// it: it was set back to an earlier state since the cursor was given.
func (s *Store) find(who *Session, cursor string) (*mark, error) {
	m, err := s.readCursor(cursor)
	if err != nil || m.epoch != s.epoch {
		return nil, err
	}
	if m.seq == 0 {
		return &m, nil
	}
	var id []byte
	var draw int64
	err = s.reader.QueryRow("SELECT op_id, draw FROM ops WHERE place = ?", place(who.gid, m.seq)).Scan(&id, &draw)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	if err != nil {
		return nil, explain(err)
	}
	at := s.markAt(m.seq, trace{uuid(id), draw})
	if m.op != "" && at != m {
		return nil, nil
	}
	return &at, nil
}
