package record

import (
	"slices"
	"strconv"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// MaxPutBytes is the largest put, as canonical JSON.
const MaxPutBytes = 16 << 10

// Author is the device an operation comes from.
type Author struct {
	Device string
	Role   Role
}

// Check refuses an operation for what it is, whatever the garage holds: another
// device's name on it, unless a leader tells it again, a clock more than MaxAheadMS ahead of nowMS, a table or
// field that is not known, a value that is not allowed, a role that may not
// write there. Errors are *fault.Error.
func (o *Op) Check(author Author, nowMS int64) error {
	t := tableNamed(o.Table)
	switch {
	case t == nil:
		return fault.New(fault.UnknownName, "table", "there is no such table; there are "+tableNames())
	case o.Device != author.Device && !author.Role.AtLeast(Leader):
		return fault.New(fault.Denied, "device_id", "this is not the device that sends the operation; only a leader may tell again what others made")
	case o.Clock.MS() > nowMS+MaxAheadMS:
		return fault.New(fault.ClockAhead, "hlc", "the device's clock is more than 24 hours ahead of the server's; set it right and send again")
	case !author.Role.AtLeast(t.Writer):
		return fault.New(fault.Denied, "table", "a "+string(author.Role)+" may not write to "+t.Name+"; that takes a "+string(t.Writer))
	case o.Remove && t.Fixed:
		return fault.New(fault.NotAllowed, "remove", "readings are never removed, only voided with void_reason")
	case o.Remove:
		return nil
	}
	_, err := t.read(o.Put)
	return fault.Under("put", err)
}

func tableNames() string {
	names := make([]string, len(tables))
	for i, t := range tables {
		names[i] = t.Name
	}
	return strings.Join(names, ", ")
}

// read checks the given fields and returns them as the table's record.
func (t *Table) read(put []wire.Member) (Fields, error) {
	text := wire.AppendMembers(nil, put)
	if len(text) > MaxPutBytes {
		return nil, fault.New(fault.TooLarge, "", "this has "+strconv.Itoa(len(text))+" bytes; allowed are at most "+strconv.Itoa(MaxPutBytes))
	}
	given, err := t.withoutNulls(put)
	if err != nil {
		return nil, err
	}
	if len(given) < len(put) {
		text = wire.AppendMembers(nil, given)
	}
	fields := t.New()
	if err := wire.ReadOf(text, fields); err != nil {
		return nil, err
	}
	return fields, fields.check()
}

// withoutNulls takes out the fields to be cleared, after making sure that they
// may be.
func (t *Table) withoutNulls(put []wire.Member) ([]wire.Member, error) {
	if len(put) == 0 {
		return nil, fault.New(fault.MissingField, "", "put needs at least one field")
	}
	if !slices.ContainsFunc(put, isNull) {
		return put, nil
	}
	given := make([]wire.Member, 0, len(put))
	for _, m := range put {
		switch {
		case !isNull(m):
			given = append(given, m)
		case slices.Contains(t.First, m.Name) || t.Fixed:
			return nil, fault.New(fault.MissingField, m.Name, "this field cannot be cleared")
		case !slices.Contains(wire.Names(t.New()), m.Name):
			return nil, fault.New(fault.UnknownField, m.Name, "this field is not known here")
		}
	}
	return given, nil
}

func isNull(m wire.Member) bool { return string(m.Value) == "null" }

// Prior is what is known of a record before an operation arrives: nil when it
// was never put.
type Prior struct{ CreatedBy string }

// Admit refuses a checked operation for what the garage holds: a first put that
// lacks a required field, a change to a reading, a remove of nothing, a checker
// who changes what another device added. Errors are *fault.Error.
func (o *Op) Admit(author Author, prior *Prior) error {
	t := tableNamed(o.Table)
	switch {
	case prior == nil && o.Remove:
		return fault.New(fault.NotFound, "record_id", "there is no such record to remove")
	case prior == nil:
		return fault.Under("put", t.checkFirst(o.Put))
	case t.Fixed:
		return o.onlyVoids()
	case !author.Role.AtLeast(Leader) && prior.CreatedBy != author.Device:
		return fault.New(fault.Denied, "record_id", "a "+string(author.Role)+" may change only what the same device added")
	}
	return nil
}

func (t *Table) checkFirst(put []wire.Member) error {
	given := func(name string) bool {
		for _, m := range put {
			if m.Name == name {
				return !isNull(m)
			}
		}
		return false
	}
	for _, name := range t.First {
		if !given(name) {
			return fault.New(fault.MissingField, name, "the first put of a record needs "+strings.Join(t.First, ", "))
		}
	}
	if len(t.FirstOneOf) > 0 && !slices.ContainsFunc(t.FirstOneOf, given) {
		return fault.New(fault.MissingField, t.FirstOneOf[0], "the first put of a record needs one of "+strings.Join(t.FirstOneOf, ", "))
	}
	return nil
}

func (o *Op) onlyVoids() error {
	for _, m := range o.Put {
		if m.Name != "void_reason" {
			return fault.New(fault.NotAllowed, "put."+m.Name, "a reading is never changed after the fact; void it with void_reason and take another")
		}
	}
	return nil
}
