package api

import (
	"net/http"

	"tautspan/internal/wire"
)

type joinRequest struct{ code, deviceName string }

func (j *joinRequest) Fields(o *wire.Object) {
	o.Text("code", &j.code).Required().Length(1, 200).Doc("the invitation's code", "")
	deviceName(o, &j.deviceName)
}

// garageJoin is POST /api/v1/join. Guesses count like joins.
func garageJoin(a *actions, w http.ResponseWriter, r *http.Request) error {
	ask := &joinRequest{}
	if err := read(w, r, ask); err != nil {
		return err
	}
	if err := a.limited(a.joins, w, r); err != nil {
		return err
	}
	joined, err := a.Store.Join(ask.code, ask.deviceName, a.Now().UnixMilli())
	if err != nil {
		return err
	}
	return answer(w, http.StatusCreated, &welcome{*joined})
}
