package server_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// BenchmarkLone: one phone alone pushes one operation a call. What it waits for
// is the disk; so the time of one fsync of a page at the end of a file, measured
// between the calls on the same disk, stands beside it. The goal: at most two
// fsyncs plus 3 ms, as medians.
//
//	go test ./server -run xxx -bench Lone -benchtime 500x
func BenchmarkLone(b *testing.B) {
	p, data := benchServer(b)
	phone := p.phones(b, 1)[0]
	l, err := phone.dial(p.url)
	require.NoError(b, err)
	file, err := os.Create(filepath.Join(filepath.Dir(data), "fsync"))
	require.NoError(b, err)
	defer func() { require.NoError(b, file.Close()) }()
	page, cursor := make([]byte, 4096), ""
	var calls, fsyncs []time.Duration
	for _, op := range phone.texts(b.N) {
		_, err := file.Write(page)
		require.NoError(b, err)
		began := time.Now()
		require.NoError(b, file.Sync())
		fsyncs = append(fsyncs, time.Since(began))
		began = time.Now()
		cursor, err = l.sync(cursor, op)
		require.NoError(b, err)
		calls = append(calls, time.Since(began))
	}
	slices.Sort(calls)
	slices.Sort(fsyncs)
	call, fsync := calls[len(calls)/2], fsyncs[len(fsyncs)/2]
	b.ReportMetric(ms(call), "p50-ms")
	b.ReportMetric(ms(calls[len(calls)*99/100]), "p99-ms")
	b.ReportMetric(ms(fsync), "fsync-ms")
	b.ReportMetric(ms(call-2*fsync), "beyond-2-fsyncs-ms")
	b.ReportMetric(0, "ns/op")
}

// BenchmarkFirstPull: a phone that begins anew pulls 100,000 operations.
//
//	go test ./server -run xxx -bench FirstPull -benchtime 1x
func BenchmarkFirstPull(b *testing.B) {
	p, _ := benchServer(b)
	phone := p.phones(b, 1)[0]
	var bodies [][]byte
	for range 100_000 / 500 {
		bodies = append(bodies, bytes.Join(phone.texts(500), []byte(",")))
	}
	_, err := phone.pushAll(p.url, bodies)
	require.NoError(b, err)
	for b.Loop() {
		began, used, cursor, size, n := time.Now(), p.cpu(b), "", 0, 0
		for more := true; more; {
			var answer struct {
				Cursor string
				Ops    []json.RawMessage
				More   bool
			}
			_, err := phone.post(p.url, "/garages/"+phone.GarageID+"/sync", fmt.Appendf(nil, `{"cursor":%q}`, cursor), &answer)
			require.NoError(b, err)
			for _, op := range answer.Ops {
				size += len(op)
			}
			n += len(answer.Ops)
			cursor, more = answer.Cursor, answer.More
		}
		require.Equal(b, 100_000, n)
		b.ReportMetric(time.Since(began).Seconds(), "s/pull")
		b.ReportMetric((p.cpu(b) - used).Seconds(), "cpu-s/pull")
		b.ReportMetric(float64(size)/1e6, "MB")
	}
	b.ReportMetric(0, "ns/op")
}

// BenchmarkStreams: what 500 idle event streams, a garage each, add to the
// program's memory (VmRSS of proc(5)).
//
//	go test ./server -run xxx -bench Streams -benchtime 1x
func BenchmarkStreams(b *testing.B) {
	const streams = 500
	p, _ := benchServer(b)
	all := p.phones(b, streams)
	for b.Loop() {
		before := p.memory(b)
		var open []io.Closer
		for _, phone := range all {
			r, err := http.NewRequest("GET", p.url+"/api/v1/garages/"+phone.GarageID+"/events", nil)
			require.NoError(b, err)
			r.Header.Set("Authorization", "Bearer "+phone.Token)
			resp, err := http.DefaultClient.Do(r)
			require.NoError(b, err)
			require.Equal(b, http.StatusOK, resp.StatusCode)
			open = append(open, resp.Body)
		}
		b.ReportMetric(float64(p.memory(b)-before)/1024, "MB")
		b.ReportMetric(float64(before)/1024, "MB-before")
		for _, body := range open {
			require.NoError(b, body.Close())
		}
	}
	b.ReportMetric(0, "ns/op")
}

// memory is what the program has in memory, in KiB.
func (p *process) memory(b *testing.B) (kib int) {
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.cmd.Process.Pid))
	require.NoError(b, err)
	_, rest, found := strings.Cut(string(text), "VmRSS:")
	require.True(b, found)
	_, err = fmt.Sscan(rest, &kib)
	require.NoError(b, err)
	return kib
}
