package record

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// ExportFormat names the form in which a whole garage is given out.
const ExportFormat = "tautspan-garage-1"

// ExportTables writes every record that is not hidden, with all its fields, as
// {table: [{"record_id": …, "fields": {…}}]}, every table in its place.
func ExportTables(s State) []byte {
	byTable := map[string][]*Record{}
	for _, r := range s.Sorted() {
		if !r.Hidden() {
			byTable[r.Table] = append(byTable[r.Table], r)
		}
	}
	out := []byte{'{'}
	for i, t := range tables {
		if i > 0 {
			out = append(out, ',')
		}
		out = append(append(append(out, '"'), t.Name...), `":[`...)
		for j, r := range byTable[t.Name] {
			if j > 0 {
				out = append(out, ',')
			}
			out = wire.AppendText(append(out, `{"record_id":`...), r.ID)
			out = append(append(append(out, `,"fields":`...), r.Text()...), '}')
		}
		out = append(out, ']')
	}
	return append(out, '}')
}

// Imported is one record out of an export, to be put anew, whole, by Apply.
type Imported struct {
	Table, ID string
	Put       []byte // its fields as a JSON object
}

// Fields declares the record's JSON.
func (i *Imported) Fields(o *wire.Object) {
	o.Text("table", &i.Table).Required().Doc("which table", "")
	o.Text("record_id", &i.ID).Required().Doc("which record", "")
	o.Raw("put", &i.Put).Required().Doc("its fields", "")
}

// MaxImport is how many records an import may hold.
const MaxImport = 200_000

// ReadExport reads a whole garage that was given out, checking every record as
// a first put would be checked, and returns its records in an order in which
// they may be put. One wrong record refuses the whole, so that nothing is taken
// in by halves. Errors are *fault.Error naming table and place.
func ReadExport(text []byte) ([]Imported, error) {
	members, err := wire.Members(text)
	if err != nil {
		return nil, err
	}
	parts := map[string][]byte{}
	for _, m := range members {
		parts[m.Name] = m.Value
	}
	if string(parts["format"]) != `"`+ExportFormat+`"` {
		return nil, fault.New(fault.NotAllowed, "format", "this is no garage that was given out here, or by a newer version; the format must be "+ExportFormat)
	}
	byTable, err := wire.Members(parts["tables"])
	if err != nil {
		return nil, fault.New(fault.Unreadable, "tables", "the records are missing, or are no JSON object")
	}
	all := []Imported{}
	for _, m := range byTable {
		t := tableNamed(m.Name)
		if t == nil {
			return nil, fault.New(fault.UnknownName, "tables."+m.Name, "there is no such table; there are "+tableNames())
		}
		if all, err = t.readExported(m.Value, all); err != nil {
			return nil, fault.Under("tables."+m.Name, err)
		}
	}
	return all, nil
}

// exportedRecord is one record of an export.
type exportedRecord struct {
	id     string
	fields []byte
}

func (e *exportedRecord) Fields(o *wire.Object) {
	o.Text("record_id", &e.id).Required().Length(1, 40)
	o.Raw("fields", &e.fields).Required()
}

type exportedList struct{ records [][]byte }

func (e *exportedList) Fields(o *wire.Object) {
	o.RawList("records", &e.records).Length(0, MaxImport)
}

func (t *Table) readExported(list []byte, all []Imported) ([]Imported, error) {
	found := &exportedList{}
	if err := wire.Read(append(append([]byte(`{"records":`), list...), '}'), found); err != nil {
		return nil, err
	}
	for i, text := range found.records {
		r := &exportedRecord{}
		err := wire.ReadOf(text, r)
		if err == nil {
			err = t.checkExported(r)
		}
		if err != nil {
			return nil, fault.Under("["+strconv.Itoa(i)+"]", err)
		}
		all = append(all, Imported{t.Name, r.id, r.fields})
	}
	return all, nil
}

func (t *Table) checkExported(r *exportedRecord) error {
	if !ValidUUID(r.id) {
		return fault.New(fault.Unreadable, "record_id", "this is no UUID in lower case")
	}
	put, err := wire.Members(r.fields)
	if err != nil {
		return fault.Under("fields", err)
	}
	first, rest := t.parts(put)
	_, err = t.read(first)
	for i := 0; err == nil && i < len(rest); i++ {
		_, err = t.read(rest[i : i+1])
	}
	if err == nil {
		err = t.checkFirst(first)
	}
	return fault.Under("fields", err)
}

// ImportRequest asks for the records of a garage that was given out.
type ImportRequest struct{ File []byte }

// Fields declares the request's JSON.
func (i *ImportRequest) Fields(o *wire.Object) {
	o.Raw("file", &i.File).Required().Doc("the file as it was given out", "")
}

// ImportResponse lists records in an order in which Apply may put them.
type ImportResponse struct{ Records [][]byte }

// Fields declares the response's JSON.
func (i *ImportResponse) Fields(o *wire.Object) {
	o.RawList("records", &i.Records).Required().Doc("to be put by changes that are whole", "")
}

// Import is ReadExport as a message.
func Import(request *ImportRequest) (*ImportResponse, error) {
	records, err := ReadExport(request.File)
	if err != nil {
		return nil, fault.Under("file", err)
	}
	answer := &ImportResponse{Records: make([][]byte, len(records))}
	for i := range records {
		if answer.Records[i], err = wire.Write(&records[i]); err != nil {
			return nil, err
		}
	}
	return answer, nil
}
