package server_test

import (
	"bytes"
	"cmp"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/mux"
	_ "github.com/mattn/go-sqlite3" // for the raw measurement
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/server/api"
	"tautspan/server/store"
)

const opsPerCall = 20

// bench is a server over a real socket and a real disk.
func bench(b *testing.B) (*store.Store, string) {
	b.Helper()
	s, err := store.Open(b.TempDir(), store.DefaultQuota())
	require.NoError(b, err)
	r := mux.NewRouter()
	api.Routes(r, http.NotFoundHandler(), api.Config{Store: s, Now: time.Now, OpenRegistration: true})
	web := httptest.NewServer(r)
	b.Cleanup(func() {
		web.Close()
		require.NoError(b, s.Close())
	})
	http.DefaultTransport.(*http.Transport).MaxIdleConnsPerHost = 600
	return s, web.URL
}

// phones founds a garage for each.
func phones(b *testing.B, s *store.Store, n int) []*pusher {
	all := make([]*pusher, n)
	for i := range all {
		w, err := s.CreateGarage("G", "p", time.Now().UnixMilli())
		require.NoError(b, err)
		all[i] = &pusher{GarageID: w.GarageID, DeviceID: w.DeviceID, Token: w.Token}
	}
	return all
}

// calls are bodies made before the clock runs: it is the server that is measured.
func (p *pusher) calls(n int) [][]byte {
	bodies := make([][]byte, n)
	for i := range bodies {
		ops := make([][]byte, opsPerCall)
		for j := range ops {
			p.n++
			ops[j] = fmt.Appendf(nil, `{"op_id":"017f22e2-79b0-7cc3-98c4-%012x","hlc":%q,"device_id":%q,"table":"readings","record_id":"11111111-1111-4111-8111-%012x",`+
				`"put":{"chain_id":"22222222-1111-4111-8111-111111111111","at":"2026-03-01T08:00:00Z","at_km":1200,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}}}`,
				p.n, record.Clock("").Next(1772352000000+int64(p.n)), p.DeviceID, p.n)
		}
		bodies[i] = bytes.Join(ops, []byte(","))
	}
	return bodies
}

// BenchmarkSync: acknowledged operations a second over HTTP at 1, 16 and 64
// phones, each pushing 20 a call and pulling them back, beside what SQLite alone
// does at the same durability in batches of 1000, measured just before.
//
//	go test ./server -run xxx -bench Sync -benchtime 2000x
func BenchmarkSync(b *testing.B) {
	for _, n := range []int{1, 16, 64} {
		b.Run(fmt.Sprintf("phones=%d", n), func(b *testing.B) {
			raw := rawOpsPerSecond(b)
			s, url := bench(b)
			all := phones(b, s, n)
			each := max(1, b.N/n)
			bodies := make([][][]byte, n)
			for i, p := range all {
				bodies[i] = p.calls(each)
			}
			took := make([][]time.Duration, n)
			runtime.GC()
			b.ResetTimer()
			began := time.Now()
			var pushing sync.WaitGroup
			for i, p := range all {
				pushing.Go(func() { took[i] = p.run(b, url, bodies[i]) })
			}
			pushing.Wait()
			seconds := time.Since(began).Seconds()
			b.StopTimer()
			rate := float64(each*n*opsPerCall) / seconds
			times := slices.Concat(took...)
			slices.SortFunc(times, cmp.Compare)
			b.ReportMetric(rate, "ops/s")
			b.ReportMetric(raw, "raw-ops/s")
			b.ReportMetric(100*rate/raw, "%ofraw")
			b.ReportMetric(float64(times[len(times)/2].Microseconds())/1000, "p50-ms")
			b.ReportMetric(float64(times[len(times)*99/100].Microseconds())/1000, "p99-ms")
			b.ReportMetric(float64(s.Stats().Calls)/float64(s.Stats().Commits), "calls/commit")
		})
	}
}

// run pushes all bodies one after the other, each with the last answer's cursor.
func (p *pusher) run(b *testing.B, url string, bodies [][]byte) []time.Duration {
	took, cursor := make([]time.Duration, len(bodies)), ""
	for i, ops := range bodies {
		began := time.Now()
		var answer struct {
			Cursor   string
			Rejected []json.RawMessage
		}
		status, err := p.post(url, "/garages/"+p.GarageID+"/sync", fmt.Appendf(nil, `{"cursor":%q,"ops":[%s]}`, cursor, ops), &answer)
		if err != nil || status != http.StatusOK || len(answer.Rejected) > 0 {
			b.Errorf("status %d, %v, rejected %d", status, err, len(answer.Rejected))
			return took[:1]
		}
		cursor, took[i] = answer.Cursor, time.Since(began)
	}
	return took
}

// rawOpsPerSecond is what SQLite alone keeps: the same rows with the same index,
// WAL and synchronous=FULL, in transactions of 1000.
func rawOpsPerSecond(b *testing.B) float64 {
	b.Helper()
	db, err := sql.Open("sqlite3", filepath.Join(b.TempDir(), "raw.db")+"?_journal_mode=WAL&_synchronous=FULL&_txlock=immediate")
	require.NoError(b, err)
	defer func() { require.NoError(b, db.Close()) }()
	db.SetMaxOpenConns(1)
	_, err = db.Exec(`CREATE TABLE ops (gid INTEGER NOT NULL, seq INTEGER NOT NULL, op_id TEXT NOT NULL, body TEXT NOT NULL,
		PRIMARY KEY (gid, seq)) STRICT, WITHOUT ROWID; CREATE UNIQUE INDEX ops_by_id ON ops (gid, op_id)`)
	require.NoError(b, err)
	body := string((&pusher{DeviceID: "22222222-1111-4111-8111-111111111111"}).calls(1)[0])[:420]
	began, n := time.Now(), 0
	for time.Since(began) < 2*time.Second {
		tx, err := db.Begin()
		require.NoError(b, err)
		insert, err := tx.Prepare("INSERT INTO ops (gid, seq, op_id, body) VALUES (?, ?, ?, ?)")
		require.NoError(b, err)
		for range 1000 {
			n++
			_, err := insert.Exec(1, n, fmt.Sprintf("017f22e2-79b0-7cc3-98c4-%012x", n), body)
			require.NoError(b, err)
		}
		require.NoError(b, tx.Commit())
	}
	return float64(n) / time.Since(began).Seconds()
}

// BenchmarkFirstPull: a phone that begins anew pulls 100,000 operations.
//
//	go test ./server -run xxx -bench FirstPull -benchtime 1x
func BenchmarkFirstPull(b *testing.B) {
	s, url := bench(b)
	p := phones(b, s, 1)[0]
	p.run(b, url, p.calls(100_000/opsPerCall))
	for b.Loop() {
		began, cursor, bytes := time.Now(), "", 0
		for more := true; more; {
			var answer struct {
				Cursor string
				Ops    []json.RawMessage
				More   bool
			}
			_, err := p.post(url, "/garages/"+p.GarageID+"/sync", fmt.Appendf(nil, `{"cursor":%q}`, cursor), &answer)
			require.NoError(b, err)
			for _, op := range answer.Ops {
				bytes += len(op)
			}
			cursor, more = answer.Cursor, answer.More
		}
		b.ReportMetric(time.Since(began).Seconds(), "s/pull")
		b.ReportMetric(float64(bytes)/1e6, "MB")
	}
}

// BenchmarkStreams: memory of 500 open event streams, both ends of each.
//
//	go test ./server -run xxx -bench Streams -benchtime 1x
func BenchmarkStreams(b *testing.B) {
	const streams = 500
	s, url := bench(b)
	all := phones(b, s, streams)
	for b.Loop() {
		var before, after runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&before)
		open := make([]io.Closer, streams)
		for i, p := range all {
			r, err := http.NewRequest("GET", url+"/api/v1/garages/"+p.GarageID+"/events", nil)
			require.NoError(b, err)
			r.Header.Set("Authorization", "Bearer "+p.Token)
			resp, err := http.DefaultClient.Do(r)
			require.NoError(b, err)
			require.Equal(b, 200, resp.StatusCode, strconv.Itoa(i))
			open[i] = resp.Body
		}
		runtime.GC()
		runtime.ReadMemStats(&after)
		b.ReportMetric(float64(after.HeapInuse+after.StackInuse-before.HeapInuse-before.StackInuse)/1e6, "MB")
		for _, body := range open {
			require.NoError(b, body.Close())
		}
	}
}
