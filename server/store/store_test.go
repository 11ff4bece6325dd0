package store_test

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/server/store"
)

const now = int64(1772352000000) // 2026-03-01T08:00:00Z

func open(t testing.TB, quota store.Quota) *store.Store {
	t.Helper()
	s, err := store.Open(t.TempDir(), quota)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, s.Close()) })
	return s
}

// found makes a garage and returns its owner.
func found(t testing.TB, s *store.Store) *store.Session {
	t.Helper()
	w, err := s.CreateGarage("Garage", "phone", now)
	require.NoError(t, err)
	return session(t, s, w)
}

func session(t testing.TB, s *store.Store, w *store.Welcome) *store.Session {
	t.Helper()
	who, err := s.Authenticate(w.Token)
	require.NoError(t, err)
	require.NotNil(t, who)
	return who
}

// bikeOp is the n-th operation of a device: it puts a bike of its own.
func bikeOp(t testing.TB, who *store.Session, n int, body string) *record.Op {
	t.Helper()
	if body == "" {
		body = `,"put":{"name":"bike","drive":"hub"}`
	}
	op, err := record.ReadOp(fmt.Appendf(nil, `{"op_id":"017f22e2-79b0-7cc3-98c4-%012x","hlc":%q,"device_id":%q,"table":"bikes","record_id":"11111111-1111-4111-8111-%012x"%s}`,
		n, record.Clock("").Next(now+int64(n)), who.Device, n, body))
	require.NoError(t, err)
	return op
}

func requireCode(t *testing.T, err error, code fault.Code) {
	t.Helper()
	var f *fault.Error
	require.True(t, errors.As(err, &f), "%v", err)
	assert.Equal(t, code, f.Code, f.Message)
}

func TestStore_Push(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	first, other := bikeOp(t, who, 1, ""), bikeOp(t, who, 1, `,"put":{"name":"other","drive":"hub"}`)

	rejected, err := s.Push(who, []*record.Op{first, bikeOp(t, who, 2, `,"put":{"name":"no drive"}`), bikeOp(t, who, 3, "")}, now)
	require.NoError(t, err)
	require.Len(t, rejected, 1, "a bad operation is refused by itself")
	assert.Equal(t, fault.MissingField, rejected[0].Err.Code)

	rejected, err = s.Push(who, []*record.Op{first, first}, now)
	require.NoError(t, err)
	assert.Empty(t, rejected, "the same again is no error")

	rejected, err = s.Push(who, []*record.Op{other}, now)
	require.NoError(t, err)
	require.Len(t, rejected, 1)
	assert.Equal(t, fault.Contradiction, rejected[0].Err.Code, "one id, two operations")

	page, err := s.Pull(who, "")
	require.NoError(t, err)
	require.Len(t, page.Ops, 2)
	assert.Equal(t, string(first.Text), string(page.Ops[0]))
	again, err := s.Pull(who, page.Cursor)
	require.NoError(t, err)
	assert.Empty(t, again.Ops)
	assert.Equal(t, page.Cursor, again.Cursor)
}

func TestStore_Pull_inPages(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	ops := make([]*record.Op, 1203)
	for i := range ops {
		ops[i] = bikeOp(t, who, i, "")
	}
	_, err := s.Push(who, ops, now)
	require.NoError(t, err)
	got, cursor := 0, ""
	for range 3 {
		page, err := s.Pull(who, cursor)
		require.NoError(t, err)
		for _, text := range page.Ops {
			assert.Equal(t, string(ops[got].Text), string(text))
			got++
		}
		assert.Equal(t, got < len(ops), page.More)
		cursor = page.Cursor
	}
	assert.Equal(t, len(ops), got)
}

func TestStore_Pull_badCursor(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	_, err := s.Push(who, []*record.Op{bikeOp(t, who, 1, "")}, now)
	require.NoError(t, err)
	for _, text := range []string{"x", "7", "abcdefgh", "abcdefgh-", "abcdefgh--1", "abcdefgh-+1", "abcdefgh-1x", "abcdefgh-99999999999999999999", "abcdefgh-4294967296", "abcdefgh-1-", "abcdefgh-1-x-y", "abcdefgh-1-123456789", "abcdefghi-1", strings.Repeat("9", 1000)} {
		_, err := s.Pull(who, text)
		requireCode(t, err, fault.Unreadable)
	}
}

// A database that was set back, by a restore or by hand, does not have what its
// cursors named; it says so, and takes nothing that may rest on what was lost.
func TestStore_setBack(t *testing.T) {
	s := open(t, store.DefaultQuota())
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	who := session(t, s, w)
	_, err = s.Push(who, []*record.Op{bikeOp(t, who, 1, ""), bikeOp(t, who, 2, "")}, now)
	require.NoError(t, err)
	page, err := s.Pull(who, "")
	require.NoError(t, err)
	epoch, rest, _ := strings.Cut(page.Cursor, "-")
	for name, cursor := range map[string]string{
		"another history":         "abcdefgh-" + rest,
		"its beginning":           "abcdefgh-0",
		"ahead of what is here":   epoch + "-3-00000000",
		"another operation there": epoch + "-1" + strings.TrimPrefix(rest, "2"),
	} {
		page, refused, err := s.Sync(who, cursor, []*record.Op{bikeOp(t, who, 3, "")}, now)
		require.NoError(t, err, name)
		assert.True(t, page.SetBack && page.More && len(page.Ops) == 0, name)
		if assert.Len(t, refused, 1, name) {
			assert.Equal(t, fault.Unavailable, refused[0].Err.Code, name)
		}
		again, err := s.Pull(who, page.Cursor)
		require.NoError(t, err, name)
		assert.Len(t, again.Ops, 2, name)
		assert.False(t, again.SetBack, name)
	}
	for _, cursor := range []string{page.Cursor, epoch + "-2"} { // the second as older versions gave them
		last, err := s.Pull(who, cursor)
		require.NoError(t, err)
		assert.False(t, last.SetBack)
		assert.Empty(t, last.Ops)
		assert.Equal(t, page.Cursor, last.Cursor)
	}
}

// FuzzCursor: any text is refused with a fault, or is written as it was read.
func FuzzCursor(f *testing.F) {
	for _, seed := range []string{"", "abcdefgh-7", "abcdefgh-7-00ffaa11", "abcdefgh--1", "abcdefgh-+1", "abcdefgh-007", "abcdefgh-7-", "-", "--", "abcdefgh-4294967296", "abcdefgh-9223372036854775808"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		again, err := store.ReadCursor("abcdefgh", text)
		switch {
		case err != nil:
			requireCode(t, err, fault.Unreadable)
		case text == "":
			require.Equal(t, "abcdefgh-0", again)
		default:
			require.Equal(t, text, again)
		}
	})
}

func TestStore_Authenticate(t *testing.T) {
	s := open(t, store.DefaultQuota())
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	flipped := []byte(w.Token)
	flipped[40] ^= 1
	for _, token := range []string{"", "x", w.Token + "A", w.Token[1:], string(flipped), strings.Repeat("A", 64)} {
		who, err := s.Authenticate(token)
		require.NoError(t, err)
		assert.Nil(t, who, token)
	}
}

// Nothing in the folder holds a token or an invitation's code.
func TestStore_keepsNoSecrets(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	code, err := s.Invite(session(t, s, w), record.Checker, 1, now+1, now)
	require.NoError(t, err)
	require.NoError(t, s.Close())
	bytes, err := os.ReadFile(dir + "/" + store.FileName)
	require.NoError(t, err)
	assert.Contains(t, string(bytes), w.DeviceID)
	assert.NotContains(t, string(bytes), w.Token)
	assert.NotContains(t, string(bytes), code)
}

func TestStore_Join(t *testing.T) {
	s := open(t, store.Quota{Ops: 10, Bytes: 1 << 20, Devices: 3, Invites: 2})
	owner := found(t, s)
	code, err := s.Invite(owner, record.Checker, 2, now+1000, now)
	require.NoError(t, err)
	_, err = s.Join(code, "late", now+1000)
	requireCode(t, err, fault.NotFound)
	for range 2 {
		w, err := s.Join(code, "helper", now)
		require.NoError(t, err)
		assert.Equal(t, record.Checker, session(t, s, w).Role)
		assert.Equal(t, owner.GarageID, w.GarageID)
	}
	_, err = s.Join(code, "third", now)
	requireCode(t, err, fault.NotFound)
	code, err = s.Invite(owner, record.Viewer, 9, now+1000, now)
	require.NoError(t, err)
	_, err = s.Join(code, "one too many", now)
	requireCode(t, err, fault.TooMany)
	_, err = s.Invite(owner, record.Viewer, 1, now+1000, now)
	require.NoError(t, err)
	_, err = s.Invite(owner, record.Viewer, 1, now+1000, now)
	requireCode(t, err, fault.TooMany)
	_, err = s.Invite(owner, record.Viewer, 1, now+3000, now+2000)
	assert.NoError(t, err, "expired ones make room")
}

func TestStore_Revoke(t *testing.T) {
	s := open(t, store.DefaultQuota())
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	who := session(t, s, w)
	watcher := s.Watch(who, 1)
	require.NoError(t, s.Revoke(who, who.Device, now))
	_, open := <-watcher.Cursors
	assert.False(t, open, "the stream ends")
	gone, err := s.Authenticate(w.Token)
	require.NoError(t, err)
	assert.Nil(t, gone)
	_, err = s.Push(who, []*record.Op{bikeOp(t, who, 1, "")}, now)
	assert.ErrorIs(t, err, store.ErrShutOut, "even when the token was shown before")
	_, err = s.Pull(who, "")
	assert.ErrorIs(t, err, store.ErrShutOut)
	assert.ErrorIs(t, s.Revoke(who, who.Device, now), store.ErrShutOut)
}

// However many of a device's streams open at the same time, no more than allowed do.
func TestStore_Watch_most(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who, other := found(t, s), found(t, s)
	var open atomic.Int64
	var all sync.WaitGroup
	for range 100 {
		all.Go(func() {
			if s.Watch(who, 4) != nil {
				open.Add(1)
			}
		})
	}
	all.Wait()
	assert.Equal(t, int64(4), open.Load())
	require.NotNil(t, s.Watch(other, 4), "others are not held up")
	s.Unwatch(s.Watch(other, 4))
}

func TestStore_Quota(t *testing.T) {
	s := open(t, store.Quota{Ops: 2, Bytes: 1 << 20, Devices: 2, Invites: 2})
	who := found(t, s)
	rejected, err := s.Push(who, []*record.Op{bikeOp(t, who, 1, ""), bikeOp(t, who, 2, ""), bikeOp(t, who, 3, "")}, now)
	require.NoError(t, err)
	require.Len(t, rejected, 1)
	assert.Equal(t, fault.TooMany, rejected[0].Err.Code)
}

func TestStore_DeleteGarage(t *testing.T) {
	s := open(t, store.DefaultQuota())
	w, err := s.CreateGarage("G", "phone", now)
	require.NoError(t, err)
	who, other := session(t, s, w), found(t, s)
	for _, each := range []*store.Session{who, other} {
		_, err = s.Push(each, []*record.Op{bikeOp(t, each, 1, "")}, now)
		require.NoError(t, err)
	}
	_, err = s.Invite(who, record.Viewer, 1, now+1, now)
	require.NoError(t, err)
	require.NoError(t, s.DeleteGarage(who))
	gone, err := s.Authenticate(w.Token)
	require.NoError(t, err)
	assert.Nil(t, gone)
	counts, err := s.RowsPerTable()
	require.NoError(t, err)
	assert.Equal(t, map[string]int{"garages": 1, "devices": 1, "ops": 1, "records": 1, "invites": 0}, counts)
}

// A call whose body arrives slowly begins before its garage is deleted and goes
// on after another got the number it had: it sees nothing of that one.
func TestStore_DeleteGarage_nextOne(t *testing.T) {
	s := open(t, store.DefaultQuota())
	before := found(t, s)
	require.NoError(t, s.DeleteGarage(before))
	after := found(t, s)
	require.True(t, store.SameNumber(before, after), "or this tests nothing")
	_, err := s.Push(after, []*record.Op{bikeOp(t, after, 1, "")}, now)
	require.NoError(t, err)
	page, _, err := s.Sync(before, "", nil, now)
	assert.ErrorIs(t, err, store.ErrShutOut, "%v", page)
	_, err = s.Invite(before, record.Leader, 1, now+1, now)
	assert.ErrorIs(t, err, store.ErrShutOut)
	assert.ErrorIs(t, s.Revoke(before, after.Device, now), store.ErrShutOut)
	assert.ErrorIs(t, s.DeleteGarage(before), store.ErrShutOut)
	state, err := s.State(before)
	require.NoError(t, err)
	assert.Empty(t, state)
	devices, err := s.Devices(before)
	require.NoError(t, err)
	assert.Empty(t, devices)
	_, err = s.GarageName(before)
	requireCode(t, err, fault.NotFound)
}

// Many callers at once: each gets its own answer, all operations are there, in
// one unbroken sequence, and far fewer commits than calls were needed.
func TestStore_Push_manyAtOnce(t *testing.T) {
	s := open(t, store.DefaultQuota())
	who := found(t, s)
	var all sync.WaitGroup
	const callers, calls = 32, 10
	for c := range callers {
		all.Add(1)
		go func() {
			defer all.Done()
			for i := range calls {
				rejected, err := s.Push(who, []*record.Op{bikeOp(t, who, c*calls+i, "")}, now)
				assert.NoError(t, err)
				assert.Empty(t, rejected)
			}
		}()
	}
	all.Wait()
	state, err := s.State(who)
	require.NoError(t, err)
	assert.Len(t, state, callers*calls)
	assert.Less(t, s.Stats().Commits, int64(callers*calls))
}

func TestStore_Open_newerSchema(t *testing.T) {
	dir := t.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(t, err)
	require.NoError(t, s.Do("PRAGMA user_version = 999"))
	require.NoError(t, s.Close())
	_, err = store.Open(dir, store.DefaultQuota())
	assert.ErrorContains(t, err, "newer version")
}
