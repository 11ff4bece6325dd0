package api

import (
	"net/http"

	"tautspan/server/reply"
)

// healthGet is GET /healthz: the process answers.
func healthGet(w http.ResponseWriter, _ *http.Request) {
	reply.JSON(w, http.StatusOK, []byte(`{"ok":true}`))
}
