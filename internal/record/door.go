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
	state, err := readRows(request.Rows)
	if err != nil {
		return nil, err
	}
	answer := &MergeResponse{}
	for i, text := range request.Ops {
		op, err := ReadOp(text)
		if err != nil {
			return nil, fault.Under("ops["+strconv.Itoa(i)+"]", err)
		}
		state.Apply(op)
		answer.Clock = max(answer.Clock, op.Clock)
	}
	answer.Rows = state.rows()
	return answer, nil
}

func readRows(texts [][]byte) (State, error) {
	state := State{}
	for i, text := range texts {
		r, err := ReadRow(text)
		if err != nil {
			return nil, fault.Under("rows["+strconv.Itoa(i)+"]", err)
		}
		state[Key{r.Table, r.ID}] = r
	}
	return state, nil
}

func (s State) rows() [][]byte {
	rows := make([][]byte, 0, len(s))
	for _, r := range s.Sorted() {
		rows = append(rows, r.Row())
	}
	return rows
}
