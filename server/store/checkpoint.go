package store

// A commit goes to the end of SQLite's log; a checkpoint brings what is in the
// log to its place in the database. It runs beside the writer, so that nobody
// waits for it. Were it ever too slow, SQLite lets the writer itself help at
// mostLogPages.
const (
	checkpointCommits = 500
	checkpointBytes   = 8 << 20
	mostLogPages      = "16000"
)

// due notes a commit and wakes the checkpoints when there is enough to bring.
// Only the writer calls it.
func (s *Store) due(bytes int64) {
	s.unplaced.commits++
	s.unplaced.bytes += bytes
	if s.unplaced.commits < checkpointCommits && s.unplaced.bytes < checkpointBytes {
		return
	}
	select {
	case s.checkpoint <- struct{}{}:
		s.unplaced.commits, s.unplaced.bytes = 0, 0
	default: // one is running; ask again after the next commit
	}
}

// checkpointLoop ends when the writer has ended.
func (s *Store) checkpointLoop() {
	defer close(s.settled)
	for {
		select {
		case <-s.closed:
			return
		case <-s.checkpoint:
			// A failure loses nothing: the log holds everything until a
			// checkpoint succeeds, and the writer meets the same trouble.
			_, _ = s.reader.Exec("PRAGMA wal_checkpoint(PASSIVE)")
		}
	}
}
