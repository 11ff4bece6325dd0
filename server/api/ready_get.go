package api

import (
	"net/http"

	"tautspan/server/reply"
)

// readyGet is GET /readyz: the database answers.
func readyGet(a *actions, w http.ResponseWriter, r *http.Request) error {
	if err := a.Store.Ready(r.Context()); err != nil {
		return err
	}
	reply.JSON(w, http.StatusOK, []byte(`{"ok":true}`))
	return nil
}
