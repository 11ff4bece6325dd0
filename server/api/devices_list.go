package api

import (
	"bytes"
	"net/http"
	"slices"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/reply"
	"tautspan/server/store"
)

type device struct {
	id, name  string
	role      record.Role
	joinedAt  string
	revokedAt *string
}

func (d *device) Fields(o *wire.Object) {
	o.Text("device_id", &d.id).Required()
	o.Text("name", &d.name).Required()
	wire.Choice(o, "role", &d.role, record.Roles()...).Required()
	o.Text("joined_at", &d.joinedAt).Required().Doc("RFC 3339", "")
	o.OptionalText("revoked_at", &d.revokedAt).Doc("RFC 3339; absent while it may take part", "")
}

// devicesList is GET /api/v1/garages/{id}/devices: a list, the eldest first,
// those shut out too.
func devicesList(a *actions, w http.ResponseWriter, _ *http.Request, who *store.Session) error {
	list, err := listDevices(a.Store, who)
	if err != nil {
		return err
	}
	texts := make([][]byte, len(list))
	for i := range list {
		if texts[i], err = wire.Write(&list[i]); err != nil {
			return err
		}
	}
	reply.JSON(w, http.StatusOK, slices.Concat([]byte("["), bytes.Join(texts, []byte(",")), []byte("]")))
	return nil
}

func listDevices(s *store.Store, who *store.Session) ([]device, error) {
	all, err := s.Devices(who)
	list := make([]device, len(all))
	for i, d := range all {
		list[i] = device{id: d.ID, name: d.Name, role: d.Role, joinedAt: record.FormatInstant(d.JoinedMS)}
		if d.RevokedMS != nil {
			at := record.FormatInstant(*d.RevokedMS)
			list[i].revokedAt = &at
		}
	}
	return list, err
}
