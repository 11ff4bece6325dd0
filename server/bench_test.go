package server_test

import (
	"bufio"
	"bytes"
	"cmp"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	_ "github.com/mattn/go-sqlite3" // for the raw measurement
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

const opsPerCall = 20

// benchServer is the real program on a real disk.
func benchServer(b *testing.B) (p *process, data string) {
	b.Helper()
	data = b.TempDir()
	p = start(b, build(b), data, "--trusted-proxy", "127.0.0.1")
	b.Cleanup(p.kill)
	return p, data
}

// phones founds a garage for each, as n households would.
func (p *process) phones(b *testing.B, n int) []*pusher {
	all := make([]*pusher, n)
	for i := range all {
		all[i] = &pusher{}
		r, err := http.NewRequest("POST", p.url+"/api/v1/garages", strings.NewReader(`{"name":"G","device_name":"p"}`))
		require.NoError(b, err)
		r.Header.Set("X-Forwarded-For", fmt.Sprintf("192.0.2.%d", i%200))
		resp, err := http.DefaultClient.Do(r)
		require.NoError(b, err)
		require.Equal(b, http.StatusCreated, resp.StatusCode)
		require.NoError(b, json.NewDecoder(resp.Body).Decode(all[i]))
		require.NoError(b, resp.Body.Close())
	}
	return all
}

// texts is n operations as phones send them: a reading each, canonical JSON.
func (p *pusher) texts(n int) [][]byte {
	ops := make([][]byte, n)
	for i := range ops {
		p.n++
		text, err := wire.Canonical(fmt.Appendf(nil, `{"op_id":"017f22e2-79b0-7cc3-98c4-%012x","hlc":%q,"device_id":%q,"table":"readings","record_id":"11111111-1111-4111-8111-%012x",`+
			`"put":{"chain_id":"22222222-1111-4111-8111-111111111111","at":"2026-03-01T08:00:00Z","at_km":1200,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}}}`,
			p.n, record.Clock("").Next(1772352000000+int64(p.n)), p.DeviceID, p.n))
		if err != nil {
			panic(err)
		}
		ops[i] = text
	}
	return ops
}

// line is one kept-alive connection that costs the machine as little as it can:
// the server is what is measured, and both share the processors.
type line struct {
	conn net.Conn
	in   *bufio.Reader
	head string
}

func (p *pusher) dial(url string) (*line, error) {
	host := strings.TrimPrefix(url, "http://")
	conn, err := net.Dial("tcp", host)
	if err != nil {
		return nil, err
	}
	return &line{conn, bufio.NewReaderSize(conn, 32<<10), "POST /api/v1/garages/" + p.GarageID + "/sync HTTP/1.1\r\nHost: " + host +
		"\r\nAuthorization: Bearer " + p.Token + "\r\nContent-Type: application/json\r\nContent-Length: "}, nil
}

// sync makes one call and returns the answer's cursor; anything but a 200 that
// kept every operation is an error.
func (l *line) sync(cursor string, ops []byte) (string, error) {
	body := `{"cursor":"` + cursor + `","ops":[` + string(ops) + `]}`
	if _, err := io.WriteString(l.conn, l.head+strconv.Itoa(len(body))+"\r\n\r\n"+body); err != nil {
		return "", err
	}
	resp, err := http.ReadResponse(l.in, nil)
	if err != nil {
		return "", err
	}
	answer, err := io.ReadAll(resp.Body)
	if err != nil {
		return "", err
	}
	cursor, _, found := strings.Cut(strings.TrimPrefix(string(answer[:min(60, len(answer))]), `{"cursor":"`), `"`)
	if resp.StatusCode != http.StatusOK || !found || !bytes.HasSuffix(bytes.TrimSpace(answer), []byte(`"rejected":[]}`)) {
		return "", fmt.Errorf("%d %s", resp.StatusCode, answer)
	}
	return cursor, nil
}

// BenchmarkSync: acknowledged operations a second over HTTP at 1, 16 and 64
// phones, each with a garage of its own, pushing 20 a call and getting them
// back; beside it what SQLite alone does on the same disk just before. The
// server is the real program; cpu-µs/op is what it alone used.
//
//	go test ./server -run xxx -bench Sync -benchtime 3000x
func BenchmarkSync(b *testing.B) {
	for _, n := range []int{1, 16, 64} {
		b.Run(fmt.Sprintf("phones=%d", n), func(b *testing.B) {
			p, _ := benchServer(b)
			all := p.phones(b, n)
			each := max(1, b.N/n)
			calls := make([][][]byte, n)
			for i, phone := range all {
				for range each {
					calls[i] = append(calls[i], bytes.Join(phone.texts(opsPerCall), []byte(",")))
				}
			}
			rawUsed := cpuOf(b, os.Getpid())
			raw, rawWritten, rawOps := rawOpsPerSecond(b, n)
			rawUsed = cpuOf(b, os.Getpid()) - rawUsed
			took := make([][]time.Duration, n)
			b.ResetTimer()
			began, used, written := time.Now(), p.cpu(b), writtenBytes(b, p.cmd.Process.Pid)
			var pushing sync.WaitGroup
			for i, phone := range all {
				pushing.Go(func() {
					var err error
					if took[i], err = phone.pushAll(p.url, calls[i]); err != nil {
						b.Error(err)
					}
				})
			}
			pushing.Wait()
			seconds, ops := time.Since(began).Seconds(), float64(each*n*opsPerCall)
			used, written = p.cpu(b)-used, writtenBytes(b, p.cmd.Process.Pid)-written
			b.StopTimer()
			times := slices.Concat(took...)
			slices.SortFunc(times, cmp.Compare)
			b.ReportMetric(ops/seconds, "ops/s")
			b.ReportMetric(raw, "raw-ops/s")
			b.ReportMetric(rawWritten, "raw-written-B/op")
			b.ReportMetric(rawUsed.Seconds()*1e6/rawOps, "raw-cpu-µs/op")
			b.ReportMetric(100*ops/seconds/raw, "%ofraw")
			b.ReportMetric(used.Seconds()*1e6/ops, "cpu-µs/op")
			b.ReportMetric(written/ops, "written-B/op")
			b.ReportMetric(ms(times[len(times)/2]), "p50-ms")
			b.ReportMetric(ms(times[len(times)*99/100]), "p99-ms")
			b.ReportMetric(0, "ns/op")
		})
	}
}

func ms(d time.Duration) float64 { return d.Seconds() * 1000 }

// pushAll makes the calls one after the other, each with the last answer's cursor.
func (p *pusher) pushAll(url string, calls [][]byte) ([]time.Duration, error) {
	l, err := p.dial(url)
	if err != nil {
		return nil, err
	}
	defer func() { _ = l.conn.Close() }()
	took, cursor := make([]time.Duration, len(calls)), ""
	for i, ops := range calls {
		began := time.Now()
		if cursor, err = l.sync(cursor, ops); err != nil {
			return nil, err
		}
		took[i] = time.Since(began)
	}
	return took, nil
}

// cpu is the processor time the program has used, as Linux counts it in
// hundredths of a second (proc(5): fields 14 and 15 of stat).
func (p *process) cpu(b *testing.B) time.Duration { return cpuOf(b, p.cmd.Process.Pid) }

func cpuOf(b *testing.B, pid int) time.Duration {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	require.NoError(b, err)
	fields := strings.Fields(string(text[bytes.LastIndexByte(text, ')')+2:]))
	user, err := strconv.Atoi(fields[11])
	require.NoError(b, err)
	system, err := strconv.Atoi(fields[12])
	require.NoError(b, err)
	return time.Duration(user+system) * 10 * time.Millisecond
}

// rawOpsPerSecond is what SQLite alone keeps: the same rows (an operation, its
// record, and once a call the garage's counts) in the server's own schema with
// its own settings, WAL and synchronous=FULL, one prepared statement a row, in
// transactions of 1000 operations, from as many garages in turn. It neither
// reads nor checks anything.
func rawOpsPerSecond(b *testing.B, garages int) (rate, written, ops float64) {
	b.Helper()
	dir := b.TempDir()
	s, err := store.Open(dir, store.DefaultQuota())
	require.NoError(b, err)
	require.NoError(b, s.Close())
	db, err := sql.Open("sqlite3", filepath.Join(dir, store.FileName)+"?_journal_mode=WAL&_synchronous=FULL&_txlock=immediate&_foreign_keys=on&_secure_delete=on&_cache_size=-65536")
	require.NoError(b, err)
	defer func() { require.NoError(b, db.Close()) }()
	db.SetMaxOpenConns(1)
	for g := range garages {
		_, err := db.Exec("INSERT INTO garages (gid, garage_id, name, created_ms) VALUES (?, ?, 'G', 0)", g+1, strconv.Itoa(g))
		require.NoError(b, err)
	}
	phone := &pusher{DeviceID: "22222222-1111-4111-8111-111111111111"}
	texts := phone.texts(1000)
	device := make([]byte, 16)
	began, before, n := time.Now(), writtenBytes(b, os.Getpid()), 0
	for time.Since(began) < 2*time.Second {
		tx, err := db.Begin()
		require.NoError(b, err)
		op, err := tx.Prepare("INSERT INTO ops (place, op_id, body) VALUES (?, ?, ?)")
		require.NoError(b, err)
		of, err := tx.Prepare("INSERT INTO records (gid, record_id, tbl, created_by) VALUES (?, ?, 'readings', ?)")
		require.NoError(b, err)
		counts, err := tx.Prepare("UPDATE garages SET last_seq = ?, bytes = ? WHERE gid = ?")
		require.NoError(b, err)
		for i := range 1000 {
			gid, id := int64(n/opsPerCall%garages+1), fmt.Appendf(nil, "%016x", n)
			n++
			_, err := of.Exec(gid, id, device)
			require.NoError(b, err)
			_, err = op.Exec(gid<<32|int64(n), id, string(texts[i]))
			require.NoError(b, err)
			if n%opsPerCall == 0 {
				_, err = counts.Exec(n, n, gid)
				require.NoError(b, err)
			}
		}
		require.NoError(b, tx.Commit())
	}
	rate = float64(n) / time.Since(began).Seconds()
	return rate, (writtenBytes(b, os.Getpid()) - before) / float64(n), float64(n)
}

// writtenBytes is how much a process has sent to the disk (proc(5), io).
func writtenBytes(b *testing.B, pid int) (n float64) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/io", pid))
	require.NoError(b, err)
	_, rest, found := strings.Cut(string(text), "\nwrite_bytes: ")
	require.True(b, found)
	_, err = fmt.Sscan(rest, &n)
	require.NoError(b, err)
	return n
}
