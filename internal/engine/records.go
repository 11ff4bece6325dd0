package engine

import (
	"tautspan/internal/garage"
	"tautspan/internal/record"
)

// MaxRecordsBytes is the largest request about records, 64 MiB: all that a
// phone holds of a large club, several times over.
const MaxRecordsBytes = 64 << 20

// records is what a phone asks about its own records. The server merges with
// the same packages; neither HTTP nor the shell offers these.
var records = []Calculation{
	define("merge", "Merge operations into rows", record.Merge),
	define("change", "Stamp changes, refuse what the server would refuse, merge them into rows", record.Apply),
	define("garage", "What the rows mean: chains on bikes, distances, rounds", garage.Mean),
	define("import", "The records of a garage that was given out", record.Import),
}

// CallRecords is Call for what a phone asks about its own records.
func CallRecords(name string, request []byte) ([]byte, error) {
	return call(records, MaxRecordsBytes, name, request)
}
