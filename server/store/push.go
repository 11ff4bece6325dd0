package store

import (
	"database/sql"
	"errors"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// Rejected is one operation that was refused, with the reason.
type Rejected struct {
	OpID string
	Err  *fault.Error
}

// Push keeps operations of a device and returns those it refused; the rest is
// on the disk. An operation that is there already changes nothing and is no
// error. Any other failure keeps nothing.
func (s *Store) Push(who *Session, ops []*record.Op, nowMS int64) ([]Rejected, error) {
	p := &push{who: who, author: record.Author{Device: who.Device, Role: who.Role}, quota: s.quota}
	sound := make([]*record.Op, 0, len(ops))
	for _, op := range ops {
		if !p.refused(op, op.Check(p.author, nowMS)) {
			sound = append(sound, op)
		}
	}
	if len(sound) == 0 {
		return p.rejected, nil
	}
	before := len(p.rejected)
	err := s.write(func(t *tx) error {
		p.rejected = p.rejected[:before]
		return p.run(t, sound)
	}, func() {
		if p.added > 0 {
			s.watch.tell(who.GarageID, cursor(s.epoch, p.seq))
		}
	})
	return p.rejected, err
}

// push is one call's work in the writer.
type push struct {
	who        *Session
	author     record.Author
	quota      Quota
	rejected   []Rejected
	seq, bytes int64 // the garage's counts, as they grow
	added      int
}

// refused notes an operation's refusal, if there is one.
func (p *push) refused(op *record.Op, err error) bool {
	var f *fault.Error
	if !errors.As(err, &f) {
		return false
	}
	p.rejected = append(p.rejected, Rejected{op.ID, f})
	return true
}

func (p *push) run(t *tx, ops []*record.Op) error {
	err := t.row(`SELECT last_seq, bytes FROM garages JOIN devices USING (gid)
		WHERE gid = ? AND device_id = ? AND revoked_ms IS NULL`, []any{p.who.gid, p.who.Device}, &p.seq, &p.bytes)
	if errors.Is(err, sql.ErrNoRows) {
		return ErrShutOut // revoked, or the garage deleted, since the token was shown
	}
	if err != nil {
		return err
	}
	for _, op := range ops {
		if err := p.one(t, op); err != nil && !p.refused(op, err) {
			return err
		}
	}
	if p.added == 0 {
		return nil
	}
	return t.exec("UPDATE garages SET last_seq = ?, bytes = ? WHERE gid = ?", p.seq, p.bytes, p.who.gid)
}

// one keeps one operation; a *fault.Error is a refusal, before anything of it
// is written.
func (p *push) one(t *tx, op *record.Op) error {
	var known, creator sql.NullString
	err := t.row(`SELECT (SELECT body FROM ops WHERE gid = ?1 AND op_id = ?2),
		(SELECT created_by FROM records WHERE gid = ?1 AND tbl = ?3 AND record_id = ?4)`,
		[]any{p.who.gid, op.ID, op.Table, op.Record}, &known, &creator)
	switch {
	case err != nil:
		return err
	case known.Valid && known.String == string(op.Text):
		return nil
	case known.Valid:
		return fault.New(fault.Contradiction, "op_id", "another operation has this id already; every operation needs its own")
	}
	var prior *record.Prior
	if creator.Valid {
		prior = &record.Prior{CreatedBy: creator.String}
	}
	if err := op.Admit(p.author, prior); err != nil {
		return err
	}
	if err := p.room(len(op.Text)); err != nil {
		return err
	}
	if prior == nil {
		if err := t.exec("INSERT INTO records (gid, tbl, record_id, created_by) VALUES (?, ?, ?, ?)",
			p.who.gid, op.Table, op.Record, op.Device); err != nil {
			return err
		}
	}
	p.seq++
	p.added++
	p.bytes += int64(len(op.Text))
	return t.exec("INSERT INTO ops (gid, seq, op_id, body) VALUES (?, ?, ?, ?)", p.who.gid, p.seq, op.ID, string(op.Text))
}

// room refuses what would burst the garage's quota.
func (p *push) room(size int) error {
	if p.seq < p.quota.Ops && p.bytes+int64(size) <= p.quota.Bytes {
		return nil
	}
	return fault.New(fault.TooMany, "", "this garage is full: at most "+strconv.FormatInt(p.quota.Ops, 10)+" operations and "+
		strconv.FormatInt(p.quota.Bytes>>20, 10)+" MiB are allowed")
}
