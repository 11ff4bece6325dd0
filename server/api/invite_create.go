package api

import (
	"net/http"

	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

type inviteRequest struct {
	role            record.Role
	uses, expiresIn int
}

func (i *inviteRequest) Fields(o *wire.Object) {
	wire.Choice(o, "role", &i.role, record.Leader, record.Checker, record.Viewer).Required().Doc("what those who join may do", "")
	o.Integer("uses", &i.uses).Between(1, 1000).Default("1").Doc("how many may join with it", "")
	o.Integer("expires_in_s", &i.expiresIn).Between(1, 31*24*3600).Default("86400").Doc("how long it is good for", "s")
}

type inviteResponse struct{ code, url string }

func (i *inviteResponse) Fields(o *wire.Object) {
	o.Text("code", &i.code).Required().Doc("told once; whoever has it may join", "")
	o.Text("url", &i.url).Required().Doc("the same as a link; the code is in the fragment, which browsers send nowhere", "")
}

// inviteCreate is POST /api/v1/garages/{id}/invites.
func inviteCreate(a *actions, w http.ResponseWriter, r *http.Request, who *store.Session) error {
	ask := &inviteRequest{}
	if err := read(w, r, ask); err != nil {
		return err
	}
	now := a.Now().UnixMilli()
	code, err := a.Store.Invite(who, ask.role, int64(ask.uses), now+int64(ask.expiresIn)*1000, now)
	if err != nil {
		return err
	}
	return answer(w, http.StatusCreated, &inviteResponse{code, a.base(r) + "/#/join/" + code})
}

// base is the address the caller used, without a path.
func (a *actions) base(r *http.Request) string {
	scheme := "http"
	if a.Proxies.Secure(r) {
		scheme = "https"
	}
	return scheme + "://" + r.Host
}
