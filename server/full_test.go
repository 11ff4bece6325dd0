//go:build linux

package server_test

import (
	"net/http"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/server/store"
)

// fill pushes until the server has no room; what was refused is still the
// phone's to send.
func (p *pusher) fill(t *testing.T, url string) {
	t.Helper()
	for range 5000 {
		before := p.n
		var answer struct {
			Error struct{ Code, Message string }
		}
		status, err := p.post(url, "/garages/"+p.GarageID+"/sync", p.batch(20), &answer)
		require.NoError(t, err)
		if status == http.StatusOK {
			p.ack(before)
			continue
		}
		require.Equal(t, http.StatusInsufficientStorage, status)
		assert.Equal(t, "storage_full", answer.Error.Code)
		assert.Contains(t, answer.Error.Message, "nothing is lost on the phone")
		p.n = before
		return
	}
	t.Fatal("the disk never filled up")
}

// A disk that is full: a clear error and nothing half kept; reading goes on;
// once there is room the same operations go through, with nobody's help. The
// disk is a small one of its own where the system lets us mount it.
func TestFullDisk(t *testing.T) {
	data := t.TempDir()
	if err := syscall.Mount("tautspan", data, "tmpfs", 0, "size=6m"); err != nil {
		t.Skipf("no disk can be mounted here (%v); TestFullDatabase fills one another way", err)
	}
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(data, syscall.MNT_DETACH)) })
	ballast := filepath.Join(data, "ballast")
	require.NoError(t, os.WriteFile(ballast, make([]byte, 4<<20), 0o600))

	p := start(t, build(t), data)
	defer p.kill()
	phone := &pusher{}
	_, err := phone.post(p.url, "/garages", []byte(`{"name":"G","device_name":"p"}`), phone)
	require.NoError(t, err)
	phone.fill(t, p.url)
	phone.requireAll(t, p.url)
	require.NoError(t, os.Remove(ballast))
	status, err := phone.push(p.url, 20)
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, status, "room again, and nobody did anything to the server")
	phone.requireAll(t, p.url)
	require.NoError(t, store.CheckFolder(data))
}

// The same with a bound of the operator's own: it is refused alike, and a
// greater bound lets the same operations through.
func TestFullDatabase(t *testing.T) {
	data, binary := t.TempDir(), build(t)
	p := start(t, binary, data, "--max-database-mib", "1")
	phone := &pusher{}
	_, err := phone.post(p.url, "/garages", []byte(`{"name":"G","device_name":"p"}`), phone)
	require.NoError(t, err)
	phone.fill(t, p.url)
	phone.requireAll(t, p.url)
	p.kill()
	require.NoError(t, store.CheckFolder(data))

	p = start(t, binary, data, "--max-database-mib", "2")
	defer p.kill()
	status, err := phone.push(p.url, 20)
	require.NoError(t, err)
	assert.Equal(t, http.StatusOK, status)
	phone.requireAll(t, p.url)
}
