package store

import "sync/atomic"

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
