package api

import (
	"net/http"

	"tautspan/server/reply"
)

// healthGet is GET /healthz: the process answers.
func healthGet(_ *actions, w http.ResponseWriter, _ *http.Request) error {
	reply.JSON(w, http.StatusOK, []byte(`{"ok":true}`))
	return nil
}
