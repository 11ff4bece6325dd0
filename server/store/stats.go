package store

import (
	"context"
	"os"
	"sync/atomic"
)

// Stats counts what the store has done since it was opened.
type Stats struct {
	Commits, Calls, Failures int64 // of the writer
	Kept, Refused            int64 // operations that were new, and refused ones
	Waiting                  int64 // calls that wait for the writer now
	Streams                  int64 // watchers now
}

// counters holds Stats while they grow.
type counters struct{ commits, calls, failures, kept, refused atomic.Int64 }

// Stats returns what the store has done so far.
func (s *Store) Stats() Stats {
	c := &s.count
	return Stats{
		Commits: c.commits.Load(), Calls: c.calls.Load(), Failures: c.failures.Load(),
		Kept: c.kept.Load(), Refused: c.refused.Load(), Waiting: int64(len(s.jobs)), Streams: s.watch.number(),
	}
}

// Sizes is how much there is.
type Sizes struct {
	Garages, Devices int64
	Database, Log    int64 // bytes on the disk
}

// Sizes counts and measures what there is.
func (s *Store) Sizes(ctx context.Context) (*Sizes, error) {
	z := &Sizes{}
	err := s.reader.QueryRowContext(ctx, "SELECT (SELECT count(*) FROM garages), (SELECT count(*) FROM devices WHERE revoked_ms IS NULL)").Scan(&z.Garages, &z.Devices)
	if err != nil {
		return nil, explain(err)
	}
	for file, size := range map[string]*int64{s.path: &z.Database, s.path + "-wal": &z.Log} {
		if info, err := os.Stat(file); err == nil { // no log yet is a log of 0 bytes
			*size = info.Size()
		}
	}
	return z, nil
}
