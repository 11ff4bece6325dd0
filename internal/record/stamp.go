package record

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Making is what a new operation is made of.
type Making struct {
	Last   Clock // the latest clock the phone knows, own or seen; empty at first
	Clock  Clock // its own, where it was made before; else empty
	NowMS  int64
	Random string // ten random bytes in lower-case hexadecimal
	Role   Role
	Device string
	Table  string
	Record string
	Known  bool // whether the record was put before
	Put    []byte
	Remove bool
}

// NewOp stamps a new operation and refuses what the server would refuse, so
// that nothing wrong is ever queued. Errors are *fault.Error.
func NewOp(m *Making) (*Op, error) {
	if m.Last != "" && !m.Last.Valid() {
		return nil, fault.New(fault.Unreadable, "last_hlc", "this is no clock; its form is 2026-03-01T08:00:00.000Z-0000")
	}
	random, ok := unhex(m.Random)
	if !ok {
		return nil, fault.New(fault.Unreadable, "random", "this must be 20 digits of lower-case hexadecimal")
	}
	clock := m.Clock
	if clock == "" {
		clock = m.Last.Next(m.NowMS)
	}
	op, err := ReadOp(m.text(UUIDv7(m.NowMS, random), clock))
	if err != nil {
		return nil, err
	}
	author := Author{m.Device, m.Role}
	if err := op.Check(author, op.Clock.MS()); err != nil {
		return nil, err
	}
	if m.Clock != "" {
		return op, nil // the server took it once; whether it still may, only the server knows
	}
	var prior *Prior
	if m.Known {
		prior = &Prior{CreatedBy: m.Device} // whose it is, only the server knows
	}
	return op, op.Admit(author, prior)
}

func (m *Making) text(id string, clock Clock) []byte {
	text := []byte(`{"op_id":"` + id + `","hlc":"` + string(clock) + `","device_id":`)
	text = append(wire.AppendText(text, m.Device), `,"table":`...)
	text = append(wire.AppendText(text, m.Table), `,"record_id":`...)
	text = wire.AppendText(text, m.Record)
	if m.Put != nil {
		text = append(append(text, `,"put":`...), m.Put...)
	}
	if m.Remove {
		text = append(text, `,"remove":true`...)
	}
	return append(text, '}')
}

func unhex(text string) (out [10]byte, ok bool) {
	if len(text) != 20 || !shaped(text, "xxxxxxxxxxxxxxxxxxxx") {
		return out, false
	}
	for i := range out {
		v, _ := strconv.ParseUint(text[2*i:2*i+2], 16, 8) // shaped makes sure of its form
		out[i] = byte(v)
	}
	return out, true
}
