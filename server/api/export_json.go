package api

import (
	"net/http"
	"time"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/reply"
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
	text, err := Export(a.Store, who, a.Now())
	if err != nil {
		return err
	}
	w.Header().Set("Content-Disposition", `attachment; filename="garage.json"`)
	reply.JSON(w, http.StatusOK, text)
	return nil
}

// Export is a whole garage as JSON.
func Export(s *store.Store, who *store.Session, now time.Time) ([]byte, error) {
	e := &exported{garageID: who.GarageID, at: record.FormatInstant(now.UnixMilli())}
	var err error
	if e.name, err = s.GarageName(who); err != nil {
		return nil, err
	}
	if e.devices, err = listDevices(s, who); err != nil {
		return nil, err
	}
	if e.records, err = s.State(who); err != nil {
		return nil, err
	}
	return wire.Write(e)
}
