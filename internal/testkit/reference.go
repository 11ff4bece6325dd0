package testkit

import (
	"cmp"
	"encoding/json"
	"slices"

	"tautspan/internal/record"
)

// Reference is the definition of merging, kept as plain as possible and sharing
// no code with internal/record: put all different operations in order by clock,
// device and id, replay them one after the other, and look. The answer maps
// "table/id" to the JSON of the record's fields; hidden records are left out.
func Reference(ops []*record.Op) map[string]string {
	ordered := slices.Clone(ops)
	slices.SortFunc(ordered, func(a, b *record.Op) int {
		return cmp.Or(cmp.Compare(a.Clock, b.Clock), cmp.Compare(a.Device, b.Device), cmp.Compare(a.ID, b.ID))
	})
	fields := map[string]map[string]json.RawMessage{}
	hidden := map[string]bool{}
	for _, op := range ordered {
		key := op.Table + "/" + op.Record
		hidden[key] = op.Remove
		if fields[key] == nil {
			fields[key] = map[string]json.RawMessage{}
		}
		for _, m := range op.Put {
			if string(m.Value) == "null" {
				delete(fields[key], m.Name)
			} else {
				fields[key][m.Name] = json.RawMessage(m.Value)
			}
		}
	}
	view := map[string]string{}
	for key, record := range fields {
		if !hidden[key] {
			text, _ := json.Marshal(record) // raw values that were read from JSON
			view[key] = string(text)
		}
	}
	return view
}

// View is what a merged state shows, in the form of Reference.
func View(s record.State) map[string]string {
	view := map[string]string{}
	for key, r := range s {
		if !r.Hidden() {
			view[key.Table+"/"+key.ID] = string(r.Text())
		}
	}
	return view
}
