package api

import (
	"errors"
	"net/http"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/wire"
	"tautspan/server/store"
)

// maxSyncBytes has room for as many operations of the greatest size as one call
// may bring.
const maxSyncBytes = store.MaxPage * (record.MaxPutBytes + 1024)

type syncRequest struct {
	cursor string
	ops    [][]byte
}

func (s *syncRequest) Fields(o *wire.Object) {
	o.Text("cursor", &s.cursor).Default(`""`).Length(0, 100).Doc("of the last answer; empty for everything from the beginning", "")
	o.RawList("ops", &s.ops).Default("[]").Length(0, store.MaxPage).Doc("new operations of this device, in the order in which they were made", "")
}

type syncResponse struct {
	cursor   string
	ops      [][]byte
	more     bool
	setBack  bool
	rejected []rejection
	role     record.Role
}

func (s *syncResponse) Fields(o *wire.Object) {
	o.Text("cursor", &s.cursor).Required().Doc("for the next call", "")
	o.RawList("ops", &s.ops).Required().Doc("what arrived since the cursor, from every device", "")
	o.Boolean("more", &s.more).Required().Doc("there is more: call again at once", "")
	o.Boolean("set_back", &s.setBack).Required().
		Doc("the server was set back to an earlier state and lacks what the cursor named: nothing of this call was taken, the cursor given is the beginning; after pulling from there send again what is missing", "")
	wire.List(o, "rejected", &s.rejected).Required().Doc("operations that were refused; all others are kept for good", "")
	wire.Choice(o, "role", &s.role, record.Roles()...).Required().Doc("what this device may do now", "")
}

type rejection struct {
	opID string
	err  *fault.Error
}

func (j *rejection) Fields(o *wire.Object) {
	if j.err == nil {
		j.err = &fault.Error{} // while it is only described
	}
	o.Text("op_id", &j.opID).Required().Doc("empty when it could not be read", "")
	o.Text("code", (*string)(&j.err.Code)).Required().Doc("what kind of error", "")
	o.Text("field", &j.err.Field).Required().Doc("what it is about", "")
	o.Text("message", &j.err.Message).Required().Doc("plain words", "")
}

// syncRun is POST /api/v1/garages/{id}/sync.
func syncRun(a *actions, w http.ResponseWriter, r *http.Request, who *store.Session) error {
	body, err := readBody(w, r, maxSyncBytes)
	if err != nil {
		return err
	}
	ask := &syncRequest{}
	if err := wire.Read(body, ask); err != nil {
		return err
	}
	ops, rejected, err := readOps(ask.ops)
	if err != nil {
		return err
	}
	a.unreadable.Add(int64(len(rejected)))
	page, refused, err := a.Store.Sync(who, ask.cursor, ops, a.Now().UnixMilli())
	if err != nil {
		return err
	}
	for _, r := range refused {
		rejected = append(rejected, rejection{r.OpID, r.Err})
	}
	return answer(w, http.StatusOK, &syncResponse{page.Cursor, page.Ops, page.More, page.SetBack, rejected, who.Role})
}

// readOps returns the operations whose form is sound and refuses the others.
func readOps(texts [][]byte) (ops []*record.Op, rejected []rejection, err error) {
	rejected = []rejection{}
	for i, text := range texts {
		op, err := record.ReadOp(text)
		if err == nil {
			ops = append(ops, op)
			continue
		}
		if op.ID == "" { // then say at least where it stood
			err = fault.Under("ops["+strconv.Itoa(i)+"]", err)
		}
		var f *fault.Error
		if !errors.As(err, &f) {
			return nil, nil, err
		}
		rejected = append(rejected, rejection{op.ID, f})
	}
	return ops, rejected, nil
}
