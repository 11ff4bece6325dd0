package garage

import (
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/wire"
)

// Request asks what a phone's records mean.
type Request struct {
	Rows [][]byte // as record.Merge gave them
	Ops  [][]byte // not yet sent
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	o.RawList("rows", &r.Rows).Required().Length(0, maxRows).Doc("every row the phone has, as merge gave them", "")
	o.RawList("ops", &r.Ops).Default("[]").Length(0, maxRows).Doc("operations that are not sent yet", "")
}

const maxRows = 200_000

// Response says what the records mean. Ids lead back to the rows.
type Response struct {
	Bikes, Rounds [][]byte
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	o.RawList("bikes", &r.Bikes).Required().Doc("by name", "")
	o.RawList("rounds", &r.Rounds).Required().Doc("the latest first", "")
}

type bikeMeaning struct {
	id       string
	km       float64
	doubtful []string
	fitted   *string
	chains   [][]byte
}

func (b *bikeMeaning) Fields(o *wire.Object) {
	o.Text("bike_id", &b.id).Required()
	o.Number("km", &b.km).Required().Doc("what it has gone, on its own count", "km")
	o.Texts("doubtful_distance_ids", &b.doubtful).Required().Doc("entries at which the odometer fell", "")
	o.OptionalText("fitted_chain_id", &b.fitted).Doc("the chain on the bike; absent without one", "")
	o.RawList("chains", &b.chains).Required().Doc("in the order they were put on", "")
}

type chainMeaning struct {
	id       string
	place    Place
	km       float64
	readings []string
	last     *string
	care     []string
	forecast []byte
	upkeep   []byte
}

func (c *chainMeaning) Fields(o *wire.Object) {
	o.Text("chain_id", &c.id).Required()
	wire.Choice(o, "place", &c.place, OnBike, Resting, Retired).Required()
	o.Number("km", &c.km).Required().Doc("what it has run since it was new", "km")
	o.Texts("reading_ids", &c.readings).Required().Doc("by distance, voided ones too", "")
	o.OptionalText("last_reading_id", &c.last).Doc("the latest that counts", "")
	o.Texts("care_ids", &c.care).Required().Doc("by time", "")
	o.Raw("forecast_request", &c.forecast).Required().Doc("what to ask the calculation forecast", "")
	o.Raw("care_request", &c.upkeep).Required().Doc("what to ask the calculation care", "")
}

type roundMeaning struct {
	id     string
	stands [][]byte
}

func (r *roundMeaning) Fields(o *wire.Object) {
	o.Text("round_id", &r.id).Required()
	o.RawList("bikes", &r.stands).Required().Doc("how each bike of the round stands, by name", "")
}

type standMeaning struct {
	bike  string
	state record.BikeState
	check *string
	hold  *string
	vain  []string
}

func (s *standMeaning) Fields(o *wire.Object) {
	o.Text("bike_id", &s.bike).Required()
	wire.Choice(o, "state", &s.state, record.Cleared, record.Held, record.NotSeen).Required()
	o.OptionalText("round_check_id", &s.check).Doc("the check it rests on", "")
	o.OptionalText("hold_check_id", &s.hold).Doc("the last check that held it, also when it is cleared since", "")
	o.Texts("vain_check_ids", &s.vain).Required().Doc("checks that clear a held bike with neither a reading nor a reason: they do not count", "")
}

// Mean says what a phone's records mean, unsent operations included. Errors are
// *fault.Error.
func Mean(request *Request) (*Response, error) {
	state := record.State{}
	for i, text := range request.Rows {
		r, err := record.ReadRow(text)
		if err != nil {
			return nil, fault.Under("rows["+strconv.Itoa(i)+"]", err)
		}
		state[record.Key{Table: r.Table, ID: r.ID}] = r
	}
	for i, text := range request.Ops {
		op, err := record.ReadOp(text)
		if err != nil {
			return nil, fault.Under("ops["+strconv.Itoa(i)+"]", err)
		}
		state.Apply(op)
	}
	g := Read(state)
	answer := &Response{Bikes: [][]byte{}, Rounds: [][]byte{}}
	for _, b := range g.Bikes {
		answer.Bikes = append(answer.Bikes, b.meaning())
	}
	for _, r := range g.Rounds {
		answer.Rounds = append(answer.Rounds, r.meaning())
	}
	return answer, nil
}

func (b *Bike) meaning() []byte {
	m := &bikeMeaning{id: b.ID, km: b.Count.KM, doubtful: append([]string{}, b.Count.Doubtful...), chains: [][]byte{}}
	if b.Fitted != nil {
		m.fitted = &b.Fitted.ID
	}
	for _, c := range b.Chains {
		m.chains = append(m.chains, c.meaning())
	}
	return written(m)
}

func (c *Chain) meaning() []byte {
	m := &chainMeaning{id: c.ID, place: c.Place, km: c.KM, readings: []string{}, care: []string{}, forecast: c.ForecastRequest(), upkeep: c.CareRequest()}
	for _, r := range c.Readings {
		m.readings = append(m.readings, r.ID)
	}
	for _, care := range c.Care {
		m.care = append(m.care, care.ID)
	}
	if last := c.LastReading(); last != nil {
		m.last = &last.ID
	}
	return written(m)
}

func (r *Round) meaning() []byte {
	m := &roundMeaning{id: r.ID, stands: [][]byte{}}
	for _, s := range r.Stands {
		stand := &standMeaning{bike: s.Bike.ID, state: s.State, vain: []string{}}
		if s.Hold != nil {
			stand.hold = &s.Hold.ID
		}
		for _, c := range s.Vain {
			stand.vain = append(stand.vain, c.ID)
		}
		if s.Check != nil {
			stand.check = &s.Check.ID
		}
		m.stands = append(m.stands, written(stand))
	}
	return written(m)
}

// written writes a message whose numbers are sums of bounded ones, which are
// finite.
func written(m wire.Message) []byte {
	text, err := wire.Write(m)
	if err != nil {
		panic("garage: a distance is not finite")
	}
	return text
}
