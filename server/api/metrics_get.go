package api

import (
	"fmt"
	"net/http"

	"tautspan/internal/fault"
	"tautspan/server/caller"
)

// metricsGet is GET /metrics: counts in the text format of OpenMetrics.
func metricsGet(a *actions, w http.ResponseWriter, r *http.Request) error {
	if !a.OpenMetrics && !caller.Local(r) {
		return fault.New(fault.NotFound, "", "there is nothing at this address")
	}
	stats := a.Store.Stats()
	w.Header().Set("Content-Type", "application/openmetrics-text; version=1.0.0; charset=utf-8")
	_, _ = fmt.Fprintf(w, // the caller is gone; nobody to tell
		"# TYPE tautspan_commits counter\ntautspan_commits_total %d\n"+
			"# TYPE tautspan_writes counter\ntautspan_writes_total %d\n"+
			"# TYPE tautspan_failed_commits counter\ntautspan_failed_commits_total %d\n# EOF\n",
		stats.Commits, stats.Calls, stats.Failures)
	return nil
}
