package server_test

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tautspan/server/store"
)

const (
	capacityPhones = 256 // connections, a garage each
	capacityOps    = 4   // a reading, a distance, care and a check: what one stop brings
	capacityStep   = 4 * time.Second
	capacityP99    = 100 * time.Millisecond
)

// BenchmarkCapacity: calls arrive by themselves (a Poisson stream), whether or
// not earlier ones are answered, more of them in each step of 4 s, until the
// 99th percentile of the answer times, from when a call was due, passes 100 ms.
// The last rate below it is what this machine carries, the load's own work
// included; disk-B/op is what an operation takes for good.
//
//	go test ./server -run xxx -bench Capacity -benchtime 1x
func BenchmarkCapacity(b *testing.B) {
	p, data := benchServer(b)
	phones := p.phones(b, capacityPhones)
	lines := make(chan *capacityLine, capacityPhones)
	for _, phone := range phones {
		l, err := phone.dial(p.url)
		require.NoError(b, err)
		lines <- &capacityLine{phone: phone, line: l}
	}
	r, ops := rand.New(rand.NewPCG(1, 2)), 0
	best, p99 := 0.0, time.Duration(0)
	for rate := 50.0; ; rate *= 1.3 {
		took := offer(b, lines, r, rate)
		ops += len(took) * capacityOps
		slices.Sort(took)
		at := took[len(took)*99/100]
		if at > capacityP99 || rate > 20000 {
			break
		}
		best, p99 = rate, at
	}
	info, err := os.Stat(filepath.Join(data, store.FileName))
	require.NoError(b, err)
	b.ReportMetric(best, "calls/s")
	b.ReportMetric(best*capacityOps*86400/1e6, "Mops/day")
	b.ReportMetric(ms(p99), "p99-ms")
	b.ReportMetric(float64(info.Size())/float64(ops), "disk-B/op")
	b.ReportMetric(0, "ns/op")
}

type capacityLine struct {
	phone  *pusher
	line   *line
	cursor string
}

// offer lets calls arrive at a rate for one step and returns how long after its
// due time each was answered.
func offer(b *testing.B, lines chan *capacityLine, r *rand.Rand, rate float64) []time.Duration {
	n := max(200, int(rate*capacityStep.Seconds()))
	took := make([]time.Duration, n)
	var calling sync.WaitGroup
	due := time.Now()
	for i := range n {
		due = due.Add(time.Duration(r.ExpFloat64() / rate * float64(time.Second)))
		time.Sleep(time.Until(due))
		at, l := due, <-lines
		calling.Go(func() {
			defer func() { lines <- l }()
			body := bytes.Join(l.phone.texts(capacityOps), []byte(","))
			var err error
			if l.cursor, err = l.line.sync(l.cursor, body); err != nil {
				b.Error(err)
			}
			took[i] = time.Since(at)
		})
	}
	calling.Wait()
	return took
}
