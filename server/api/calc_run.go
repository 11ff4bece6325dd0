package api

import (
	"net/http"

	"github.com/gorilla/mux"

	"tautspan/internal/engine"
	"tautspan/server/reply"
)

// calcRun is POST /api/v1/calc/{name}: one calculation, no sign-in.
func calcRun(w http.ResponseWriter, r *http.Request) {
	request, err := readBody(w, r, engine.MaxRequestBytes)
	if err != nil {
		reply.Error(w, r, err)
		return
	}
	response, err := engine.Call(mux.Vars(r)["name"], request)
	if err != nil {
		reply.Error(w, r, err)
		return
	}
	reply.JSON(w, http.StatusOK, response)
}
