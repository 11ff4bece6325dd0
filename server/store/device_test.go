package store_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/server/store"
)

// joined adds a device with a role; again returns its session as it is now.
func joined(t *testing.T, s *store.Store, owner *store.Session, role record.Role) (who *store.Session, again func() *store.Session) {
	t.Helper()
	code, err := s.Invite(owner, role, 1, now+1000, now)
	require.NoError(t, err)
	w, err := s.Join(code, "other", now)
	require.NoError(t, err)
	again = func() *store.Session { return session(t, s, w) }
	return again(), again
}

func roles(t *testing.T, s *store.Store, who *store.Session) map[string]record.Role {
	t.Helper()
	all, err := s.Devices(who)
	require.NoError(t, err)
	roles := map[string]record.Role{}
	for _, d := range all {
		if d.RevokedMS == nil {
			roles[d.ID] = d.Role
		}
	}
	return roles
}

// A second owner takes the place of the first: whose phone is lost is shut out,
// and the garage goes on.
func TestStore_SetRole(t *testing.T) {
	s := open(t, store.DefaultQuota())
	first := found(t, s)
	viewer, again := joined(t, s, first, record.Viewer)
	watcher := s.Watch(viewer, 1)
	require.NoError(t, s.SetRole(first, viewer.Device, record.Owner))
	_, open := <-watcher.Cursors
	assert.False(t, open, "its stream ends, so that it calls")
	second := again()
	assert.Equal(t, record.Owner, second.Role)

	require.NoError(t, s.Revoke(second, first.Device, now))
	_, err := s.Invite(second, record.Checker, 1, now+1, now)
	require.NoError(t, err)
	_, err = s.Invite(first, record.Checker, 1, now+1, now)
	assert.ErrorIs(t, err, store.ErrShutOut)
	requireCode(t, s.SetRole(second, first.Device, record.Owner), fault.NotFound)
	requireCode(t, s.SetRole(second, "nobody", record.Owner), fault.NotFound)
	requireCode(t, s.SetRole(second, found(t, s).Device, record.Viewer), fault.NotFound)
}

// A garage that has devices has an owner; only who is all alone may go.
func TestStore_lastOwner(t *testing.T) {
	s := open(t, store.DefaultQuota())
	owner := found(t, s)
	requireCode(t, s.SetRole(owner, owner.Device, record.Leader), fault.Denied)
	leader, again := joined(t, s, owner, record.Leader)
	requireCode(t, s.SetRole(owner, owner.Device, record.Viewer), fault.Denied)
	requireCode(t, s.Revoke(owner, owner.Device, now), fault.Denied)
	require.NoError(t, s.SetRole(owner, owner.Device, record.Owner), "as it was")
	assert.Equal(t, map[string]record.Role{owner.Device: record.Owner, leader.Device: record.Leader}, roles(t, s, owner))

	require.NoError(t, s.SetRole(owner, leader.Device, record.Owner))
	require.NoError(t, s.SetRole(owner, owner.Device, record.Viewer))
	_, err := s.Invite(owner, record.Leader, 1, now+1, now)
	requireCode(t, err, fault.Unavailable) // it began as an owner's call
	owner = again()
	_, err = s.Invite(owner, record.Leader, 9, now+1000, now)
	require.NoError(t, err)
	for id := range roles(t, s, owner) {
		if id != owner.Device {
			require.NoError(t, s.Revoke(owner, id, now))
		}
	}
	code, err := s.Invite(owner, record.Leader, 9, now+1000, now)
	require.NoError(t, err)
	require.NoError(t, s.Revoke(owner, owner.Device, now), "nobody is left behind")
	_, err = s.Join(code, "late", now)
	requireCode(t, err, fault.NotFound)
}

// What a call began as an owner or leader ends as what the device is by then.
func TestStore_SetRole_meanwhile(t *testing.T) {
	s := open(t, store.DefaultQuota())
	owner := found(t, s)
	leader, again := joined(t, s, owner, record.Leader)
	op := bikeOp(t, leader, 1, "")
	require.NoError(t, s.SetRole(owner, leader.Device, record.Viewer))
	_, err := s.Push(leader, []*record.Op{op}, now)
	requireCode(t, err, fault.Unavailable)
	rejected, err := s.Push(again(), []*record.Op{op}, now)
	require.NoError(t, err)
	require.Len(t, rejected, 1)
	assert.Equal(t, fault.Denied, rejected[0].Err.Code)
}

// Owners who put each other down, or out, at the same time: one stays.
func TestStore_SetRole_eachOther(t *testing.T) {
	s := open(t, store.DefaultQuota())
	for round := range 20 {
		a := found(t, s)
		b, again := joined(t, s, a, record.Leader)
		require.NoError(t, s.SetRole(a, b.Device, record.Owner))
		b = again()
		var both sync.WaitGroup
		for _, pair := range [][2]*store.Session{{a, b}, {b, a}} {
			both.Go(func() {
				if round%2 == 0 {
					_ = s.SetRole(pair[0], pair[1].Device, record.Viewer)
				} else {
					_ = s.Revoke(pair[0], pair[1].Device, now)
				}
			})
		}
		both.Wait()
		owners := 0
		for _, role := range roles(t, s, a) {
			if role == record.Owner {
				owners++
			}
		}
		require.Equal(t, 1, owners)
	}
}
