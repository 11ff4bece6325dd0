package api

import (
	"net/http"

	"tautspan/internal/fault"
	"tautspan/server/reply"
)

// readyGet is GET /readyz: the database answers, and the server is not stopping.
func readyGet(a *actions, w http.ResponseWriter, r *http.Request) error {
	select {
	case <-a.Done:
		return fault.New(fault.Unavailable, "", "the server is stopping; try again")
	default:
	}
	if err := a.Store.Ready(r.Context()); err != nil {
		return err
	}
	reply.JSON(w, http.StatusOK, []byte(`{"ok":true}`))
	return nil
}
