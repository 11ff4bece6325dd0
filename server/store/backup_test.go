package store_test

import (
	"database/sql"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/store"
)

// A backup taken while phones push is sound, holds what was answered before it
// began, and serves again after a restore, with cursors that begin anew.
func TestBackup_whileServing(t *testing.T) {
	dir, other := t.TempDir(), t.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	who := session(t, s, w)
	for i := range 100 {
		_, err := s.Push(who, []*record.Op{bikeOp(t, who, i, "")}, now)
		require.NoError(t, err)
	}
	var stop atomic.Bool
	var pushing sync.WaitGroup
	pushing.Go(func() {
		for i := 100; !stop.Load(); i++ {
			_, err := s.Push(who, []*record.Op{bikeOp(t, who, i, "")}, now)
			assert.NoError(t, err)
		}
	})
	file := filepath.Join(other, "backup.db")
	require.NoError(t, store.Backup(dir, file))
	assert.ErrorContains(t, store.Backup(dir, file), "exists already")
	assert.ErrorContains(t, store.Backup(dir, filepath.Join(other, "nowhere", "b.db")), "there is no folder")
	assert.NoError(t, store.CheckFolder(dir), "check works beside a server")
	stop.Store(true)
	pushing.Wait()
	before, err := s.Pull(who, "")
	require.NoError(t, err)
	require.NoError(t, s.Close())
	assert.ErrorContains(t, store.Restore(dir, file), "exists already")

	restored := filepath.Join(other, "new")
	require.NoError(t, store.Restore(restored, file))
	require.NoError(t, store.CheckFolder(restored))
	again, err := store.Open(restored, store.DefaultQuota())
	require.NoError(t, err)
	defer func() { require.NoError(t, again.Close()) }()
	start, err := again.Pull(session(t, again, w), before.Cursor)
	require.NoError(t, err)
	require.True(t, start.SetBack, "a cursor from before begins anew")
	page, err := again.Pull(session(t, again, w), start.Cursor)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(page.Ops), 100)
	for i := range 100 {
		assert.Equal(t, string(before.Ops[i]), string(page.Ops[i]))
	}
}

func TestRestore_damaged(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(filepath.Join(dir, "a"), store.DefaultQuota())
	require.NoError(t, err)
	who := found(t, s)
	for i := range 200 {
		_, err := s.Push(who, []*record.Op{bikeOp(t, who, i, "")}, now)
		require.NoError(t, err)
	}
	require.NoError(t, s.Close())
	file := filepath.Join(dir, "backup.db")
	require.NoError(t, store.Backup(filepath.Join(dir, "a"), file))
	sound, err := os.ReadFile(file)
	require.NoError(t, err)
	for name, damage := range map[string]func([]byte) []byte{
		"empty":     func([]byte) []byte { return nil },
		"text":      func([]byte) []byte { return []byte("this is no database, only a text that somebody kept") },
		"cut short": func(b []byte) []byte { return b[:len(b)/2] },
		"overwritten": func(b []byte) []byte {
			for i := len(b) / 2; i < len(b)/2+5000; i++ {
				b[i] = 0x55
			}
			return b
		},
	} {
		t.Run(name, func(t *testing.T) {
			bad := filepath.Join(t.TempDir(), "bad.db")
			require.NoError(t, os.WriteFile(bad, damage(append([]byte{}, sound...)), 0o600))
			target := t.TempDir()
			err := store.Restore(target, bad)
			assert.ErrorContains(t, err, "not a sound backup")
			left, err := os.ReadDir(target)
			require.NoError(t, err)
			assert.Empty(t, left, "nothing half restored stays")
		})
	}
}

// A database in use keeps its newest operations in a log beside it: to copy the
// file alone would lose them.
func TestRestore_inUse(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	defer func() { require.NoError(t, s.Close()) }()
	found(t, s)
	target := filepath.Join(t.TempDir(), "new")
	assert.ErrorContains(t, store.Restore(target, filepath.Join(dir, store.FileName)), "make the file with tautspan backup")
	assert.NoDirExists(t, target)
}

// A file of another program's is neither changed nor called ours.
func TestOpen_notOurs(t *testing.T) {
	for name, statements := range map[string]string{
		"no schema":    "CREATE TABLE notes (text)",
		"one of ours":  "CREATE TABLE notes (text); PRAGMA user_version = 4",
		"far too new":  "CREATE TABLE notes (text); PRAGMA user_version = 99",
		"half of ours": "CREATE TABLE garages (text); PRAGMA user_version = 1",
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			file := filepath.Join(dir, store.FileName)
			db, err := sql.Open("sqlite3", file)
			require.NoError(t, err)
			_, err = db.Exec(statements)
			require.NoError(t, err)
			require.NoError(t, db.Close())
			_, err = store.Open(dir, store.DefaultQuota())
			assert.ErrorContains(t, err, "no database of ours")
			assert.ErrorContains(t, store.CheckFolder(dir), "no database of ours")
			assert.ErrorContains(t, store.Restore(filepath.Join(dir, "new"), file), "no database of ours")
			db, err = sql.Open("sqlite3", file)
			require.NoError(t, err)
			defer func() { require.NoError(t, db.Close()) }()
			tables := 0
			require.NoError(t, db.QueryRow("SELECT count(*) FROM sqlite_schema").Scan(&tables))
			assert.Equal(t, 1, tables)
		})
	}
}

// Check finds what does not follow from the operations.
func TestCheck_finds(t *testing.T) {
	for name, damage := range map[string]string{
		"counts":  "UPDATE garages SET last_seq = last_seq + 1",
		"gap":     "UPDATE ops SET place = place + 5 WHERE place & 0xffffffff = 2",
		"record":  "DELETE FROM records WHERE hex(record_id) LIKE '%1'",
		"creator": "UPDATE records SET created_by = zeroblob(16)",
		"short":   "UPDATE records SET created_by = x'07'",
		"id":      "UPDATE ops SET op_id = zeroblob(7) WHERE place & 0xffffffff = 2",
		"broken":  `UPDATE ops SET body = substr(body, 2)`,
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, store.DefaultQuota())
			who := found(t, s)
			_, err := s.Push(who, []*record.Op{bikeOp(t, who, 1, ""), bikeOp(t, who, 2, "")}, now)
			require.NoError(t, err)
			require.NoError(t, s.Check())
			require.NoError(t, s.Do(damage))
			assert.Error(t, s.Check())
		})
	}
}

// While a server was away nobody could call, so a restored garage is not a dead
// one, however old the backup is.
func TestRestore_noGarageIsSilent(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(filepath.Join(dir, "a"), store.DefaultQuota())
	require.NoError(t, err)
	today := time.Now().UnixMilli()
	_, err = s.CreateGarage("G", "phone", today-400*24*3600*1000)
	require.NoError(t, err)
	silent, err := s.Silent(90, today)
	require.NoError(t, err)
	require.Len(t, silent, 1)
	require.NoError(t, s.Close())
	file := filepath.Join(dir, "backup.db")
	require.NoError(t, store.Backup(filepath.Join(dir, "a"), file))
	require.NoError(t, store.Restore(filepath.Join(dir, "b"), file))
	s, err = store.Open(filepath.Join(dir, "b"), store.DefaultQuota())
	require.NoError(t, err)
	defer func() { require.NoError(t, s.Close()) }()
	silent, err = s.Silent(90, today)
	require.NoError(t, err)
	assert.Empty(t, silent)
}

// A folder may be open to others; what is in the files is not.
func TestFiles_onlyTheOwnerReads(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Chmod(dir, 0o755))
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	defer func() { assert.NoError(t, s.Close()) }()
	found(t, s)
	require.NoError(t, store.Backup(dir, filepath.Join(dir, "backup.db")))
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 3, "the database, its log, the backup")
	for _, file := range files {
		info, err := file.Info()
		require.NoError(t, err)
		assert.Zero(t, info.Mode()&0o077, "%s: %s", file.Name(), info.Mode())
	}
}
