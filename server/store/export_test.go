package store

import (
	"context"
	"fmt"
	"sync"
)

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

// SetSchema pretends the database were made by another version.
func (s *Store) SetSchema(version int) error {
	return s.write(func(t *tx) error {
		_, err := t.conn.ExecContext(context.Background(), fmt.Sprintf("PRAGMA user_version = %d", version))
		return err
	}, nil)
}

var opening sync.Mutex

// OpenNoSync opens a store that does not wait for the disk, for simulations
// that end with their process anyway.
func OpenNoSync(dir string) (*Store, error) {
	opening.Lock()
	defer opening.Unlock()
	synchronous = "OFF"
	defer func() { synchronous = "FULL" }()
	return Open(dir, DefaultQuota())
}
