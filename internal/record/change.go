package record

import (
	"slices"
	"strconv"
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Change is one thing that is to be changed.
type Change struct {
	Random, Table, Record string
	Put                   []byte
	Remove, Whole         bool
	// Clock and Device are set for what was made before, and is told again as it
	// was made.
	Clock  Clock
	Device string
}

// Fields declares the change's JSON.
func (c *Change) Fields(o *wire.Object) {
	o.Text("random", &c.Random).Required().Length(20, 20).Doc("ten random bytes in lower-case hexadecimal", "")
	o.Text("table", &c.Table).Required().Length(1, 40).Doc("which table", "")
	o.Text("record_id", &c.Record).Required().Length(1, 40).Doc("which record", "")
	o.Raw("put", &c.Put).Doc("fields to set; null clears one that is not required", "")
	o.Boolean("remove", &c.Remove).Default("false").Doc("hide the record until a later put", "")
	o.Text("hlc", (*string)(&c.Clock)).Default(`""`).Length(0, 40).Doc("when it was made, where it is told again", "")
	o.Text("device_id", &c.Device).Default(`""`).Length(0, 40).Doc("who made it, with hlc", "")
	o.Boolean("whole", &c.Whole).Default("false").Doc("put is a whole record from elsewhere: what does not fit one operation becomes several", "")
}

// ChangeRequest asks the phone's engine for operations that change rows.
type ChangeRequest struct {
	Rows    [][]byte // the rows to be changed, as far as they are known
	Last    Clock    // the latest clock the phone knows, own or seen; empty at first
	NowMS   float64
	Role    Role
	Device  string
	Changes []Change
}

// Fields declares the request's JSON.
func (c *ChangeRequest) Fields(o *wire.Object) {
	o.RawList("rows", &c.Rows).Required().Length(0, maxMerge).Doc("the rows to be changed, those that are there", "")
	o.Text("last_hlc", (*string)(&c.Last)).Default(`""`).Length(0, 40).Doc("the latest clock this phone knows, own or seen; empty at first", "")
	o.Number("now_ms", &c.NowMS).Required().Between(0, 2.5e14).Doc("the phone's clock, since 1970", "ms")
	wire.Choice(o, "role", &c.Role, Roles()...).Default(`"owner"`).Doc("this phone's role in the garage", "")
	o.Text("device_id", &c.Device).Required().Length(1, 40).Doc("this phone", "")
	wire.List(o, "changes", &c.Changes).Required().Length(1, maxMerge).Doc("one after another", "")
}

// ChangeResponse holds the operations, to be kept and sent as they are, and the
// rows they lead to.
type ChangeResponse struct {
	Ops, Rows [][]byte
	Clock     Clock
}

// Fields declares the response's JSON.
func (c *ChangeResponse) Fields(o *wire.Object) {
	o.RawList("ops", &c.Ops).Required().Doc("in their order, to be kept and sent as they are", "")
	o.RawList("rows", &c.Rows).Required().Doc("every row given or changed", "")
	o.Text("hlc", (*string)(&c.Clock)).Required().Doc("the phone's latest clock from now on", "")
}

// Apply stamps changes, refuses what the server would refuse, and merges them
// into rows. One wrong change refuses them all. Errors are *fault.Error.
func Apply(request *ChangeRequest) (*ChangeResponse, error) {
	state, err := readRows(request.Rows)
	if err != nil {
		return nil, err
	}
	answer := &ChangeResponse{Ops: [][]byte{}, Clock: request.Last}
	for i := range request.Changes {
		c := &request.Changes[i]
		puts, err := c.puts()
		for j := 0; err == nil && j < len(puts); j++ {
			err = answer.stamp(state, request, c, puts[j], j)
		}
		if err != nil {
			return nil, fault.Under("changes["+strconv.Itoa(i)+"]", err)
		}
	}
	answer.Rows = state.rows()
	return answer, nil
}

// stamp makes part number part of a change.
func (a *ChangeResponse) stamp(state State, request *ChangeRequest, c *Change, put []byte, part int) error {
	random := c.Random
	if part > 0 || c.Clock != "" { // another operation of the same random bytes needs an id of its own; of one clock, a later one
		random = random[:min(len(random), 18)] + string("0123456789abcdef"[part>>4&15]) + string("0123456789abcdef"[part&15])
	}
	m := &Making{Last: a.Clock, NowMS: int64(request.NowMS), Random: random, Role: request.Role, Device: request.Device,
		Table: c.Table, Record: c.Record, Known: state[Key{c.Table, c.Record}] != nil, Put: put, Remove: c.Remove}
	if c.Clock != "" {
		m.Clock, m.Device = c.Clock, c.Device
	}
	op, err := NewOp(m)
	if err != nil {
		return err
	}
	state.Apply(op)
	a.Ops, a.Clock = append(a.Ops, op.Text), max(a.Clock, op.Clock)
	return nil
}

// puts is the change's put, in parts if it is a whole record that one operation
// cannot hold.
func (c *Change) puts() ([][]byte, error) {
	t := tableNamed(c.Table)
	if !c.Whole || t == nil {
		return [][]byte{c.Put}, nil
	}
	members, err := wire.Members(c.Put)
	if err != nil {
		return nil, fault.Under("put", err)
	}
	first, rest := t.parts(members)
	puts := [][]byte{wire.AppendMembers(nil, first)}
	for i := range rest {
		puts = append(puts, wire.AppendMembers(nil, rest[i:i+1]))
	}
	return puts, nil
}

// parts takes out of a whole record what its first put cannot hold: fields that
// two phones have set so that they contradict each other now, and what makes it
// too large. Each of those goes into an operation of its own.
func (t *Table) parts(whole []wire.Member) (first, rest []wire.Member) {
	first = whole
	for {
		_, err := t.read(first)
		name := t.obstacle(first, err)
		if name == "" {
			return first, rest
		}
		kept := make([]wire.Member, 0, len(first))
		for _, m := range first {
			if m.Name == name {
				rest = append(rest, m)
			} else {
				kept = append(kept, m)
			}
		}
		first = kept
	}
}

// obstacle names the field to take out of a first put that was refused with
// err, nothing where that would not help.
func (t *Table) obstacle(first []wire.Member, err error) string {
	f, ok := err.(*fault.Error)
	if !ok || f.Code != fault.Contradiction && f.Code != fault.TooLarge {
		return ""
	}
	wanted, _, _ := strings.Cut(f.Field, ".")
	size, found := 0, ""
	for _, m := range first {
		required := t.Fixed && m.Name != "void_reason" || !t.Fixed && slices.Contains(t.First, m.Name)
		right := f.Code == fault.Contradiction && m.Name == wanted || f.Code == fault.TooLarge && len(m.Value) > size
		if right && !required {
			size, found = len(m.Value), m.Name
		}
	}
	return found
}
