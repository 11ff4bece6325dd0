package api

import (
	"net/http"

	"github.com/gorilla/mux"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/server/store"
)

// deviceRevoke is DELETE /api/v1/garages/{id}/devices/{device_id}.
func deviceRevoke(a *actions, w http.ResponseWriter, r *http.Request, who *store.Session) error {
	device := mux.Vars(r)["device_id"]
	if device != who.Device && who.Role != record.Owner {
		return fault.New(fault.Denied, "", "a "+string(who.Role)+" may shut out only their own device; others take an owner")
	}
	if err := a.Store.Revoke(who, device, a.Now().UnixMilli()); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
