package store_test

import (
	"errors"
	"testing"

	"github.com/mattn/go-sqlite3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/server/store"
)

// When there is no room, SQLite itself says so (its limit on pages stands for
// the end of the disk). The call fails with a code of its own, keeps nothing,
// leaves reading alone; with room again the same call succeeds.
func TestStore_diskFull(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	require.NoError(t, s.Do("PRAGMA max_page_count = 40"))
	kept := 0
	var refused []*record.Op
	for n := 0; refused == nil; n += 20 {
		require.Less(t, n, 10000, "the disk is never full")
		batch := []*record.Op{}
		for i := range 20 {
			batch = append(batch, bikeOp(t, who, n+i, ""))
		}
		rejected, err := s.Push(who, batch, now)
		if err != nil {
			requireCode(t, err, fault.StorageFull)
			refused = batch
			continue
		}
		require.Empty(t, rejected)
		kept += len(batch)
	}
	state, err := s.State(who)
	require.NoError(t, err, "reading goes on")
	assert.Len(t, state, kept, "all or nothing")
	require.NoError(t, s.Check())

	require.NoError(t, s.Do("PRAGMA max_page_count = 100000"))
	rejected, err := s.Push(who, refused, now)
	require.NoError(t, err)
	assert.Empty(t, rejected)
	state, err = s.State(who)
	require.NoError(t, err)
	assert.Len(t, state, kept+len(refused))
	require.NoError(t, s.Check())
}

// A commit that fails is told to everyone who waited for it, and the writer
// lives on.
func TestStore_commitFails(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	broken := errors.New("the power went")
	s.BeforeCommit(func() error { return broken })
	_, err := s.Push(who, []*record.Op{bikeOp(t, who, 1, "")}, now)
	assert.ErrorIs(t, err, broken)
	s.BeforeCommit(nil)
	state, err := s.State(who)
	require.NoError(t, err)
	assert.Empty(t, state)
	rejected, err := s.Push(who, []*record.Op{bikeOp(t, who, 1, "")}, now)
	require.NoError(t, err)
	assert.Empty(t, rejected)
	assert.Equal(t, int64(1), s.Stats().Failures)
}

// On a disk that stays full for days everybody still reads what is there: that a
// garage is alive is noted once there is room.
func TestStore_Seen_diskFull(t *testing.T) {
	s := open(t, store.DefaultQuota())
	w, err := s.CreateGarage("Garage", "phone", now)
	require.NoError(t, err)
	tomorrow := now + 24*60*60*1000
	s.BeforeCommit(func() error { return sqlite3.Error{Code: sqlite3.ErrFull} })
	assert.NoError(t, s.Seen(session(t, s, w), tomorrow))
	s.BeforeCommit(nil)
	require.NoError(t, s.Seen(session(t, s, w), tomorrow))
	silent, err := s.Silent(0, tomorrow)
	require.NoError(t, err)
	assert.Empty(t, silent, "noted at the next call")
}
