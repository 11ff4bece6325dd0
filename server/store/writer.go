package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"tautspan/internal/fault"
)

// One goroutine writes. It takes whatever work has come in while it was busy,
// does all of it in one transaction, and answers every caller after the one
// commit: a wait for the disk is shared by all who waited for it.

// maxJobs is how many callers' work goes into one transaction.
const maxJobs = 256

// job is one caller's work: do, or operations to push.
type job struct {
	do    func(*tx) error
	push  *push
	after func() // once it is on the disk
	done  chan error
}

var errClosed = fault.New(fault.Unavailable, "", "the server is stopping; try again")

// write runs do inside a transaction and returns once it is on the disk. do
// refuses by returning a *fault.Error, and must do so before it writes; any
// other error undoes the whole transaction.
func (s *Store) write(do func(*tx) error, after func()) error {
	return s.enqueue(&job{do: do, after: after})
}

func (s *Store) enqueue(j *job) error {
	j.done = make(chan error, 1)
	select {
	case <-s.stop:
		return errClosed
	case s.jobs <- j:
	}
	select {
	case err := <-j.done:
		return err
	case <-s.closed:
	}
	select { // it may have been the last
	case err := <-j.done:
		return err
	default:
		return errClosed
	}
}

func (s *Store) writeLoop(conn *sql.Conn) {
	defer close(s.closed)
	t := &tx{conn: conn, statements: map[string]*sql.Stmt{}}
	defer t.close()
	for {
		select {
		case <-s.stop:
			return
		case first := <-s.jobs:
			s.commit(t, s.waiting(first))
		}
	}
}

// waiting returns the first work and all that waits behind it.
func (s *Store) waiting(first *job) []*job {
	batch := append(make([]*job, 0, maxJobs), first)
	for len(batch) < maxJobs {
		select {
		case j := <-s.jobs:
			batch = append(batch, j)
		default:
			return batch
		}
	}
	return batch
}

// commit does a batch of work. Work that was refused leaves no trace; any other
// failure fails the whole batch.
func (s *Store) commit(t *tx, batch []*job) {
	refusals := make([]error, len(batch))
	err := t.exec("BEGIN IMMEDIATE")
	for i := 0; i < len(batch) && err == nil; {
		if batch[i].push == nil {
			refusals[i], err = t.attempt(batch[i].do)
			i++
			continue
		}
		pushes := pushesIn(batch[i:])
		_, err = t.attempt(func(t *tx) error { return pushAll(t, pushes) })
		for _, p := range pushes {
			refusals[i] = p.refusal
			i++
		}
	}
	if err == nil && s.beforeCommit != nil {
		err = s.beforeCommit()
	}
	if err == nil {
		err = t.exec("COMMIT")
	}
	if err != nil {
		s.count.failures.Add(1)
		_ = t.exec("ROLLBACK") // fails where SQLite has rolled back already
		for _, j := range batch {
			j.done <- explain(err)
		}
		return
	}
	s.count.commits.Add(1)
	s.count.calls.Add(int64(len(batch)))
	for i, j := range batch {
		if refusals[i] == nil && j.after != nil {
			j.after()
		}
		j.done <- refusals[i]
	}
	s.due(t.written)
	t.written = 0
}

// pushesIn returns the pushes that stand at the beginning.
func pushesIn(batch []*job) []*push {
	pushes := []*push{}
	for _, j := range batch {
		if j.push == nil {
			break
		}
		pushes = append(pushes, j.push)
	}
	return pushes
}

// tx is the writer's connection with its prepared statements.
type tx struct {
	conn       *sql.Conn
	statements map[string]*sql.Stmt
	written    int64 // bytes of operations since the last commit
}

// attempt runs one caller's work. A *fault.Error is a refusal, which has
// written nothing; failed is any other error, or a panic.
func (t *tx) attempt(do func(*tx) error) (refused, failed error) {
	defer func() {
		if p := recover(); p != nil {
			failed = fmt.Errorf("store: writing panicked: %v", p)
		}
	}()
	err := do(t)
	var f *fault.Error
	if errors.As(err, &f) {
		return err, nil
	}
	return nil, err
}

func (t *tx) prepared(query string) (*sql.Stmt, error) {
	if s := t.statements[query]; s != nil {
		return s, nil
	}
	s, err := t.conn.PrepareContext(context.Background(), query)
	if err == nil {
		t.statements[query] = s
	}
	return s, err
}

// exec runs a statement that is prepared once and kept.
func (t *tx) exec(query string, args ...any) error {
	s, err := t.prepared(query)
	if err != nil {
		return err
	}
	_, err = s.Exec(args...)
	return err
}

// row asks for one row with a statement that is prepared once and kept.
func (t *tx) row(query string, args []any, into ...any) error {
	s, err := t.prepared(query)
	if err != nil {
		return err
	}
	return s.QueryRow(args...).Scan(into...)
}

// each asks for rows with a statement that is prepared once and kept.
func (t *tx) each(query string, args []any, visit func(*sql.Rows) error) error {
	s, err := t.prepared(query)
	if err != nil {
		return err
	}
	rows, err := s.Query(args...)
	if err != nil {
		return err
	}
	defer func() { _ = rows.Close() }()
	for rows.Next() {
		if err := visit(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

func (t *tx) close() {
	for _, s := range t.statements {
		_ = s.Close() // the connection is closed next
	}
	_ = t.conn.Close()
}
