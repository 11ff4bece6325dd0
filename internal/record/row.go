package record

import (
	"strings"

	"tautspan/internal/fault"
	"tautspan/internal/order"
	"tautspan/internal/wire"
)

// row is a record's state as the phone keeps it:
// {table, record_id, removed, fields: {name: value}, stamps: {name: stamp},
// removed_at: stamp}. Cleared fields are null.
type row struct {
	table, id string
	removed   bool
	fields    []byte
	stamps    []byte
	removedAt *string
}

// Fields declares the row's JSON.
func (w *row) Fields(o *wire.Object) {
	o.Text("table", &w.table).Required().Length(1, 40)
	o.Text("record_id", &w.id).Required().Length(1, 40)
	o.Boolean("removed", &w.removed).Doc("whether it is hidden; follows from the stamps", "")
	o.Raw("fields", &w.fields).Required().Doc("every field by its name", "")
	o.Raw("stamps", &w.stamps).Required().Doc("the stamp of every field by its name", "")
	o.OptionalText("removed_at", &w.removedAt).Length(1, 120).Doc("stamp of the latest remove", "")
}

// Row returns the record's state as JSON, to be read back by ReadRow.
func (r *Record) Row() []byte {
	values, stamps := make([]wire.Member, len(r.Cells)), make([]wire.Member, len(r.Cells))
	for i, c := range r.Cells {
		values[i] = wire.Member{Name: c.Name, Value: c.Value}
		stamps[i] = wire.Member{Name: c.Name, Value: wire.AppendText(nil, string(c.Stamp))}
	}
	w := &row{
		table: r.Table, id: r.ID, removed: r.Hidden(),
		fields: wire.AppendMembers(nil, values), stamps: wire.AppendMembers(nil, stamps),
	}
	if r.Removed != "" {
		w.removedAt = (*string)(&r.Removed)
	}
	text, _ := wire.Write(w) // holds no numbers of its own, so it always writes
	return text
}

// ReadRow reads a record's state. Errors are *fault.Error.
func ReadRow(text []byte) (*Record, error) {
	w := &row{}
	if err := wire.Read(text, w); err != nil {
		return nil, err
	}
	r := &Record{Table: w.table, ID: w.id}
	if w.removedAt != nil {
		r.Removed = Stamp(*w.removedAt)
	}
	values, err := wire.MembersOf(w.fields)
	if err != nil {
		return nil, fault.Under("fields", err)
	}
	stamps, err := wire.MembersOf(w.stamps)
	if err != nil {
		return nil, fault.Under("stamps", err)
	}
	byName := map[string][]byte{}
	for _, m := range stamps {
		byName[m.Name] = m.Value
	}
	for _, m := range values {
		stamp, err := readStamp(byName[m.Name])
		if err != nil {
			return nil, fault.Under("stamps."+m.Name, err)
		}
		r.Cells = append(r.Cells, Cell{m.Name, m.Value, stamp})
	}
	order.By(r.Cells, func(a, b Cell) int { return strings.Compare(a.Name, b.Name) })
	return r, nil
}

// stampSize is the length of every stamp: a clock and two UUIDs with blanks
// between, so that stamps compare as their parts do.
const stampSize = len(clockShape) + 1 + len(uuidShape) + 1 + len(uuidShape)

func readStamp(raw []byte) (Stamp, error) {
	text := strings.Trim(string(raw), `"`)
	if len(text) != stampSize || !Clock(text[:len(clockShape)]).Valid() {
		return "", fault.New(fault.Unreadable, "", "every field needs the stamp it was put with")
	}
	return Stamp(text), nil
}
