package server_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/store"
)

// build makes the real program, once for all tests.
func build(t testing.TB) string {
	t.Helper()
	binary, err := made()
	require.NoError(t, err)
	return binary
}

var made = sync.OnceValues(func() (string, error) {
	root, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	if err != nil {
		return "", err
	}
	binary := filepath.Join(programFolder, "tautspan")
	cmd := exec.Command("go", "build", "-o", binary, ".")
	cmd.Dir = strings.TrimSpace(string(root))
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return binary, nil
})

var programFolder string

func TestMain(m *testing.M) {
	var err error
	if programFolder, err = os.MkdirTemp("", "tautspan-program"); err != nil {
		panic(err)
	}
	status := m.Run()
	_ = os.RemoveAll(programFolder) // a temporary folder
	os.Exit(status)
}

// process is the real program, serving.
type process struct {
	cmd *exec.Cmd
	url string
}

func start(t testing.TB, binary, data string, flags ...string) *process {
	t.Helper()
	cmd := exec.Command(binary, append([]string{"serve", "--addr", "127.0.0.1:0", "--data", data}, flags...)...) // a later --addr counts
	logs, err := cmd.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	t.Cleanup(func() { _ = cmd.Process.Kill() }) // it has ended already, unless the test failed
	scan := bufio.NewScanner(logs)
	for scan.Scan() {
		var line struct{ Address string }
		if json.Unmarshal(scan.Bytes(), &line) == nil && line.Address != "" {
			go func() { _, _ = io.Copy(io.Discard, logs) }()
			return &process{cmd, "http://" + line.Address}
		}
	}
	t.Fatal("the server did not come up")
	return nil
}

// kill ends the process as a power cut would end it, but for the disk's cache.
func (p *process) kill() {
	_ = p.cmd.Process.Kill() // SIGKILL
	_ = p.cmd.Wait()         // reports the signal
}

// pusher is one phone that pushes all the time and notes what was answered.
type pusher struct {
	GarageID string `json:"garage_id"`
	DeviceID string `json:"device_id"`
	Token    string
	n        int
	acked    []string
}

// post calls an address and reads the answer; it fails like the net does.
func (p *pusher) post(url, path string, body []byte, into any) (int, error) {
	r, err := http.NewRequest("POST", url+"/api/v1"+path, bytes.NewReader(body))
	if err != nil {
		return 0, err
	}
	r.Header.Set("Authorization", "Bearer "+p.Token)
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		return 0, err
	}
	defer func() { _ = resp.Body.Close() }()
	text, err := io.ReadAll(resp.Body)
	if err != nil {
		return 0, err
	}
	return resp.StatusCode, json.Unmarshal(text, into)
}

// id is the n-th operation's.
func (p *pusher) id(n int) string { return fmt.Sprintf("017f22e2-79b0-7cc3-98c4-%012x", n) }

// batch is a sync call with n new operations.
func (p *pusher) batch(n int) []byte {
	ops := make([][]byte, n)
	for i := range ops {
		p.n++
		clock := record.Clock("").Next(1772352000000 + int64(p.n))
		ops[i] = fmt.Appendf(nil, `{"op_id":%q,"hlc":%q,"device_id":%q,"table":"bikes","record_id":"11111111-1111-4111-8111-%012x","put":{"name":"b","drive":"hub"}}`,
			p.id(p.n), clock, p.DeviceID, p.n)
	}
	return append(append([]byte(`{"cursor":"","ops":[`), bytes.Join(ops, []byte(","))...), `]}`...)
}

// ack notes that all after the n-th were answered.
func (p *pusher) ack(n int) {
	for n++; n <= p.n; n++ {
		p.acked = append(p.acked, p.id(n))
	}
}

// push sends n new operations and notes them when they were all taken.
func (p *pusher) push(url string, n int) (status int, err error) {
	before := p.n
	var answer struct{ Rejected []any }
	status, err = p.post(url, "/garages/"+p.GarageID+"/sync", p.batch(n), &answer)
	if err == nil && status == http.StatusOK && len(answer.Rejected) == 0 {
		p.ack(before)
	}
	return status, err
}

// pull returns the ids of everything the server has.
func (p *pusher) pull(t *testing.T, url string) map[string]bool {
	t.Helper()
	have, cursor := map[string]bool{}, ""
	for {
		var answer struct {
			Cursor string
			Ops    []struct {
				ID string `json:"op_id"`
			}
			More bool
		}
		status, err := p.post(url, "/garages/"+p.GarageID+"/sync", fmt.Appendf(nil, `{"cursor":%q}`, cursor), &answer)
		require.NoError(t, err)
		require.Equal(t, http.StatusOK, status)
		for _, op := range answer.Ops {
			have[op.ID] = true
		}
		if cursor = answer.Cursor; !answer.More {
			return have
		}
	}
}

func (p *pusher) requireAll(t *testing.T, url string) {
	t.Helper()
	have := p.pull(t, url)
	for _, id := range p.acked {
		require.True(t, have[id], "operation %s was answered and is lost", id)
	}
}

// The real program is killed under load, again and again; whatever it answered
// is there afterwards, and the database is sound.
func TestKill_losesNothingAnswered(t *testing.T) {
	kills := 50
	if testing.Short() {
		kills = 5
	}
	binary, data := build(t), t.TempDir()
	seed := rand.Uint64()
	r := rand.New(rand.NewPCG(seed, 0))
	phones := make([]*pusher, 4)
	acked := 0
	for k := range kills {
		p := start(t, binary, data)
		for i := range phones {
			if phones[i] == nil {
				phones[i] = &pusher{}
				_, err := phones[i].post(p.url, "/garages", []byte(`{"name":"G","device_name":"p"}`), phones[i])
				require.NoError(t, err)
			}
		}
		var pushing, begun sync.WaitGroup
		begun.Add(len(phones))
		for _, phone := range phones {
			pushing.Go(func() {
				for n := 0; ; n++ {
					_, err := phone.push(p.url, 1+n%20)
					if n == 0 {
						begun.Done()
					}
					if err != nil {
						return
					}
				}
			})
		}
		begun.Wait() // there is load, however slow the machine is
		time.Sleep(time.Duration(20+r.IntN(80)) * time.Millisecond)
		p.kill()
		pushing.Wait()
		require.NoError(t, store.CheckFolder(data), "after kill %d, seed %d", k+1, seed)
	}
	p := start(t, binary, data)
	defer p.kill()
	for _, phone := range phones {
		phone.requireAll(t, p.url)
		acked += len(phone.acked)
	}
	require.Greater(t, acked, kills, "there was no load")
	t.Logf("%d kills, %d operations answered, none lost", kills, acked)
}
