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
	p, err := s.push(who, ops, nowMS)
	return p.rejected, err
}

// Sync is Push, then Pull from a cursor.
func (s *Store) Sync(who *Session, from string, ops []*record.Op, nowMS int64) (*Page, []Rejected, error) {
	p, err := s.push(who, ops, nowMS)
	if err != nil {
		return nil, p.rejected, err
	}
	if len(p.kept) > 0 && from == cursor(s.epoch, p.seq-int64(len(p.kept))) && p.size() <= maxPageBytes && len(p.kept) <= MaxPage {
		// The caller knew all there was, so what is new is what it just sent:
		// no need to read it back.
		return &Page{Ops: p.kept, Cursor: cursor(s.epoch, p.seq)}, p.rejected, nil
	}
	page, err := s.Pull(who, from)
	return page, p.rejected, err
}

func (s *Store) push(who *Session, ops []*record.Op, nowMS int64) (*push, error) {
	p := &push{who: who, author: record.Author{Device: who.Device, Role: who.Role}, quota: s.quota}
	sound := make([]*record.Op, 0, len(ops))
	for _, op := range ops {
		if !p.refused(op, op.Check(p.author, nowMS)) {
			sound = append(sound, op)
		}
	}
	s.count.refused.Add(int64(len(p.rejected)))
	if len(sound) == 0 {
		return p, nil
	}
	before := len(p.rejected)
	err := s.write(func(t *tx) error {
		p.rejected = p.rejected[:before]
		return p.run(t, sound)
	}, func() {
		s.count.kept.Add(int64(len(p.kept)))
		s.count.refused.Add(int64(len(p.rejected) - before))
		if len(p.kept) > 0 {
			s.watch.tell(who.GarageID, cursor(s.epoch, p.seq))
		}
	})
	return p, err
}

// push is one call's work in the writer.
type push struct {
	who        *Session
	author     record.Author
	quota      Quota
	rejected   []Rejected
	seq, bytes int64 // the garage's counts, as they grow
	kept       [][]byte
}

func (p *push) size() (n int) {
	for _, text := range p.kept {
		n += len(text)
	}
	return n
}

// refused notes an operation's refusal, if there is one.
func (p *push) refused(op *record.Op, err error) bool {
	var f *fault.Error
	if err == nil || !errors.As(err, &f) {
		return false
	}
	p.rejected = append(p.rejected, Rejected{op.ID, f})
	return true
}

// run judges and keeps the operations, a handful at a time: what is known of
// them is asked at once, and what is new is written at once.
func (p *push) run(t *tx, ops []*record.Op) error {
	err := t.row(`SELECT last_seq, bytes FROM garages JOIN devices USING (gid)
		WHERE gid = ? AND device_id = ? AND revoked_ms IS NULL`, []any{p.who.gid, p.who.Device}, &p.seq, &p.bytes)
	if errors.Is(err, sql.ErrNoRows) {
		return ErrShutOut // revoked, or the garage deleted, since the token was shown
	}
	if err != nil {
		return err
	}
	for len(ops) > 0 {
		n := min(len(ops), handful)
		if err := p.keep(t, ops[:n]); err != nil {
			return err
		}
		ops = ops[n:]
	}
	if len(p.kept) == 0 {
		return nil
	}
	t.written += int64(p.size())
	return t.exec("UPDATE garages SET last_seq = ?, bytes = ? WHERE gid = ?", p.seq, p.bytes, p.who.gid)
}

func (p *push) keep(t *tx, ops []*record.Op) error {
	k, err := look(t, p.who.gid, ops)
	if err != nil {
		return err
	}
	var newOps, newRecords rows
	for _, op := range ops {
		id, key := readUUID(op.ID), recordKey{readUUID(op.Record), op.Table}
		prior := k.records[key]
		fresh, err := p.judge(op, k.ops[id], prior)
		if p.refused(op, err) || !fresh {
			continue
		}
		if prior == nil {
			device := readUUID(op.Device)
			newRecords.add(p.who.gid, key.id[:], key.table, device[:])
			k.records[key] = &record.Prior{CreatedBy: op.Device}
		}
		k.ops[id] = string(op.Text)
		p.seq++
		p.kept = append(p.kept, op.Text)
		p.bytes += int64(len(op.Text))
		newOps.add(place(p.who.gid, p.seq), id[:], k.ops[id])
	}
	if err := newRecords.insert(t, insertRecords); err != nil {
		return err
	}
	return newOps.insert(t, insertOps)
}

// judge reports whether an operation is to be kept: it is refused with a
// *fault.Error, or is there already.
func (p *push) judge(op *record.Op, known string, prior *record.Prior) (fresh bool, err error) {
	switch {
	case known == string(op.Text):
		return false, nil
	case known != "":
		return false, fault.New(fault.Contradiction, "op_id", "another operation has this id already; every operation needs its own")
	}
	if err := op.Admit(p.author, prior); err != nil {
		return false, err
	}
	return true, p.room(len(op.Text))
}

// room refuses what would burst the garage's quota.
func (p *push) room(size int) error {
	if p.seq < p.quota.Ops && p.bytes+int64(size) <= p.quota.Bytes {
		return nil
	}
	return fault.New(fault.TooMany, "", "this garage is full: at most "+strconv.FormatInt(p.quota.Ops, 10)+" operations and "+
		strconv.FormatInt(p.quota.Bytes>>20, 10)+" MiB are allowed")
}
