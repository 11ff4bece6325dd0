package record

import (
	"strings"

	"tautspan/internal/order"
	"tautspan/internal/wire"
)

// Cell is one field's value with the stamp that put it there.
type Cell struct {
	Name  string
	Value []byte // canonical JSON; null where the field was cleared
	Stamp Stamp
}

// Record is a record's merged state. The zero value with Table and ID set is a
// record nothing is known of.
type Record struct {
	Table, ID string
	Cells     []Cell // sorted by name
	Removed   Stamp  // greatest remove, empty for none
}

// Apply merges an operation of this record into its state. The order and the
// number of times do not matter.
func (r *Record) Apply(op *Op) {
	stamp := op.Stamp()
	if op.Remove {
		r.Removed = max(r.Removed, stamp)
		return
	}
	for _, m := range op.Put {
		i := 0
		for i < len(r.Cells) && r.Cells[i].Name < m.Name {
			i++
		}
		switch {
		case i == len(r.Cells) || r.Cells[i].Name != m.Name:
			r.Cells = append(r.Cells, Cell{})
			copy(r.Cells[i+1:], r.Cells[i:])
			r.Cells[i] = Cell{m.Name, m.Value, stamp}
		case stamp > r.Cells[i].Stamp:
			r.Cells[i].Value, r.Cells[i].Stamp = m.Value, stamp
		}
	}
}

// Latest returns the greatest stamp of any put, empty for none.
func (r *Record) Latest() Stamp {
	latest := Stamp("")
	for _, c := range r.Cells {
		latest = max(latest, c.Stamp)
	}
	return latest
}

// Hidden reports whether the record is removed: never put, or no put is later
// than its latest remove.
func (r *Record) Hidden() bool { return r.Removed >= r.Latest() }

// Text returns the record's fields as one JSON object, names sorted, cleared
// fields left out.
func (r *Record) Text() []byte {
	members := make([]wire.Member, 0, len(r.Cells))
	for _, c := range r.Cells {
		if string(c.Value) != "null" {
			members = append(members, wire.Member{Name: c.Name, Value: c.Value})
		}
	}
	return wire.AppendMembers(nil, members)
}

// StampOf returns the stamp of a field's value, empty when it was never put.
func (r *Record) StampOf(name string) Stamp {
	for _, c := range r.Cells {
		if c.Name == name {
			return c.Stamp
		}
	}
	return ""
}

// Value returns a field's value as JSON, nil when it is not set.
func (r *Record) Value(name string) []byte {
	for _, c := range r.Cells {
		if c.Name == name && string(c.Value) != "null" {
			return c.Value
		}
	}
	return nil
}

// Key names a record.
type Key struct{ Table, ID string }

// State is the merged state of many records.
type State map[Key]*Record

// Apply merges an operation into the state.
func (s State) Apply(op *Op) {
	key := Key{op.Table, op.Record}
	r := s[key]
	if r == nil {
		r = &Record{Table: op.Table, ID: op.Record}
		s[key] = r
	}
	r.Apply(op)
}

// Sorted returns the records by table, in the order of the table of tables, then by id.
func (s State) Sorted() []*Record {
	place := map[string]int{}
	for i, t := range tables {
		place[t.Name] = i
	}
	all := make([]*Record, 0, len(s))
	for _, r := range s {
		all = append(all, r)
	}
	order.By(all, func(a, b *Record) int {
		if a.Table != b.Table {
			return place[a.Table] - place[b.Table]
		}
		return strings.Compare(a.ID, b.ID)
	})
	return all
}
