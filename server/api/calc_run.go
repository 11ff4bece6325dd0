package api

import (
	"net/http"

	"github.com/gorilla/mux"

	"tautspan/internal/engine"
	"tautspan/server/reply"
)

// calcRun is POST /api/v1/calc/{name}: one calculation, no sign-in.
func calcRun(_ *actions, w http.ResponseWriter, r *http.Request) error {
	request, err := readBody(w, r, engine.MaxRequestBytes)
	if err != nil {
		return err
	}
	response, err := engine.Call(mux.Vars(r)["name"], request)
	if err == nil {
		reply.JSON(w, http.StatusOK, response)
	}
	return err
}
