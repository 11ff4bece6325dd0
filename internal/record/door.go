package record

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// MergeRequest asks the phone's engine to merge operations into rows.
type MergeRequest struct {
	Rows [][]byte // the rows the operations touch, as MergeResponse gave them
	Ops  [][]byte
}

// Fields declares the request's JSON.
func (m *MergeRequest) Fields(o *wire.Object) {
	o.RawList("rows", &m.Rows).Length(0, maxMerge).Doc("state of the records the operations touch, as an earlier answer gave it", "")
	o.RawList("ops", &m.Ops).Required().Length(0, maxMerge).Doc("operations in any order, repeats allowed", "")
}

// maxMerge is how many rows or operations one call takes.
const maxMerge = 10000

// MergeResponse is the merged state.
type MergeResponse struct {
	Rows  [][]byte // sorted by table and id
	Clock Clock    // the latest clock among the operations, empty without any
}

// Fields declares the response's JSON.
func (m *MergeResponse) Fields(o *wire.Object) {
	o.RawList("rows", &m.Rows).Required().Doc("state of every record given or touched", "")
	o.Text("hlc", (*string)(&m.Clock)).Required().Doc("the latest clock among the operations; empty without any", "")
}

// Merge merges operations into rows. Operations are checked for their form
// only: whether they may be is the server's word. Errors are *fault.Error.
func Merge(request *MergeRequest) (*MergeResponse, error) {
	state := State{}
	for i, text := range request.Rows {
		r, err := ReadRow(text)
		if err != nil {
			return nil, fault.Under("rows["+strconv.Itoa(i)+"]", err)
		}
		state[Key{r.Table, r.ID}] = r
	}
	answer := &MergeResponse{Rows: [][]byte{}}
	for i, text := range request.Ops {
		op, err := ReadOp(text)
		if err != nil {
			return nil, fault.Under("ops["+strconv.Itoa(i)+"]", err)
		}
		state.Apply(op)
		answer.Clock = max(answer.Clock, op.Clock)
	}
	for _, r := range state.Sorted() {
		answer.Rows = append(answer.Rows, r.Row())
	}
	return answer, nil
}

// StampRequest asks the phone's engine for a new operation.
type StampRequest struct {
	Last   Clock // the latest clock the phone knows, own or seen; empty at first
	NowMS  float64
	Random string
	Role   Role
	Device string
	Table  string
	Record string
	Known  bool
	Put    []byte
	Remove bool
}

// Fields declares the request's JSON.
func (s *StampRequest) Fields(o *wire.Object) {
	o.Text("last_hlc", (*string)(&s.Last)).Default(`""`).Length(0, 40).Doc("the latest clock this phone knows, own or seen; empty at first", "")
	o.Number("now_ms", &s.NowMS).Required().Between(0, 2.5e14).Doc("the phone's clock, since 1970", "ms")
	o.Text("random", &s.Random).Required().Length(20, 20).Doc("ten random bytes in lower-case hexadecimal", "")
	wire.Choice(o, "role", &s.Role, Roles()...).Default(`"owner"`).Doc("this phone's role in the garage", "")
	o.Text("device_id", &s.Device).Required().Length(1, 40).Doc("this phone", "")
	o.Text("table", &s.Table).Required().Length(1, 40).Doc("which table", "")
	o.Text("record_id", &s.Record).Required().Length(1, 40).Doc("which record", "")
	o.Boolean("known", &s.Known).Default("false").Doc("whether the record was put before", "")
	o.Raw("put", &s.Put).Doc("fields to set; null clears one that is not required", "")
	o.Boolean("remove", &s.Remove).Default("false").Doc("hide the record until a later put", "")
}

// StampResponse is the new operation, to be kept and sent as it is.
type StampResponse struct {
	Op    []byte
	Clock Clock
}

// Fields declares the response's JSON.
func (s *StampResponse) Fields(o *wire.Object) {
	o.Raw("op", &s.Op).Required().Doc("the operation, to be kept and sent as it is", "")
	o.Text("hlc", (*string)(&s.Clock)).Required().Doc("its clock, the phone's latest from now on", "")
}

// NewOp stamps a new operation and refuses what the server would refuse, so
// that nothing wrong is ever queued. Errors are *fault.Error.
func NewOp(s *StampRequest) (*StampResponse, error) {
	if s.Last != "" && !s.Last.Valid() {
		return nil, fault.New(fault.Unreadable, "last_hlc", "this is no clock; its form is 2026-03-01T08:00:00.000Z-0000")
	}
	random, ok := unhex(s.Random)
	if !ok {
		return nil, fault.New(fault.Unreadable, "random", "this must be 20 digits of lower-case hexadecimal")
	}
	now := int64(s.NowMS)
	clock := s.Last.Next(now)
	text := []byte(`{"op_id":"` + UUIDv7(now, random) + `","hlc":"` + string(clock) + `","device_id":`)
	text = append(wire.AppendText(text, s.Device), `,"table":`...)
	text = append(wire.AppendText(text, s.Table), `,"record_id":`...)
	text = wire.AppendText(text, s.Record)
	if s.Put != nil {
		text = append(append(text, `,"put":`...), s.Put...)
	}
	if s.Remove {
		text = append(text, `,"remove":true`...)
	}
	op, err := ReadOp(append(text, '}'))
	if err != nil {
		return nil, err
	}
	author := Author{s.Device, s.Role}
	if err := op.Check(author, clock.MS()); err != nil {
		return nil, err
	}
	var prior *Prior
	if s.Known {
		prior = &Prior{CreatedBy: s.Device} // whose it is, only the server knows
	}
	if err := op.Admit(author, prior); err != nil {
		return nil, err
	}
	return &StampResponse{Op: op.Text, Clock: clock}, nil
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
