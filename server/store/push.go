package store

import (
	"errors"
	"math/rand/v2"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/record"
)

// Rejected is one operation that was refused, with the reason.
type Rejected struct {
	OpID string
	Err  *fault.Error
}

// Sync keeps operations of a device and returns those it refused; the rest is on
// the disk. An operation that is there already changes nothing and is no error.
// Any other failure keeps nothing. Then it is Pull from a cursor. A server that
// was set back takes nothing until the caller has begun anew: what it sends may
// rest on what was lost.
func (s *Store) Sync(who *Session, cursor string, ops []*record.Op, nowMS int64) (*Page, []Rejected, error) {
	from, err := s.find(who, cursor)
	if err != nil {
		return nil, nil, err
	}
	if from == nil {
		page, err := s.pull(who, nil)
		return page, notYet(ops), err
	}
	p, err := s.push(who, ops, nowMS)
	if err != nil {
		return nil, p.rejected, err
	}
	if len(p.kept) > 0 && from.seq == p.before && p.size() <= maxPageBytes && len(p.kept) <= MaxPage {
		// The caller knew all there was, so what is new is what it just sent:
		// no need to read it back.
		return &Page{Ops: p.kept, Cursor: s.markAt(p.after, p.last).String()}, p.rejected, nil
	}
	page, err := s.pull(who, from)
	return page, p.rejected, err
}

func notYet(ops []*record.Op) []Rejected {
	all := make([]Rejected, len(ops))
	for i, op := range ops {
		all[i] = Rejected{op.ID, fault.New(fault.Unavailable, "", "the server was set back to an earlier state; send this again after what it has was taken in")}
	}
	return all
}

func (s *Store) push(who *Session, ops []*record.Op, nowMS int64) (*push, error) {
	p := &push{who: who, author: record.Author{Device: who.Device, Role: who.Role}, quota: s.quota}
	for _, op := range ops {
		if !p.refused(op, op.Check(p.author, nowMS)) {
			p.sound = append(p.sound, op)
		}
	}
	if len(p.sound) == 0 {
		s.count.refused.Add(int64(len(p.rejected)))
		return p, nil
	}
	err := s.enqueue(&job{push: p, after: func() {
		s.count.kept.Add(int64(len(p.kept)))
		if len(p.kept) > 0 {
			s.watch.tell(who.GarageID, s.markAt(p.after, p.last).String())
		}
	}})
	s.count.refused.Add(int64(len(p.rejected)))
	return p, err
}

// push is one call's work in the writer.
type push struct {
	who      *Session
	author   record.Author
	quota    Quota
	sound    []*record.Op // those that passed Check
	rejected []Rejected

	// What the writer found and did.
	refusal       error   // of the whole call
	garage        *counts // shared by all calls of a garage in one batch
	kept          [][]byte
	before, after int64 // the garage's last place before and after what was kept
	last          trace // the operation at after
}

// take gives a new operation the garage's next place.
func (p *push) take(op *record.Op) {
	if len(p.kept) == 0 {
		p.before = p.garage.seq
	}
	p.kept = append(p.kept, op.Text)
	p.garage.seq++
	p.garage.bytes += int64(len(op.Text))
	p.garage.changed = true
	p.after, p.last = p.garage.seq, trace{readUUID(op.ID), rand.Int64N(1 << 32)}
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
	if p.garage.seq < p.quota.Ops && p.garage.bytes+int64(size) <= p.quota.Bytes {
		return nil
	}
	return fault.New(fault.TooMany, "", "this garage is full: at most "+strconv.FormatInt(p.quota.Ops, 10)+" operations and "+
		strconv.FormatInt(p.quota.Bytes>>20, 10)+" MiB are allowed")
}
