package api

import (
	"net/http"

	"tautspan/server/store"
)

// garageDelete is DELETE /api/v1/garages/{id}.
func garageDelete(a *actions, w http.ResponseWriter, _ *http.Request, who *store.Session) error {
	if err := a.Store.DeleteGarage(who); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
