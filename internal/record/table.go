package record

import "tautspan/internal/wire"

// Table is one row of the table of tables.
type Table struct {
	Name string
	// Writer is the least role that may write to the table.
	Writer Role
	// First lists what the first put of a record must have.
	First []string
	// FirstOneOf lists fields of which the first put must have one.
	FirstOneOf []string
	// Fixed is set where records are never changed, only voided with a reason.
	Fixed bool
	// New returns an empty record, to read fields into and to describe them.
	New func() Fields
}

// Fields is one table's record with its fields as variables.
type Fields interface {
	wire.Message
	// check refuses what each field allows but all given ones together do not.
	check() error
}

// tables is the one description of what garages hold.
var tables = []Table{
	{Name: "bikes", Writer: Leader, First: []string{"name", "drive"}, New: func() Fields { return &Bike{} }},
	{Name: "chains", Writer: Leader, First: []string{"bike_id"}, New: func() Fields { return &Chain{} }},
	{Name: "readings", Writer: Checker, First: []string{"chain_id", "at", "at_km", "reading"}, Fixed: true, New: func() Fields { return &Reading{} }},
	{Name: "distances", Writer: Checker, First: []string{"bike_id", "at"}, FirstOneOf: []string{"odometer_km", "add_km"}, New: func() Fields { return &Distance{} }},
	{Name: "care", Writer: Checker, First: []string{"chain_id", "at", "did"}, New: func() Fields { return &Care{} }},
	{Name: "instruments", Writer: Leader, First: []string{"name", "kind"}, New: func() Fields { return &Instrument{} }},
	{Name: "rounds", Writer: Leader, First: []string{"name", "started_at"}, New: func() Fields { return &Round{} }},
	{Name: "round_checks", Writer: Checker, First: []string{"round_id", "bike_id", "at", "state"}, New: func() Fields { return &RoundCheck{} }},
	{Name: "prices", Writer: Leader, First: []string{"currency"}, New: func() Fields { return &Prices{} }},
}

// Read reads a record's merged fields. Errors are *fault.Error.
func Read(r *Record, into Fields) error { return wire.ReadOf(r.Text(), into) }

// tableNamed returns the table of that name, nil when there is none.
func tableNamed(name string) *Table {
	for i := range tables {
		if tables[i].Name == name {
			return &tables[i]
		}
	}
	return nil
}
