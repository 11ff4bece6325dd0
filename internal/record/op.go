// Package record is what phones and server agree on: operations, their clock,
// and how they merge. A record is a set of fields; an operation puts some of
// them or removes the record. A field's value is the one with the greatest
// stamp (clock, then device, then operation); a record is hidden when its
// greatest remove is later than its greatest put. Merging is therefore
// commutative, associative and idempotent, whatever the order, losses and
// repeats on the way.
//
// The same code runs on the phone (WebAssembly) and on the server. Time,
// randomness and ids are arguments.
package record

import (
	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Op is one operation. Exactly one of Put and Remove is there.
type Op struct {
	ID     string // UUIDv7
	Clock  Clock
	Device string // UUID of the device that made it
	Table  string
	Record string        // UUID of the record
	Put    []wire.Member // sorted by name; a value null clears the field
	Remove bool
	// Text is the operation as canonical JSON (RFC 8785): two operations are the
	// same exactly when their texts are.
	Text []byte
}

// opMessage is an operation's JSON.
type opMessage struct {
	op     *Op
	put    []byte
	remove *bool
}

// Fields declares the operation's JSON.
func (m *opMessage) Fields(o *wire.Object) {
	o.Text("op_id", &m.op.ID).Required().Length(1, 40).Doc("UUID of version 7, chosen by the device", "")
	o.Text("hlc", (*string)(&m.op.Clock)).Required().Length(1, 40).
		Doc("hybrid logical clock: 2026-03-01T08:00:00.000Z-0000", "")
	o.Text("device_id", &m.op.Device).Required().Length(1, 40).Doc("UUID of the device that sends it", "")
	o.Text("table", &m.op.Table).Required().Length(1, 40).Doc("which table", "")
	o.Text("record_id", &m.op.Record).Required().Length(1, 40).Doc("UUID of the record, chosen by the device", "")
	o.Raw("put", &m.put).Doc("fields to set; null clears one that is not required", "")
	o.OptionalBoolean("remove", &m.remove).Doc("true hides the record until a later put", "")
}

// ReadOp reads one operation and checks its form, not its fields. On failure
// the error is a *fault.Error and the operation holds at most its ID, so that
// the refusal can name it.
func ReadOp(raw []byte) (*Op, error) {
	text, err := wire.Canonical(raw)
	if err != nil {
		return &Op{ID: idOf(raw)}, err
	}
	op := &Op{Text: text}
	m := &opMessage{op: op}
	if err := wire.ReadOf(text, m); err != nil {
		return &Op{ID: idOf(text)}, err
	}
	if err := op.checkForm(m); err != nil {
		return &Op{ID: op.ID}, err
	}
	if m.put != nil {
		if op.Put, err = wire.MembersOf(m.put); err != nil {
			return &Op{ID: op.ID}, fault.Under("put", err)
		}
	}
	return op, nil
}

// idOf finds the id in an operation that could not be read, else nothing.
func idOf(text []byte) string {
	only := &struct{ onlyID }{}
	members, err := wire.Members(text)
	if err != nil {
		return ""
	}
	for _, m := range members {
		if m.Name == "op_id" && wire.Read([]byte(`{"op_id":`+string(m.Value)+`}`), only) == nil {
			return only.id
		}
	}
	return ""
}

type onlyID struct{ id string }

func (m *onlyID) Fields(o *wire.Object) { o.Text("op_id", &m.id).Length(1, 40) }

func (o *Op) checkForm(m *opMessage) error {
	o.Remove = m.remove != nil && *m.remove
	switch {
	case !ValidUUIDv7(o.ID):
		return fault.New(fault.Unreadable, "op_id", "this is no UUID of version 7 in lower case, such as 017f22e2-79b0-7cc3-98c4-dc0c0c07398f")
	case !o.Clock.Valid():
		return fault.New(fault.Unreadable, "hlc", "this is no clock; its form is 2026-03-01T08:00:00.000Z-0000, the counter in lower-case hexadecimal")
	case !ValidUUID(o.Device):
		return fault.New(fault.Unreadable, "device_id", "this is no UUID in lower case")
	case !ValidUUID(o.Record):
		return fault.New(fault.Unreadable, "record_id", "this is no UUID in lower case")
	case m.remove != nil && !*m.remove:
		return fault.New(fault.NotAllowed, "remove", "remove is true or left out")
	case o.Remove && m.put != nil:
		return fault.New(fault.Contradiction, "remove", "an operation either puts fields or removes the record, not both")
	case !o.Remove && m.put == nil:
		return fault.New(fault.MissingField, "put", "an operation needs put with at least one field, or remove")
	}
	return nil
}

// Stamp returns what orders the operation among all others.
func (o *Op) Stamp() Stamp { return stampOf(o.Clock, o.Device, o.ID) }
