package store

import "tautspan/internal/record"

// ReadCursor reads a cursor and writes it again.
func ReadCursor(epoch, text string) (string, error) {
	m, err := (&Store{epoch: epoch}).readCursor(text)
	return m.String(), err
}

// Push is the first half of Sync.
func (s *Store) Push(who *Session, ops []*record.Op, nowMS int64) ([]Rejected, error) {
	p, err := s.push(who, ops, nowMS)
	return p.rejected, err
}

// BeforeCommit lets a test fail the next commits, which stands for a crash.
func (s *Store) BeforeCommit(f func() error) { s.beforeCommit = f }

// RowsPerTable counts what is there.
func (s *Store) RowsPerTable() (map[string]int, error) {
	counts := map[string]int{}
	for _, table := range []string{"garages", "devices", "ops", "records", "invites"} {
		n := 0
		if err := s.reader.QueryRow("SELECT count(*) FROM " + table).Scan(&n); err != nil {
			return nil, err
		}
		counts[table] = n
	}
	return counts, nil
}

// SameNumber reports whether two garages have, or had, one number in the database.
func SameNumber(a, b *Session) bool { return a.gid == b.gid }

// Do runs any statement.
func (s *Store) Do(statement string) error {
	return s.write(func(t *tx) error { return t.exec(statement) }, nil)
}

// OpenNoSync opens a store that does not wait for the disk, for simulations
// that end with their process anyway.
func OpenNoSync(dir string) (*Store, error) {
	return open(dir, DefaultQuota(), "OFF")
}
