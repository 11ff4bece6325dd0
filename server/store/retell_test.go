package store_test

import (
	"encoding/hex"
	"maps"
	"slices"
	"strings"

	"tautspan/internal/record"
	"tautspan/internal/wire"
)

// What a phone tells a server that was set back: assets/src/sync/lost.js and
// retell.js do the same.

// made is a stamp's clock and device.
func made(s record.Stamp) string { return string(s[:min(len(s), 66)]) }

// retell queues what the server has lost, once all it has was heard.
func (p *phone) retell() error {
	for _, key := range slices.SortedFunc(maps.Keys(p.disk.knew), func(a, b record.Key) int { return strings.Compare(a.Table+a.ID, b.Table+b.ID) }) {
		knew, err := record.ReadRow([]byte(p.disk.knew[key]))
		if err != nil {
			return err
		}
		ask := &record.ChangeRequest{Last: p.disk.clock, NowMS: float64(now), Role: p.welcome.Role, Device: p.welcome.DeviceID}
		base := &record.Record{}
		text, there := p.disk.rows[key]
		if there {
			if base, err = record.ReadRow([]byte(text)); err != nil {
				return err
			}
			ask.Rows = [][]byte{[]byte(text)}
		}
		ask.Changes = p.toTell(knew, base, there)
		if len(ask.Changes) == 0 {
			p.disk.rows[key] = string(heldBack(knew, base).Row())
			continue
		}
		answer, err := record.Apply(ask)
		if err != nil && p.welcome.Role.AtLeast(record.Leader) { // may tell all
			return err
		}
		if err != nil { // a role that may not write there any more
			p.disk.rows[key] = string(heldBack(knew, base).Row())
			continue
		}
		for _, text := range answer.Ops {
			op, err := record.ReadOp(text)
			if err != nil {
				return err
			}
			p.disk.unsent = append(p.disk.unsent, op)
			p.disk.again[op.ID] = op
		}
	}
	slices.SortStableFunc(p.disk.unsent, func(a, b *record.Op) int { return strings.Compare(string(a.Clock)+a.ID, string(b.Clock)+b.ID) })
	p.disk.knew = nil
	return nil
}

// toTell lists what to tell of a record, the earliest first.
func (p *phone) toTell(knew, base *record.Record, there bool) []record.Change {
	leads := p.welcome.Role.AtLeast(record.Leader)
	mine := slices.ContainsFunc(knew.Cells, func(c record.Cell) bool { return string(c.Stamp[30:66]) == p.welcome.DeviceID })
	if !leads && !mine {
		return nil
	}
	puts, times := map[string][]wire.Member{}, []string{}
	for _, c := range knew.Cells {
		when := made(c.Stamp)
		if when > made(base.StampOf(c.Name)) {
			if puts[when] == nil {
				times = append(times, when)
			}
			puts[when] = append(puts[when], wire.Member{Name: c.Name, Value: c.Value})
		}
	}
	slices.Sort(times)
	changes := []record.Change{}
	add := func(when string, put []wire.Member) {
		random := make([]byte, 10)
		for i := range random {
			random[i] = byte(p.r.Uint32())
		}
		c := record.Change{Random: hex.EncodeToString(random), Table: knew.Table, Record: knew.ID, Remove: put == nil, Whole: !there && put != nil,
			Clock: record.Clock(when[:29]), Device: p.welcome.DeviceID}
		if put != nil {
			c.Put = wire.AppendMembers(nil, put)
		}
		if leads {
			c.Device = when[30:]
		}
		changes = append(changes, c)
	}
	for i, when := range times {
		if i == 0 && !there {
			puts[when] = nil
			for _, c := range knew.Cells {
				puts[when] = append(puts[when], wire.Member{Name: c.Name, Value: c.Value})
			}
		}
		add(when, puts[when])
	}
	if knew.Hidden() && made(knew.Removed) > made(base.Removed) {
		add(made(knew.Removed), nil)
	}
	return changes
}

// heldBack is what the server has and what it lost, for what this phone may not
// tell and keeps.
func heldBack(knew, base *record.Record) *record.Record {
	late := &record.Record{Table: knew.Table, ID: knew.ID, Removed: max(base.Removed, knew.Removed)}
	late.Cells = slices.Clone(base.Cells)
	for _, c := range knew.Cells {
		if made(c.Stamp) > made(base.StampOf(c.Name)) {
			late.Cells = slices.DeleteFunc(late.Cells, func(one record.Cell) bool { return one.Name == c.Name })
			late.Cells = append(late.Cells, c)
		}
	}
	slices.SortFunc(late.Cells, func(a, b record.Cell) int { return strings.Compare(a.Name, b.Name) })
	return late
}
