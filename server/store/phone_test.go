package store_test

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"

	"tautspan/internal/record"
	"tautspan/server/store"
)

// phone is what a phone does, with the same merge code and in the same steps:
// what is on its disk changes in whole transactions only, and a crash at any
// time leaves the disk and nothing else.
type phone struct {
	welcome *store.Welcome
	skewMS  int64 // how wrong its clock is
	disk    disk
	r       *rand.Rand
	epoch   int // grows with every crash: answers to earlier requests reach nobody
	// written is every operation the rider was told is kept.
	written map[string]*record.Op
	acked   map[string]bool // operations the server said it has
}

// disk is the phone's database.
type disk struct {
	rows    map[record.Key]string // merged from what the server sent
	unsent  []*record.Op          // in the order they were made
	refused map[string]string     // by id, with the code
	cursor  string
	clock   record.Clock
	// What the phone knew when the server turned out to be set back, and all it
	// heard since; nil while the server has lost nothing.
	knew map[record.Key]string
	past int // how often the server turned out to be set back
	// again are the operations made to tell it again, by id, and those refused.
	again map[string]*record.Op
}

func newPhone(r *rand.Rand, w *store.Welcome, skewMS int64) *phone {
	return &phone{r: r, welcome: w, skewMS: skewMS, written: map[string]*record.Op{}, acked: map[string]bool{},
		disk: disk{rows: map[record.Key]string{}, refused: map[string]string{}, again: map[string]*record.Op{}}}
}

// write makes one operation and keeps it, in one transaction. An operation that
// the phone itself refuses is none.
func (p *phone) write(r *rand.Rand, nowMS int64, table, id, put string) error {
	random := make([]byte, 10)
	for i := range random {
		random[i] = byte(r.Uint32())
	}
	ask := &record.Making{
		Last: p.disk.clock, NowMS: nowMS + p.skewMS, Random: hex.EncodeToString(random), Role: p.welcome.Role,
		Device: p.welcome.DeviceID, Table: table, Record: id, Known: p.knows(table, id),
	}
	if put == "" {
		ask.Remove = true
	} else {
		ask.Put = []byte(put)
	}
	op, err := record.NewOp(ask)
	if err != nil {
		return nil
	}
	if _, err = record.ReadOp(op.Text); err != nil {
		return fmt.Errorf("the phone made what it cannot read: %w", err)
	}
	p.disk.unsent = append(p.disk.unsent, op)
	p.disk.clock = op.Clock
	p.written[op.ID] = op
	return p.shows(op)
}

// shows holds that the rider sees what was just written, whatever the clocks of
// those who wrote before.
func (p *phone) shows(op *record.Op) error {
	r := &record.Record{Table: op.Table, ID: op.Record}
	if row, ok := p.seen(record.Key{Table: op.Table, ID: op.Record}); ok {
		var err error
		if r, err = record.ReadRow([]byte(row)); err != nil {
			return err
		}
	}
	for _, unsent := range p.disk.unsent {
		if unsent.Record == op.Record && unsent.Table == op.Table {
			r.Apply(unsent)
		}
	}
	if r.Hidden() != op.Remove {
		return fmt.Errorf("the phone wrote %s and does not see it", op.Text)
	}
	for _, m := range op.Put {
		if r.StampOf(m.Name) != op.Stamp() {
			return fmt.Errorf("the phone wrote %s and sees an older %s", op.Text, m.Name)
		}
	}
	return nil
}

// knows reports whether the phone has the record, from the server or unsent.
func (p *phone) knows(table, id string) bool {
	if _, ok := p.seen(record.Key{Table: table, ID: id}); ok {
		return true
	}
	for _, op := range p.disk.unsent {
		if op.Table == table && op.Record == id {
			return true
		}
	}
	return false
}

// seen is a record as it is shown, but for what is unsent.
func (p *phone) seen(key record.Key) (string, bool) {
	if p.disk.knew != nil {
		row, ok := p.disk.knew[key]
		return row, ok
	}
	row, ok := p.disk.rows[key]
	return row, ok
}

// request is a sync call on its way, sent by one tab of one phone.
type request struct {
	from  *phone
	epoch int
	// What the phone knew when it asked: an answer counts while that is so.
	cursor string
	past   int
	sent   map[string]bool // ids in it
	body   []byte
}

// ask begins a sync with at most most operations.
func (p *phone) ask(most int) *request {
	if p.disk.knew != nil {
		most = 0 // first hear what the server still has
	}
	batch := p.disk.unsent[:min(most, len(p.disk.unsent))]
	q := &request{from: p, epoch: p.epoch, cursor: p.disk.cursor, past: p.disk.past, sent: map[string]bool{}}
	ops := []json.RawMessage{}
	for _, op := range batch {
		q.sent[op.ID] = true
		ops = append(ops, op.Text)
	}
	q.body, _ = json.Marshal(map[string]any{"cursor": p.disk.cursor, "ops": ops}) // raw values that are JSON
	return q
}

// answered is the body of a sync answer.
type answered struct {
	Cursor   string
	Ops      []json.RawMessage
	More     *bool
	SetBack  bool `json:"set_back"`
	Rejected []struct {
		OpID string `json:"op_id"`
		Code string
	}
}

// retried are refusals after which the phone keeps the operation to send again.
var retried = map[string]bool{"clock_ahead": true, "too_many": true, "unavailable": true}

// take applies an answer in one transaction, or leaves everything as it is.
func (p *phone) take(q *request, status int, body []byte) error {
	var a answered
	if p.epoch != q.epoch || p.disk.cursor != q.cursor || p.disk.past != q.past || status != 200 || json.Unmarshal(body, &a) != nil || a.More == nil {
		return nil
	}
	if a.SetBack {
		if p.disk.knew == nil {
			p.disk.knew = p.disk.rows
		}
		p.disk.rows, p.disk.cursor, p.disk.past = map[record.Key]string{}, a.Cursor, p.disk.past+1
		return nil
	}
	heads, err := readHeads(a.Ops)
	if err != nil {
		return err
	}
	clock, err := merged(p.disk.rows, a.Ops, heads)
	if err == nil && p.disk.knew != nil {
		_, err = merged(p.disk.knew, a.Ops, heads)
	}
	if err != nil {
		return err
	}
	p.disk.cursor, p.disk.clock = a.Cursor, max(p.disk.clock, clock)
	if err := p.settleSent(q, &a); err != nil {
		return err
	}
	for _, h := range heads { // what comes back is kept, whatever an earlier answer said
		delete(p.disk.refused, h.ID)
	}
	if p.disk.knew != nil && !*a.More {
		return p.retell()
	}
	return nil
}

// settleSent notes what became of the operations that were sent.
func (p *phone) settleSent(q *request, a *answered) error {
	refused := map[string]string{}
	for _, r := range a.Rejected {
		refused[r.OpID] = r.Code
	}
	left := []*record.Op{}
	for _, op := range p.disk.unsent {
		code, no := refused[op.ID]
		switch {
		case !q.sent[op.ID] || no && retried[code]:
			left = append(left, op)
		case no:
			covered, err := p.covered(op)
			if err != nil {
				return err
			}
			if covered {
				delete(refused, op.ID)
			} else {
				p.disk.refused[op.ID] = code
			}
		}
	}
	for id := range q.sent {
		if _, no := refused[id]; !no {
			p.acked[id] = true
		}
	}
	p.disk.unsent = left
	return nil
}

// covered reports whether the server has all that a refused operation says: the
// same told by another phone or, of what is told again, something later.
func (p *phone) covered(op *record.Op) (bool, error) {
	row, ok := p.disk.rows[record.Key{Table: op.Table, ID: op.Record}]
	if !ok {
		return false, nil
	}
	r, err := record.ReadRow([]byte(row))
	if err != nil {
		return false, err
	}
	has := func(stamp record.Stamp) bool {
		if p.disk.again[op.ID] != nil {
			return string(stamp) >= string(op.Clock)
		}
		return strings.HasPrefix(string(stamp), string(op.Clock)+" "+op.Device)
	}
	for _, m := range op.Put {
		if !has(r.StampOf(m.Name)) {
			return false, nil
		}
	}
	return !op.Remove || has(r.Removed), nil
}

func keepRows(into map[record.Key]string, rows [][]byte) error {
	for _, text := range rows {
		r, err := record.ReadRow(text)
		if err != nil {
			return err
		}
		into[record.Key{Table: r.Table, ID: r.ID}] = string(text)
	}
	return nil
}

// head is what the phone needs to know of an operation before the merge.
type head struct {
	ID     string `json:"op_id"`
	Table  string
	Record string `json:"record_id"`
}

func readHeads(ops []json.RawMessage) ([]head, error) {
	heads := make([]head, len(ops))
	for i, text := range ops {
		if err := json.Unmarshal(text, &heads[i]); err != nil {
			return nil, err
		}
	}
	return heads, nil
}

// merged merges operations into the rows they touch.
func merged(rows map[record.Key]string, ops []json.RawMessage, heads []head) (record.Clock, error) {
	ask, touched := &record.MergeRequest{}, map[record.Key]bool{}
	for i, h := range heads {
		ask.Ops = append(ask.Ops, ops[i])
		key := record.Key{Table: h.Table, ID: h.Record}
		if row, ok := rows[key]; ok && !touched[key] {
			ask.Rows = append(ask.Rows, []byte(row))
		}
		touched[key] = true
	}
	answer, err := record.Merge(ask)
	if err != nil {
		return "", err
	}
	return answer.Clock, keepRows(rows, answer.Rows)
}

// state is what the phone has from the server.
func (p *phone) state() (record.State, error) {
	s := record.State{}
	for key, text := range p.disk.rows {
		r, err := record.ReadRow([]byte(text))
		if err != nil {
			return nil, err
		}
		s[key] = r
	}
	return s, nil
}
