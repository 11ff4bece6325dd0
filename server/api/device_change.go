package api

import (
	"net/http"

	"github.com/gorilla/mux"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

type changeRequest struct{ role record.Role }

func (c *changeRequest) Fields(o *wire.Object) {
	wire.Choice(o, "role", &c.role, record.Roles()...).Required().
		Doc("what the device may do from now on; a second owner may do all the first may, also shut it out", "")
}

// deviceChange is PATCH /api/v1/garages/{id}/devices/{device_id}.
func deviceChange(a *actions, w http.ResponseWriter, r *http.Request, who *store.Session) error {
	ask := &changeRequest{}
	if err := read(w, r, ask); err != nil {
		return err
	}
	if err := a.Store.SetRole(who, mux.Vars(r)["device_id"], ask.role); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
