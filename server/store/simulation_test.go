package store_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/gorilla/mux"
	"github.com/stretchr/testify/require"

	"tautspan/internal/record"
	"tautspan/internal/testkit"
	"tautspan/internal/wire"
	"tautspan/server/api"
	"tautspan/server/store"
)

var (
	seeds    = flag.Uint64("seeds", 5000, "how many worlds to simulate")
	onlySeed = flag.Int64("seed", -1, "simulate only the world of this seed")
)

// TestSimulation runs whole worlds, each from one seed: phones of every role,
// one real server behind a net that drops, repeats, reorders, delays and cuts
// short, phones and server that crash at any step, clocks wrong by a day, two
// tabs that sync at once. In the end the net is sound again, and then all must
// agree with the definition of merging, with no acknowledged operation lost.
func TestSimulation(t *testing.T) {
	from, to := uint64(0), *seeds
	if *onlySeed >= 0 {
		from, to = uint64(*onlySeed), uint64(*onlySeed)+1
	} else if testing.Short() {
		to = min(to, 200)
	}
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // small worlds by the thousand: a third less time
	var next atomic.Uint64
	next.Store(from)
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Add(1)
		go func() {
			defer workers.Done()
			s := newServer(t)
			defer s.close(t)
			for seed := next.Add(1) - 1; seed < to && !t.Failed(); seed = next.Add(1) - 1 {
				if err := simulate(s, seed); err != nil {
					t.Errorf("seed %d: %v\nreplay: go test ./server/store -run TestSimulation -seed=%d", seed, err, seed)
				}
			}
		}()
	}
	workers.Wait()
}

// server is the real store behind the real routes, called without a socket.
type server struct {
	dir   string
	store *store.Store
	http  http.Handler
	nowMS int64
}

func newServer(t *testing.T) *server {
	s := &server{dir: t.TempDir()}
	require.NoError(t, s.open())
	return s
}

func (s *server) open() (err error) {
	if s.store, err = store.OpenNoSync(s.dir); err != nil {
		return err
	}
	r := mux.NewRouter()
	api.Routes(r, http.NotFoundHandler(), api.Config{Store: s.store, Now: func() time.Time { return time.UnixMilli(s.nowMS) }})
	s.http = r
	return nil
}

func (s *server) close(t *testing.T) { require.NoError(t, s.store.Close()) }

// sync answers one call.
func (s *server) sync(token, garage string, body []byte) (int, []byte) {
	r := httptest.NewRequest("POST", "/api/v1/garages/"+garage+"/sync", bytes.NewReader(body))
	r.Header.Set("Authorization", "Bearer "+token)
	w := httptest.NewRecorder()
	s.http.ServeHTTP(w, r)
	return w.Code, w.Body.Bytes()
}

// world is one garage with its phones and what is on its way between them.
type world struct {
	r        *rand.Rand
	server   *server
	phones   []*phone
	requests []*request
	answers  []*answerOnWay
	records  map[string][]string // ids to write to, by table
	// wavers is set where the server is now and then set back to an earlier
	// state; backup is one of them, setBack how often it was.
	wavers  bool
	backup  string
	setBack int
	// lost is a phone that is at the bottom of the canal in the end, and
	// remembered what it had told that an owner's or leader's phone knew by then.
	lost       *phone
	remembered []*record.Op
}

type answerOnWay struct {
	to     *request
	status int
	body   []byte
}

func simulate(s *server, seed uint64) error {
	w := &world{r: rand.New(rand.NewPCG(seed, 0x7a0)), server: s, wavers: seed%8 == 7}
	s.nowMS = now
	if err := w.found(); err != nil {
		return err
	}
	for range 15 + w.r.IntN(65) {
		if err := w.step(); err != nil {
			return err
		}
	}
	if err := w.lose(); err != nil {
		return err
	}
	if err := w.settle(); err != nil {
		return err
	}
	return w.check(seed%8 == 0)
}

const dayMS = 24 * 3600 * 1000

// found makes a garage with two to four phones and some ids to quarrel over.
func (w *world) found() error {
	owner, err := w.server.store.CreateGarage("G", "p", now)
	if err != nil {
		return err
	}
	welcomes := []*store.Welcome{owner}
	who, err := w.server.store.Authenticate(owner.Token)
	if err != nil {
		return err
	}
	for range 1 + w.r.IntN(3) {
		role := []record.Role{record.Leader, record.Leader, record.Checker, record.Viewer}[w.r.IntN(4)]
		code, err := w.server.store.Invite(who, role, 1, now+1000, now)
		if err != nil {
			return err
		}
		joined, err := w.server.store.Join(code, "p", now)
		if err != nil {
			return err
		}
		welcomes = append(welcomes, joined)
	}
	for _, welcome := range welcomes {
		skew := (w.r.Int64N(3) - 1) * dayMS
		if w.r.IntN(8) == 0 {
			skew += 2 * dayMS // too far ahead: refused until the day has come
		}
		w.phones = append(w.phones, newPhone(w.r, welcome, skew))
	}
	w.records = map[string][]string{}
	for i, table := range []string{"bikes", "care", "readings", "distances"} {
		for j := range 1 + w.r.IntN(3) {
			w.records[table] = append(w.records[table], fmt.Sprintf("%08x-0000-4000-8000-%012x", i, j))
		}
	}
	return nil
}

// step lets one thing happen somewhere.
func (w *world) step() error {
	w.server.nowMS += w.r.Int64N(3) * 1000 // coarse, so that clocks of different phones are often the same
	p := w.phones[w.r.IntN(len(w.phones))]
	switch n := w.r.IntN(100); {
	case w.wavers && n%8 == 7:
		return w.waver()
	case n < 40:
		return w.write(p)
	case n < 60:
		w.requests = append(w.requests, p.ask(1+w.r.IntN(8))) // a second one in flight is a second tab
		return nil
	case n < 78:
		w.carryRequest()
		return nil
	case n < 94:
		return w.carryAnswer()
	case n < 98:
		p.epoch++ // crash
		return nil
	case n < 99 && w.r.IntN(20) == 0:
		w.requests, w.answers = nil, nil
		if err := w.server.store.Close(); err != nil {
			return err
		}
		return w.server.open()
	}
	p.skewMS += (w.r.Int64N(3) - 1) * dayMS / 2 // somebody sets the clock
	return nil
}

// waver backs the server up, or sets it back to that: by a restore or by putting
// the file back by hand, which nothing in the file tells.
func (w *world) waver() (err error) {
	dir := w.server.dir
	if w.backup == "" || w.r.IntN(3) > 0 {
		_ = os.Remove(w.backup) // of none, too
		w.backup = filepath.Join(dir, fmt.Sprintf("backup-%x", w.r.Uint64()))
		return store.Backup(dir, w.backup)
	}
	if err := w.server.store.Close(); err != nil {
		return err
	}
	file := filepath.Join(dir, store.FileName)
	for _, end := range []string{"", "-wal", "-shm"} {
		_ = os.Remove(file + end) // there or not
	}
	if w.r.IntN(2) == 0 {
		err = store.Restore(dir, w.backup)
	} else {
		var kept []byte
		if kept, err = os.ReadFile(w.backup); err == nil {
			err = os.WriteFile(file, kept, 0o600)
		}
	}
	w.setBack++
	return errors.Join(err, w.server.open())
}

func (w *world) write(p *phone) error {
	table := []string{"bikes", "bikes", "care", "readings", "distances"}[w.r.IntN(5)]
	ids := w.records[table]
	id := ids[w.r.IntN(len(ids))]
	return p.write(w.r, w.server.nowMS, table, id, randomPut(w.r, table, p.knows(table, id)))
}

// randomPut is a put, or nothing for a remove.
func randomPut(r *rand.Rand, table string, known bool) string {
	n := r.IntN(9)
	if known && r.IntN(5) == 0 {
		return ""
	}
	const link = `"bike_id":"00000000-0000-4000-8000-000000000000","at":"2026-03-01T08:00:00Z"`
	switch {
	case table == "readings" && known:
		return fmt.Sprintf(`{"void_reason":"r%d"}`, n)
	case table == "readings":
		return fmt.Sprintf(`{"chain_id":"00000000-0000-4000-8000-000000000000","at":"2026-03-01T08:00:00Z","at_km":%d,"reading":{"kind":"compare","pitches":100,"growth_mm":%d}}`, n, n)
	case known && n < 2:
		return `{"note":null}`
	case known && n < 6:
		return fmt.Sprintf(`{"note":"n%d"}`, n)
	case table == "bikes":
		return fmt.Sprintf(`{"name":"b%d","drive":"hub"}`, n)
	case table == "care":
		return fmt.Sprintf(`{"chain_id":"00000000-0000-4000-8000-000000000000","at":"2026-03-01T08:00:00Z","did":["wiped"],"note":"n%d"}`, n)
	}
	return fmt.Sprintf(`{%s,"add_km":%d}`, link, n)
}

// carryRequest brings any waiting request to the server, or not, or twice, or
// only its beginning; the server may crash before or after it has committed.
func (w *world) carryRequest() {
	if len(w.requests) == 0 {
		return
	}
	i := w.r.IntN(len(w.requests))
	q := w.requests[i]
	fate := w.r.IntN(10)
	if fate != 0 { // 0: it arrives again later
		w.requests = append(w.requests[:i], w.requests[i+1:]...)
	}
	body := q.body
	switch fate {
	case 1: // lost, or the server crashed before the commit
		return
	case 2:
		body = body[:w.r.IntN(len(body))]
	}
	status, answer := w.server.sync(q.from.welcome.Token, q.from.welcome.GarageID, body)
	if fate != 3 { // 3: the server crashed after the commit
		w.answers = append(w.answers, &answerOnWay{q, status, answer})
	}
}

// carryAnswer brings any waiting answer home, or not, or twice, or only its
// beginning.
func (w *world) carryAnswer() error {
	if len(w.answers) == 0 {
		return nil
	}
	i := w.r.IntN(len(w.answers))
	a := w.answers[i]
	fate := w.r.IntN(10)
	if fate != 0 {
		w.answers = append(w.answers[:i], w.answers[i+1:]...)
	}
	body := a.body
	switch fate {
	case 1:
		return nil
	case 2:
		body = body[:w.r.IntN(len(body))]
	}
	return a.to.from.take(a.to, a.status, body)
}

// lose lets one phone sink, in some of the worlds whose server is set back.
func (w *world) lose() error {
	if !w.wavers || w.r.IntN(3) > 0 {
		return nil
	}
	i := w.r.IntN(len(w.phones))
	w.lost = w.phones[i]
	w.phones = slices.Delete(w.phones, i, i+1)
	for _, op := range w.lost.written {
		key := record.Key{Table: op.Table, ID: op.Record}
		for _, p := range w.phones {
			row, ok := p.seen(key)
			if !ok || !w.lost.acked[op.ID] || !p.welcome.Role.AtLeast(record.Leader) {
				continue
			}
			r, err := record.ReadRow([]byte(row))
			if err != nil {
				return err
			}
			if told(op, record.State{key: r}) {
				w.remembered = append(w.remembered, op)
				break
			}
		}
	}
	return nil
}

// settle lets every phone sync over a sound net, days later, until nothing is
// waiting anywhere; it must not take long.
func (w *world) settle() error {
	w.server.nowMS += 30 * dayMS
	for round := 0; ; round++ {
		quiet := true
		for _, p := range w.phones {
			before := p.disk.cursor
			q := p.ask(500)
			status, body := w.server.sync(p.welcome.Token, p.welcome.GarageID, q.body)
			if status != 200 {
				return fmt.Errorf("a sound sync was answered %d: %s", status, body)
			}
			if err := p.take(q, status, body); err != nil {
				return err
			}
			quiet = quiet && len(q.sent) == 0 && p.disk.cursor == before && len(p.disk.unsent) == 0
		}
		if quiet {
			return nil
		}
		if round == 5+3*w.setBack {
			return fmt.Errorf("the phones do not come to rest")
		}
	}
}

// check holds what must hold in the end; wholly includes the server's own check.
func (w *world) check(wholly bool) error {
	who, err := w.server.store.Authenticate(w.phones[0].welcome.Token)
	if err != nil {
		return err
	}
	accepted, ops := map[string]*record.Op{}, []*record.Op{}
	err = w.server.store.EachOp(who, func(op *record.Op) error {
		accepted[op.ID] = op
		ops = append(ops, op)
		return nil
	})
	if err != nil {
		return err
	}
	want := testkit.Reference(ops)
	reference, err := w.server.store.State(who)
	if err != nil {
		return err
	}
	if got := testkit.View(reference); !maps.Equal(want, got) {
		return fmt.Errorf("the server has %v, by definition it is %v", got, want)
	}
	for _, op := range w.remembered {
		if !told(op, reference) && !slices.ContainsFunc(w.phones, func(p *phone) bool { return p.saidNo(op) }) {
			return fmt.Errorf("operation %s of a lost phone was known to another and is lost", op.Text)
		}
	}
	for i, p := range w.phones {
		state, err := p.state()
		if err != nil {
			return err
		}
		if got := testkit.View(state); !maps.Equal(want, got) && !w.allowed(p, state, reference, want, got) {
			return fmt.Errorf("phone %d has %v, by definition it is %v", i, got, want)
		}
		if err := w.lostNothing(p, accepted, reference); err != nil {
			return fmt.Errorf("phone %d: %w", i, err)
		}
	}
	if wholly {
		if err := w.server.store.Check(); err != nil {
			return err
		}
	}
	return w.server.store.DeleteGarage(who) // so that the next check is as quick
}

// allowed reports whether a phone that may not speak for others differs only in
// records of which their author could not tell the server again: here ids are
// few, and after it was set back another phone's record may have come first; or
// in what it alone still knows of a phone that is lost.
func (w *world) allowed(p *phone, state, reference record.State, want, got map[string]string) bool {
	if w.setBack == 0 || p.welcome.Role.AtLeast(record.Leader) {
		return false
	}
	refused := map[string]bool{}
	for _, author := range w.phones {
		for id := range author.disk.refused {
			op := author.disk.again[id]
			if op == nil {
				op = author.written[id]
			}
			refused[op.Table+"/"+op.Record] = true
		}
	}
	for _, view := range []map[string]string{want, got} {
		for name := range view {
			table, id, _ := strings.Cut(name, "/")
			key := record.Key{Table: table, ID: id}
			if want[name] != got[name] && !refused[name] && !w.ofLost(state[key], reference[key]) {
				return false
			}
		}
	}
	return true
}

// ofLost reports whether a phone's record is what the server has and, later, what
// the lost phone wrote.
func (w *world) ofLost(r, base *record.Record) bool {
	if w.lost == nil || r == nil {
		return false
	}
	if base == nil {
		base = &record.Record{}
	}
	later := func(mine, its record.Stamp) bool {
		return made(mine) == made(its) || mine > its && string(mine[30:66]) == w.lost.welcome.DeviceID
	}
	for _, c := range append(r.Cells, base.Cells...) {
		if !later(r.StampOf(c.Name), base.StampOf(c.Name)) {
			return false
		}
	}
	return later(r.Removed, base.Removed)
}

// lostNothing: every operation the rider was told is kept is either on the
// server as it was made, or refused with a reason the phone still has. Where the
// server was set back, what it says may have been told again in other words.
func (w *world) lostNothing(p *phone, accepted map[string]*record.Op, reference record.State) error {
	for id, op := range p.written {
		on, refused := accepted[id], p.disk.refused[id]
		switch {
		case on == nil && p.acked[id] && w.setBack > 0 && (told(op, reference) || p.saidNo(op)):
		case p.acked[id] && on == nil:
			return fmt.Errorf("operation %s was acknowledged and is lost", op.Text)
		case on != nil && refused != "":
			return fmt.Errorf("operation %s is kept, but the rider was told that it was refused: %s", id, refused)
		case on == nil && refused == "":
			return fmt.Errorf("operation %s is neither kept nor refused", id)
		case on != nil && !reflect.DeepEqual(on.Text, op.Text):
			return fmt.Errorf("operation %s changed on the way: %s, then %s", id, op.Text, on.Text)
		case on != nil && p.welcome.Role == record.Viewer:
			return fmt.Errorf("a viewer's operation %s was taken", id)
		}
	}
	return nil
}

// told reports whether all an operation says is in the state, or later words.
func told(op *record.Op, state record.State) bool {
	r := state[record.Key{Table: op.Table, ID: op.Record}]
	if r == nil {
		return false
	}
	for _, m := range op.Put {
		if string(r.StampOf(m.Name)) < string(op.Clock) {
			return false
		}
	}
	return !op.Remove || string(max(r.Removed, r.Latest())) >= string(op.Clock)
}

// saidNo reports whether the rider was told, with what it says or what they later
// put in its place, that an operation of theirs was not taken when it was told again.
func (p *phone) saidNo(op *record.Op) bool {
	for id := range p.disk.refused {
		again := p.disk.again[id]
		if again != nil && again.Table == op.Table && again.Record == op.Record && again.Clock >= op.Clock && names(again, op) {
			return true
		}
	}
	return false
}

// names reports whether an operation puts every field that another one does.
func names(one, other *record.Op) bool {
	for _, m := range other.Put {
		if !slices.ContainsFunc(one.Put, func(n wire.Member) bool { return n.Name == m.Name }) {
			return false
		}
	}
	return true
}
