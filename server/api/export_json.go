package api

import (
	"net/http"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

// exported is a whole garage. record.ReadExport reads it back.
type exported struct {
	garageID, name, at string
	devices            []device
	records            record.State
}

func (e *exported) Fields(o *wire.Object) {
	format := record.ExportFormat
	o.Text("format", &format).Required()
	o.Text("garage_id", &e.garageID).Required()
	o.Text("name", &e.name).Required()
	o.Text("exported_at", &e.at).Required()
	wire.List(o, "devices", &e.devices).Required()
	tables := record.ExportTables(e.records)
	o.Raw("tables", &tables).Required()
}

// exportJSON is GET /api/v1/garages/{id}/export.json.
func exportJSON(a *actions, w http.ResponseWriter, _ *http.Request, who *store.Session) error {
	e := &exported{garageID: who.GarageID, at: record.FormatInstant(a.Now().UnixMilli())}
	var err error
	if e.name, err = a.Store.GarageName(who); err != nil {
		return err
	}
	if e.devices, err = listDevices(a.Store, who); err != nil {
		return err
	}
	if e.records, err = a.Store.State(who); err != nil {
		return err
	}
	w.Header().Set("Content-Disposition", `attachment; filename="garage.json"`)
	return answer(w, http.StatusOK, e)
}
