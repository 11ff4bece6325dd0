// Package store keeps garages in SQLite. Every change goes through one writer
// that commits many callers' work at once (see writer.go), so that many phones
// share one wait for the disk; whatever a call reports as done is on the disk.
// Errors meant for people are *fault.Error.
package store

import (
	"context"
	"crypto/rand"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/mattn/go-sqlite3"

	"tautspan/internal/fault"
)

// FileName is the database's name in the data folder.
const FileName = "tautspan.db"

// Store is one open database.
type Store struct {
	path   string
	writer *sql.DB // one connection
	reader *sql.DB
	jobs   chan *job
	stop   chan struct{} // closed to end the writer
	closed chan struct{} // closed when it has ended
	// checkpoint wakes the checkpoints; settled is closed when they have ended.
	checkpoint, settled chan struct{}
	unplaced            struct{ commits, bytes int64 } // since the last checkpoint
	watch               watchers
	quota               Quota
	epoch               string
	count               counters
	// beforeCommit, when set, is asked before every commit; tests fail it to
	// stand for a crash.
	beforeCommit func() error
}

// Quota is how much one garage may hold.
type Quota struct {
	Ops, Bytes, Devices, Invites int64
	// DatabaseMiB is how large the file of all garages may grow; 0 for as large
	// as the disk.
	DatabaseMiB int64
}

// DefaultQuota is room for a club for many years, and a bound for one who means
// harm.
func DefaultQuota() Quota { return Quota{Ops: 500_000, Bytes: 128 << 20, Devices: 500, Invites: 200} }

// dsn names a database file with everything each connection needs.
func dsn(path string, options url.Values) string {
	options.Set("_busy_timeout", "5000")
	options.Set("_foreign_keys", "on")
	return "file:" + (&url.URL{Path: path}).EscapedPath() + "?" + options.Encode()
}

// Open opens, or makes, the database in a folder and brings its schema up to
// date. Only its owner may read what it makes.
func Open(dir string, quota Quota) (*Store, error) {
	return open(dir, quota, "FULL")
}

// open takes how hard a commit is pressed to the disk; only simulations ask for
// less than FULL.
func open(dir string, quota Quota, synchronous string) (*Store, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	path := filepath.Join(dir, FileName)
	if err := claim(path); err != nil {
		return nil, err
	}
	s := &Store{path: path, quota: quota, jobs: make(chan *job, maxJobs), stop: make(chan struct{}), closed: make(chan struct{}),
		checkpoint: make(chan struct{}), settled: make(chan struct{})}
	conn, err := s.connect(path, synchronous)
	if err != nil {
		return nil, fmt.Errorf("opening %s: %w", path, errors.Join(explain(err), s.disconnect()))
	}
	go s.writeLoop(conn)
	go s.checkpointLoop()
	return s, nil
}

// connect opens the writer's one connection and the readers' pool.
func (s *Store) connect(path, synchronous string) (conn *sql.Conn, err error) {
	s.writer, err = sql.Open("sqlite3", dsn(path, url.Values{
		"_journal_mode": {"WAL"}, "_synchronous": {synchronous}, "_secure_delete": {"on"}, "_txlock": {"immediate"},
		"_cache_size": {"-65536"}, // KiB: what a busy hour touches stays in memory
	}))
	if err != nil {
		return nil, err
	}
	s.writer.SetMaxOpenConns(1)
	if err := migrate(s.writer, filepath.Dir(path)); err != nil {
		return nil, err
	}
	if s.reader, err = sql.Open("sqlite3", dsn(path, url.Values{"_query_only": {"on"}, "_synchronous": {synchronous}, "_stmt_cache_size": {"16"}})); err != nil {
		return nil, err
	}
	s.reader.SetMaxOpenConns(maxReaders)
	s.reader.SetMaxIdleConns(maxReaders)
	if err := s.reader.QueryRow("SELECT epoch FROM history").Scan(&s.epoch); err != nil {
		return nil, err
	}
	if conn, err = s.writer.Conn(context.Background()); err != nil {
		return nil, err
	}
	// The pragmas the driver takes in no DSN.
	pages := int64(1<<32 - 2) // what SQLite itself allows
	if s.quota.DatabaseMiB > 0 {
		pages = s.quota.DatabaseMiB << 20 / pageBytes
	}
	_, err = conn.ExecContext(context.Background(), "PRAGMA wal_autocheckpoint = "+mostLogPages+
		"; PRAGMA max_page_count = "+strconv.FormatInt(pages, 10))
	return conn, err
}

func (s *Store) disconnect() error {
	var errs [2]error
	for i, db := range []*sql.DB{s.writer, s.reader} {
		if db != nil {
			errs[i] = db.Close()
		}
	}
	return errors.Join(errs[:]...)
}

const (
	maxReaders = 8
	pageBytes  = 4096 // SQLite's own choice
)

// Close lets the work in hand finish and closes the database. Work that begins
// after it is refused.
func (s *Store) Close() error {
	close(s.stop)
	<-s.settled
	s.watch.closeAll()
	return s.disconnect()
}

// Ready reports whether the database answers.
func (s *Store) Ready(ctx context.Context) error {
	var one int
	return s.reader.QueryRowContext(ctx, "SELECT 1").Scan(&one)
}

//go:embed sql/*.sql
var migrations embed.FS

// migrate applies the numbered migrations that the database lacks, each in a
// transaction of its own. PRAGMA user_version holds how many it has. A database
// of an older schema is first copied beside itself: the way back to the older
// program.
func migrate(db *sql.DB, folder string) error {
	files, err := fs.Glob(migrations, "sql/*.sql")
	if err != nil {
		return err
	}
	done, err := schemaIn(db)
	if err != nil {
		return err
	}
	if done > len(files) {
		return newer(done, len(files))
	}
	if 0 < done && done < len(files) {
		if err := Backup(folder, filepath.Join(folder, fmt.Sprintf("before-schema-%02d-%s.db", done+1, newEpoch()))); err != nil {
			return fmt.Errorf("copying the database before its schema changes: %w", err)
		}
	}
	for i, file := range files[done:] {
		text, err := migrations.ReadFile(file)
		if err != nil {
			return err
		}
		if err := migrateOne(db, string(text), done+i+1); err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
	}
	_, err = db.Exec("INSERT INTO history SELECT ? WHERE NOT EXISTS (SELECT 1 FROM history)", newEpoch())
	return err
}

// schemas is how many schemas there have been, the newest one's number.
func schemas() (int, error) {
	files, err := fs.Glob(migrations, "sql/*.sql")
	return len(files), err
}

func migrateOne(db *sql.DB, text string, version int) error {
	tx, err := db.Begin()
	if err != nil {
		return err
	}
	defer func() { _ = tx.Rollback() }() // does nothing after the commit
	if _, err := tx.Exec(text + fmt.Sprintf(";PRAGMA user_version = %d", version)); err != nil {
		return err
	}
	return tx.Commit()
}

func newEpoch() string { return strings.ToLower(rand.Text()[:8]) }

// explain turns an error of the database that a person can do something about
// into one in plain words.
func explain(err error) error {
	var f *fault.Error
	var s sqlite3.Error
	switch {
	case err == nil || errors.As(err, &f):
		return err
	case !errors.As(err, &s):
		return err
	case s.Code == sqlite3.ErrFull:
		f = fault.New(fault.StorageFull, "", "the server's disk is full; nothing was kept, and nothing is lost on the phone: it tries again")
	case s.Code == sqlite3.ErrBusy || s.Code == sqlite3.ErrLocked || s.Code == sqlite3.ErrIoErr || s.Code == sqlite3.ErrCantOpen || s.Code == sqlite3.ErrReadonly:
		f = fault.New(fault.Unavailable, "", "the server cannot write just now; nothing was kept, and nothing is lost on the phone: it tries again")
	default:
		return err
	}
	f.Cause = err
	return f
}
