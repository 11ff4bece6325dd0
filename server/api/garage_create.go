package api

import (
	"net/http"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

type garageRequest struct{ name, deviceName string }

func (g *garageRequest) Fields(o *wire.Object) {
	o.Text("name", &g.name).Required().Length(1, 80).Doc("what people call the garage", "")
	deviceName(o, &g.deviceName)
}

func deviceName(o *wire.Object, p *string) {
	o.Text("device_name", p).Required().Length(1, 80).Doc("what people call this phone", "")
}

// welcome tells a device who it is. The token is told once.
type welcome struct{ store.Welcome }

func (m *welcome) Fields(o *wire.Object) {
	o.Text("garage_id", &m.GarageID).Required().Doc("the garage", "")
	o.Text("name", &m.Name).Required().Doc("what people call the garage", "")
	o.Text("device_id", &m.DeviceID).Required().Doc("this device; every operation it makes carries it", "")
	o.Text("token", &m.Token).Required().Doc("to be sent as Authorization: Bearer; told once and never again", "")
	o.Text("cursor", &m.Cursor).Required().Doc("for the first call of sync; an empty one is the beginning too, but does not tell a server that was set back", "")
	wire.Choice(o, "role", &m.Role, record.Roles()...).Required().Doc("what this device may do", "")
}

// garageCreate is POST /api/v1/garages.
func garageCreate(a *actions, w http.ResponseWriter, r *http.Request) error {
	if !a.OpenRegistration {
		return fault.New(fault.Denied, "", "this server takes no new garages; ask for an invitation to one that is here")
	}
	ask := &garageRequest{}
	if err := read(w, r, ask); err != nil {
		return err
	}
	if err := a.limited(a.foundings, w, r); err != nil {
		return err
	}
	made, err := a.Store.CreateGarage(ask.name, ask.deviceName, a.Now().UnixMilli())
	if err != nil {
		return err
	}
	return answer(w, http.StatusCreated, &welcome{*made})
}
