package server_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Even the fullest log is JSON, line by line, and holds no token, no code of an
// invitation, nothing anybody entered and nobody's address.
func TestLogs_keepNoSecrets(t *testing.T) {
	cmd := exec.Command(build(t), "serve", "--addr", "127.0.0.1:0", "--data", t.TempDir(), "--verbose")
	reader, err := cmd.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it has ended already, unless the test failed
	lines := bufio.NewReader(reader)
	first, err := lines.ReadBytes('\n')
	require.NoError(t, err)
	var up struct{ Address string }
	require.NoError(t, json.Unmarshal(first, &up))
	var rest bytes.Buffer
	var reading sync.WaitGroup
	reading.Go(func() { _, _ = io.Copy(&rest, lines) })

	url := "http://" + up.Address
	p := &pusher{}
	_, err = p.post(url, "/garages", []byte(`{"name":"Secret garage","device_name":"Secret phone"}`), p)
	require.NoError(t, err)
	var invited struct{ Code string }
	_, err = p.post(url, "/garages/"+p.GarageID+"/invites", []byte(`{"role":"viewer","uses":1,"expires_in_s":60}`), &invited)
	require.NoError(t, err)
	require.NotEmpty(t, invited.Code)
	status, err := p.push(url, 2)
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, status)
	var ignored any
	_, _ = p.post(url, "/join?code="+invited.Code, []byte(`{"code":"`+invited.Code+`","device_name":"Secret other"}`), &ignored)
	_, _ = p.post(url, "/garages/x/sync", []byte(`{"cursor":"Secret`), &ignored)
	require.NoError(t, cmd.Process.Signal(os.Interrupt))
	reading.Wait()
	require.NoError(t, cmd.Wait(), "it stops cleanly")

	for line := range strings.Lines(rest.String()) {
		assert.True(t, json.Valid([]byte(line)), line)
	}
	assert.Contains(t, rest.String(), `"request_id"`, "the log says something")
	for _, secret := range []string{p.Token, p.Token[30:], invited.Code, "Secret", "127.0.0.1", `"b"`} {
		assert.NotContains(t, rest.String(), secret)
	}
}
