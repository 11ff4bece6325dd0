package store

import (
	"database/sql"
	"errors"
	"fmt"
	"io"
	"net/url"
	"os"
	"path/filepath"
)

// Backup writes the database of a folder as one file, as it is at one instant;
// a server may go on writing meanwhile. The file must not exist; it appears
// under its name only once it is whole and on the disk, and only its owner may
// read it.
func Backup(dir, out string) error {
	if _, err := os.Stat(out); err == nil {
		return fmt.Errorf("%s exists already; nothing was written", out)
	}
	db, err := openExisting(dir)
	if err != nil {
		return err
	}
	defer func() { _ = db.Close() }() // it changed nothing
	if _, err := os.Stat(filepath.Dir(out)); err != nil {
		return fmt.Errorf("there is no folder to write %s in: %w", out, err)
	}
	part := out + ".part"
	if err := os.Remove(part); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	if err := claim(part); err != nil {
		return err
	}
	if _, err := db.Exec("VACUUM INTO ?", part); err != nil {
		_ = os.Remove(part) // there or not
		return fmt.Errorf("writing %s: %w", out, err)
	}
	return keep(part, out)
}

// Restore makes a folder's database from a backup, after making sure that the
// backup is sound. The folder must hold none. Cursors that phones have from
// before begin anew, so that none misses what came after the backup.
func Restore(dir, from string) error {
	path := filepath.Join(dir, FileName)
	if _, err := os.Stat(path); err == nil {
		return fmt.Errorf("%s exists already; move it away first, nothing was changed", path)
	}
	if log, err := os.Stat(from + "-wal"); err == nil && log.Size() > 0 {
		return fmt.Errorf("%s is a database in use, part of it lies in %s-wal; make the file with tautspan backup, nothing was changed", from, from)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	part := filepath.Join(dir, "restoring")
	if err := os.RemoveAll(part); err != nil {
		return err
	}
	defer func() { _ = os.RemoveAll(part) }() // what is left of a failure
	if err := os.Mkdir(part, 0o700); err != nil {
		return err
	}
	if err := copyFile(from, filepath.Join(part, FileName)); err != nil {
		return err
	}
	if err := renew(part); err != nil {
		return fmt.Errorf("%s is not a sound backup: %w", from, err)
	}
	return keep(filepath.Join(part, FileName), path)
}

// renew brings a restored database up to date, checks it and begins a new
// history, in which no garage has been silent yet.
func renew(dir string) (err error) {
	if _, err := schemaOf(dir); err != nil {
		return err
	}
	s, err := Open(dir, DefaultQuota())
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	if err := s.Check(); err != nil {
		return err
	}
	return s.write(func(t *tx) error {
		// While it was away nobody could call: every garage counts as seen today.
		return errors.Join(t.exec("UPDATE history SET epoch = ?", newEpoch()), t.exec("UPDATE garages SET seen_day = max(seen_day, unixepoch() / 86400)"))
	}, nil)
}

// CheckFolder is Check for the database of a folder; a server may be serving it.
func CheckFolder(dir string) error {
	schema, err := schemaOf(dir)
	if err != nil {
		return err
	}
	newest, err := schemas()
	switch {
	case err != nil:
		return err
	case schema < newest:
		return fmt.Errorf("the database has schema %d, this program %d; serve it once to bring it up to date", schema, newest)
	case schema > newest:
		return newer(schema, newest)
	}
	db, err := openExisting(dir)
	if err != nil {
		return err
	}
	defer func() { _ = db.Close() }() // it only read
	return check(db)
}

var errNotOurs = errors.New("it is no database of ours")

// schemaOf returns the schema of a folder's database, which must be one of ours.
func schemaOf(dir string) (schema int, err error) {
	db, err := openExisting(dir)
	if err != nil {
		return 0, err
	}
	defer func() { _ = db.Close() }() // it only read
	if schema, err = schemaIn(db); err == nil && schema == 0 {
		err = errNotOurs
	}
	return schema, explain(err)
}

// schemaIn returns the schema of a database, 0 for an empty one.
func schemaIn(db *sql.DB) (schema int, err error) {
	var tables, ours int
	err = db.QueryRow("SELECT user_version, (SELECT count(*) FROM sqlite_schema), (SELECT count(*) FROM sqlite_schema WHERE name IN ('history', 'garages')) FROM pragma_user_version").
		Scan(&schema, &tables, &ours)
	if err == nil && (schema == 0 && tables > 0 || schema > 0 && ours < 2) {
		err = errNotOurs
	}
	return schema, err
}

// newer says that a database is too new for this program.
func newer(schema, newest int) error {
	return fmt.Errorf("the database has schema %d, made by a newer version; this one knows up to %d", schema, newest)
}

// openExisting opens a folder's database as it is.
func openExisting(dir string) (*sql.DB, error) {
	path := filepath.Join(dir, FileName)
	if _, err := os.Stat(path); err != nil {
		return nil, fmt.Errorf("there is no database in %s", dir)
	}
	return sql.Open("sqlite3", dsn(path, url.Values{}))
}

func copyFile(from, to string) (err error) {
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }() // it was only read
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	_, err = io.Copy(out, in)
	return err
}

// claim makes sure that there is a file which nobody else may read; SQLite takes
// an empty one for a new database, and gives its log the same permissions.
func claim(path string) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	return file.Close()
}

// keep presses a finished file to the disk and gives it its name.
func keep(part, path string) error {
	file, err := os.OpenFile(part, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	if err := errors.Join(file.Sync(), file.Close()); err != nil {
		return err
	}
	if err := os.Rename(part, path); err != nil {
		return err
	}
	folder, err := os.Open(filepath.Dir(path))
	if err != nil {
		return err
	}
	return errors.Join(folder.Sync(), folder.Close())
}

// WriteDurably writes a file that is there whole and on the disk, or not at all.
func WriteDurably(path string, content []byte) error {
	part := path + ".part"
	if err := os.WriteFile(part, content, 0o600); err != nil {
		return err
	}
	return keep(part, path)
}

// OpenExisting is Open for a folder that has a database.
func OpenExisting(dir string) (*Store, error) {
	if _, err := schemaOf(dir); err != nil {
		return nil, err
	}
	return Open(dir, DefaultQuota())
}
