package api

import (
	"bytes"
	"fmt"
	"net/http"

	"tautspan/internal/fault"
	"tautspan/server/caller"
)

// metricsGet is GET /metrics: counts in the text format of OpenMetrics 1.0. They
// tell nothing of anyone: no garage, no device, no address.
func metricsGet(a *actions, w http.ResponseWriter, r *http.Request) error {
	if !a.OpenMetrics && !caller.Local(r) {
		return fault.New(fault.NotFound, "", "there is nothing at this address")
	}
	sizes, err := a.Store.Sizes(r.Context())
	if err != nil {
		return err
	}
	stats, out := a.Store.Stats(), &bytes.Buffer{}
	for _, c := range []struct {
		name, kind, help string
		value            int64
	}{
		{"ops_kept", "counter", "Operations that were new and are on the disk.", stats.Kept},
		{"ops_rejected", "counter", "Operations that were refused, for whatever reason.", stats.Refused + a.unreadable.Load()},
		{"commits", "counter", "Transactions, each one wait for the disk.", stats.Commits},
		{"writes", "counter", "Calls that wrote; many share a commit.", stats.Calls},
		{"failed_commits", "counter", "Transactions that failed as a whole, when the disk is full for instance.", stats.Failures},
		{"limited", "counter", "Calls refused for coming too often.", a.foundings.refused.Load() + a.joins.refused.Load()},
		{"queue", "gauge", "Calls that wait for the writer now.", stats.Waiting},
		{"streams", "gauge", "Event streams that are open now.", stats.Streams},
		{"garages", "gauge", "Garages.", sizes.Garages},
		{"devices", "gauge", "Devices that may call.", sizes.Devices},
		{"database_bytes", "gauge", "Size of the database.", sizes.Database},
		{"log_bytes", "gauge", "Size of the log before it.", sizes.Log},
	} {
		suffix := ""
		if c.kind == "counter" {
			suffix = "_total"
		}
		_, _ = fmt.Fprintf(out, "# TYPE tautspan_%s %s\n# HELP tautspan_%s %s\ntautspan_%s%s %d\n", c.name, c.kind, c.name, c.help, c.name, suffix, c.value)
	}
	out.WriteString("# TYPE tautspan_calls counter\n# HELP tautspan_calls Calls by route and class of status.\n")
	for i := range routes {
		a.meters[i].writeCalls(out, routes[i].labels())
	}
	out.WriteString("# TYPE tautspan_call_seconds histogram\n# UNIT tautspan_call_seconds seconds\n# HELP tautspan_call_seconds How long calls took.\n")
	for i := range routes {
		if !routes[i].Stream {
			a.meters[i].writeLatency(out, routes[i].labels())
		}
	}
	out.WriteString("# EOF\n")
	w.Header().Set("Content-Type", "application/openmetrics-text; version=1.0.0; charset=utf-8")
	_, _ = w.Write(out.Bytes()) // the caller is gone; nobody to tell
	return nil
}
