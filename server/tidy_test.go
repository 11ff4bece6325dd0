package server_test

import (
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/store"
)

// A garage nobody calls is deleted only once its whole export is on the disk; one
// that is in use stays, and so do exports that cannot be written.
func TestTidy(t *testing.T) {
	data, binary := t.TempDir(), build(t)
	s, err := store.Open(data, store.DefaultQuota())
	require.NoError(t, err)
	old, err := s.CreateGarage("Old", "phone", time.Now().AddDate(-2, 0, 0).UnixMilli())
	require.NoError(t, err)
	who, err := s.Authenticate(old.Token)
	require.NoError(t, err)
	op, err := record.ReadOp([]byte(`{"op_id":"017f22e2-79b0-7cc3-98c4-000000000001","hlc":"2024-03-01T08:00:00.000Z-0000","device_id":"` + old.DeviceID +
		`","table":"bikes","record_id":"11111111-1111-4111-8111-111111111111","put":{"name":"Wren","drive":"hub"}}`))
	require.NoError(t, err)
	_, _, err = s.Sync(who, "", []*record.Op{op}, time.Now().UnixMilli())
	require.NoError(t, err)
	silent, err := s.CreateGarage("Silent", "phone", time.Now().AddDate(-2, 0, 0).UnixMilli())
	require.NoError(t, err)
	require.NoError(t, s.Close())

	p := start(t, binary, data) // it goes on serving while others tidy
	defer p.kill()
	phone := &pusher{GarageID: silent.GarageID, DeviceID: silent.DeviceID, Token: silent.Token}
	status, err := phone.push(p.url, 1) // and so this one is silent no more
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, status)

	tidy := func(exports string, days string) (string, error) {
		out, err := exec.Command(binary, "tidy", "--data", data, "--exports", exports, "--silent-days", days).CombinedOutput()
		return string(out), err
	}
	out, err := tidy(t.TempDir(), "89")
	assert.Error(t, err)
	assert.Contains(t, out, "at least 90")

	blocked := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(blocked, nil, 0o600))
	_, err = tidy(blocked, "400")
	assert.Error(t, err, "nowhere to export to, so nothing is deleted")
	gone := &pusher{GarageID: old.GarageID, DeviceID: old.DeviceID, Token: old.Token}
	exports := t.TempDir()
	out, err = tidy(exports, "400")
	require.NoError(t, err, out)
	assert.Contains(t, out, old.GarageID)
	assert.NotContains(t, out, silent.GarageID)

	text, err := os.ReadFile(filepath.Join(exports, old.GarageID+".json"))
	require.NoError(t, err)
	assert.Contains(t, string(text), `"name":"Wren"`)
	assert.NotContains(t, string(text), old.Token)
	var answer any
	status, err = gone.post(p.url, "/garages/"+old.GarageID+"/sync", []byte(`{}`), &answer)
	require.NoError(t, err)
	assert.Equal(t, http.StatusUnauthorized, status)
	phone.requireAll(t, p.url)
	require.NoError(t, store.CheckFolder(data))
}
