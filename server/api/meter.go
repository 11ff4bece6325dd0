package api

import (
	"fmt"
	"io"
	"net/http"
	"slices"
	"sync/atomic"
	"time"
)

// bounds are the upper ends of the latency classes, in milliseconds.
var bounds = [...]int64{1, 3, 10, 30, 100, 300, 1000, 3000}

// meter counts the calls of one route: by class of status, and by how long they
// took. It knows routes and never who called or for which garage.
type meter struct {
	statuses [6]atomic.Int64 // 2 for 2xx, and so on
	latency  [len(bounds) + 1]atomic.Int64
	micros   atomic.Int64
}

func (m *meter) note(status int, took time.Duration) {
	m.statuses[min(max(status/100, 0), 5)].Add(1)
	class, _ := slices.BinarySearch(bounds[:], (took.Microseconds()+999)/1000)
	m.latency[class].Add(1)
	m.micros.Add(took.Microseconds())
}

// metered measures a route; streams are open for hours, so only counted.
func (m *meter) metered(stream bool, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		began, s := time.Now(), &statusWriter{ResponseWriter: w, status: http.StatusOK}
		next.ServeHTTP(s, r)
		took := time.Since(began)
		if stream {
			took = 0
		}
		m.note(s.status, took)
	})
}

// writeCalls and writeLatency write samples of OpenMetrics, without the lines that
// describe them.
func (m *meter) writeCalls(w io.Writer, labels string) {
	for class := range m.statuses {
		if n := m.statuses[class].Load(); n > 0 {
			_, _ = fmt.Fprintf(w, "tautspan_calls_total{%s,status=\"%dxx\"} %d\n", labels, class, n)
		}
	}
}

func (m *meter) writeLatency(w io.Writer, labels string) {
	total := int64(0)
	for i := range m.latency {
		total += m.latency[i].Load()
		bound := "+Inf"
		if i < len(bounds) {
			bound = fmt.Sprint(float64(bounds[i]) / 1000)
		}
		_, _ = fmt.Fprintf(w, "tautspan_call_seconds_bucket{%s,le=\"%s\"} %d\n", labels, bound, total)
	}
	_, _ = fmt.Fprintf(w, "tautspan_call_seconds_sum{%s} %g\ntautspan_call_seconds_count{%s} %d\n",
		labels, float64(m.micros.Load())/1e6, labels, total)
}

func (r *Route) labels() string {
	return `method="` + r.Method + `",route="` + r.Path + `"`
}

// statusWriter remembers the status that was sent.
type statusWriter struct {
	http.ResponseWriter
	status int
}

func (s *statusWriter) WriteHeader(status int) {
	s.status = status
	s.ResponseWriter.WriteHeader(status)
}

// Unwrap lets http.ResponseController reach the connection.
func (s *statusWriter) Unwrap() http.ResponseWriter { return s.ResponseWriter }
