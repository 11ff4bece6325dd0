package garage_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/garage"
	"tautspan/internal/record"
	"tautspan/internal/wire"
)

// book collects records through operations, as phones make them.
type book struct {
	t     *testing.T
	state record.State
	n     int64
}

func newBook(t *testing.T) *book { return &book{t: t, state: record.State{}} }

// id makes a record's id out of a short name.
func id(name string) string { return fmt.Sprintf("%08x-0000-4000-8000-%012x", len(name), []byte(name)) }

func (b *book) put(table, name, fields string) {
	b.t.Helper()
	b.n++
	text := fmt.Appendf(nil, `{"op_id":%q,"hlc":%q,"device_id":%q,"table":%q,"record_id":%q,"put":%s}`,
		record.UUIDv7(b.n, [10]byte{}), record.Clock("").Next(1772352000000+b.n), id("dev"), table, id(name), fields)
	op, err := record.ReadOp(text)
	require.NoError(b.t, err)
	require.NoError(b.t, op.Check(record.Author{Device: id("dev"), Role: record.Owner}, 1772352000000))
	b.state.Apply(op)
}

func (b *book) bike(name, more string) {
	b.t.Helper()
	b.put("bikes", name, fmt.Sprintf(`{"name":%q,"drive":"derailleur","rear_sprockets":11%s}`, name, more))
}

func (b *book) chain(name, bike, more string) {
	b.t.Helper()
	b.put("chains", name, fmt.Sprintf(`{"bike_id":%q,"name":%q%s}`, id(bike), name, more))
}

func at(day int) string { return fmt.Sprintf("2026-03-%02dT08:00:00Z", day) }

func (b *book) odometer(name, bike string, day int, km float64) {
	b.t.Helper()
	b.put("distances", name, fmt.Sprintf(`{"bike_id":%q,"at":%q,"odometer_km":%g}`, id(bike), at(day), km))
}

func (b *book) ride(name, bike string, day int, km float64) {
	b.t.Helper()
	b.put("distances", name, fmt.Sprintf(`{"bike_id":%q,"at":%q,"add_km":%g}`, id(bike), at(day), km))
}

func chains(g *garage.Garage) map[string]string {
	all := map[string]string{}
	for _, b := range g.Bikes {
		for _, c := range b.Chains {
			all[*c.Name] = fmt.Sprintf("%s %g", c.Place, c.KM)
		}
	}
	return all
}

// The count of a bike, by hand for each row.
func TestRead_distances(t *testing.T) {
	for _, row := range []struct {
		name     string
		enter    func(*book)
		km       float64
		doubtful []string
	}{
		{"nothing", func(*book) {}, 0, nil},
		{"rides add", func(b *book) { b.ride("a", "B", 1, 30); b.ride("b", "B", 2, 12.5) }, 42.5, nil},
		{"the odometer states", func(b *book) { b.odometer("a", "B", 1, 1000); b.odometer("b", "B", 5, 1250) }, 1250, nil},
		{"in any order of entry", func(b *book) { b.odometer("b", "B", 5, 1250); b.odometer("a", "B", 1, 1000) }, 1250, nil},
		{"a ride guessed too long is put right", func(b *book) { b.odometer("a", "B", 1, 1000); b.ride("r", "B", 2, 80); b.odometer("b", "B", 3, 1060) }, 1060, nil},
		{"rides before the first odometer", func(b *book) { b.ride("r", "B", 1, 300); b.odometer("a", "B", 2, 20); b.odometer("b", "B", 3, 50) }, 330, nil},
		{"one low slip", func(b *book) {
			b.odometer("a", "B", 1, 12500)
			b.odometer("b", "B", 2, 1260)
			b.odometer("c", "B", 3, 12700)
		}, 12700, []string{"b"}},
		{"one high slip", func(b *book) {
			b.odometer("a", "B", 1, 1200)
			b.odometer("b", "B", 2, 12300)
			b.odometer("c", "B", 3, 1260)
		}, 1260, []string{"b"}},
		{"a new odometer", func(b *book) { b.odometer("a", "B", 1, 9000); b.odometer("b", "B", 2, 5); b.odometer("c", "B", 9, 105) }, 9100, []string{"b"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := newBook(t)
			b.bike("B", "")
			row.enter(b)
			g := garage.Read(b.state)
			require.Len(t, g.Bikes, 1)
			assert.InDelta(t, row.km, g.Bikes[0].Count.KM, 1e-9)
			want := []string{}
			for _, d := range row.doubtful {
				want = append(want, id(d))
			}
			assert.ElementsMatch(t, want, g.Bikes[0].Count.Doubtful)
		})
	}
}

// Which chain is on the bike, and how far each has run, by hand for each row.
func TestRead_chains(t *testing.T) {
	for _, row := range []struct {
		name  string
		enter func(*book)
		want  map[string]string
	}{
		{"one from new", func(b *book) { b.chain("A", "B", `,"fitted_at_km":100`) }, map[string]string{"A": "on_bike 2900"}},
		{"used when it was put on", func(b *book) { b.chain("A", "B", `,"fitted_at_km":2500,"km_before":700`) }, map[string]string{"A": "on_bike 1200"}},
		{"never put on", func(b *book) { b.chain("A", "B", `,"km_before":40`) }, map[string]string{"A": "resting 40"}},
		{"changed, the old one not logged as off", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":0`)
			b.chain("C", "B", `,"fitted_at_km":2000`)
		}, map[string]string{"A": "resting 2000", "C": "on_bike 1000"}},
		{"changed and retired", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":0,"retired_at":"2026-03-20T08:00:00Z"`)
			b.chain("C", "B", `,"fitted_at_km":2000`)
		}, map[string]string{"A": "retired 2000", "C": "on_bike 1000"}},
		{"retired, none put on", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":500,"retired_at":"2026-03-10T08:00:00Z"`)
		}, map[string]string{"A": "retired 1000"}}, // the odometer showed 1500 on the 10th
		{"a rotation, second turn of the first", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":0`)
			b.chain("C", "B", `,"fitted_at_km":1000`)
			b.put("chains", "A", `{"fitted_at_km":1800,"km_before":1000}`)
		}, map[string]string{"A": "on_bike 2200", "C": "resting 800"}},
		{"put to rest by hand", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":0`)
			b.put("chains", "A", `{"fitted_at_km":null,"km_before":3000}`)
		}, map[string]string{"A": "resting 3000"}},
		{"two helpers at once: the later operation", func(b *book) {
			b.chain("A", "B", `,"fitted_at_km":2000`)
			b.chain("C", "B", `,"fitted_at_km":2000`)
		}, map[string]string{"A": "resting 0", "C": "on_bike 1000"}},
		{"put on beyond what the bike has run", func(b *book) { b.chain("A", "B", `,"fitted_at_km":5000`) }, map[string]string{"A": "on_bike 0"}},
		{"of no bike", func(b *book) { b.chain("A", "none", `,"fitted_at_km":0`) }, map[string]string{}},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := newBook(t)
			b.bike("B", "")
			b.odometer("o1", "B", 10, 1500)
			b.odometer("o2", "B", 25, 3000)
			row.enter(b)
			assert.Equal(t, row.want, chains(garage.Read(b.state)))
		})
	}
}

func stands(r *garage.Round) map[string]string {
	all := map[string]string{}
	for _, s := range r.Stands {
		all[s.Bike.Name] = string(s.State)
	}
	return all
}

func (b *book) check(name, bike string, minute int, state, more string) {
	b.t.Helper()
	b.put("round_checks", name, fmt.Sprintf(`{"round_id":%q,"bike_id":%q,"at":"2026-03-01T08:%02d:00Z","state":%q%s}`, id("R"), id(bike), minute, state, more))
}

func TestRead_round(t *testing.T) {
	b := newBook(t)
	b.bike("one", `,"set":"loaners"`)
	b.bike("two", `,"set":"loaners"`)
	b.bike("three", `,"set":"loaners"`)
	b.bike("mine", "")
	b.put("rounds", "R", `{"name":"Saturday","started_at":"2026-03-01T08:00:00Z","set":"loaners"}`)
	b.check("c1", "one", 1, "cleared", "")
	b.check("c2", "two", 2, "held", `,"reason":"chain past its limit"`)
	round := func() *garage.Round { return garage.Read(b.state).Rounds[0] }
	assert.Equal(t, map[string]string{"one": "cleared", "two": "held", "three": "not_seen"}, stands(round()))

	b.check("c3", "two", 3, "cleared", `,"note":"a new bell"`)
	assert.Equal(t, "held", stands(round())["two"], "cleared without a reading or a reason: it stays held")
	two := round().Stands[2]
	assert.Equal(t, "two", two.Bike.Name)
	assert.Len(t, two.Vain, 1)
	assert.Equal(t, id("c3"), two.Vain[0].ID)
	b.check("c4", "two", 4, "cleared", `,"reason":"new chain fitted","by":"Ada"`)
	two = round().Stands[2]
	assert.Equal(t, id("c2"), two.Hold.ID, "that it was held stays in sight")
	assert.Equal(t, "cleared", stands(round())["two"])
	b.check("c5", "two", 5, "held", "")
	b.check("c6", "two", 5, "cleared", `,"reading_id":"`+id("x")+`"`)
	assert.Equal(t, "held", stands(round())["two"], "at one instant the check that holds counts")
	b.check("c7", "mine", 6, "held", "")
	assert.Equal(t, "held", stands(round())["mine"], "seen although not in the set")
}

// Set, beginning of the tag and care each narrow a round; a bike of which the
// asked for is not known is not in it.
func TestRead_roundOfSomeBikes(t *testing.T) {
	b := newBook(t)
	b.bike("a", `,"set":"loaners","tag":"K-01","care":"gritty"`)
	b.bike("b", `,"set":"loaners","tag":"K-02","care":"usual"`)
	b.bike("c", `,"tag":"L-01","care":"gritty"`)
	b.bike("d", "")
	for _, row := range []struct {
		more string
		want []string
	}{
		{"", []string{"a", "b", "c", "d"}},
		{`,"set":"loaners"`, []string{"a", "b"}},
		{`,"tag_start":"K"`, []string{"a", "b"}},
		{`,"tag_start":"k"`, []string{}},
		{`,"care":"gritty"`, []string{"a", "c"}},
		{`,"set":"loaners","care":"gritty"`, []string{"a"}},
		{`,"set":"loaners","tag_start":"L"`, []string{}},
	} {
		t.Run(row.more, func(t *testing.T) {
			one := newBook(t)
			one.state = record.State{}
			for key, r := range b.state {
				one.state[key] = r
			}
			one.put("rounds", "R", `{"name":"Saturday","started_at":"2026-03-01T08:00:00Z"`+row.more+`}`)
			assert.Equal(t, row.want, names(garage.Read(one.state).Rounds[0].Stands))
		})
	}
}

func names(stands []garage.Stand) []string {
	all := []string{}
	for _, s := range stands {
		all = append(all, s.Bike.Name)
	}
	return all
}

// The request a chain makes is one that the calculation takes, whatever is
// known of the bike, and holds what counts.
func TestChain_ForecastRequest(t *testing.T) {
	b := newBook(t)
	b.bike("B", `,"care":"usual","km_per_week":120`)
	b.odometer("o", "B", 20, 3000)
	b.chain("old", "B", `,"fitted_at_km":0,"retired_at":"2026-03-10T08:00:00Z"`)
	b.chain("new", "B", `,"fitted_at_km":1800`)
	reading := func(name, chain string, km float64, more string) {
		b.put("readings", name, fmt.Sprintf(`{"chain_id":%q,"at":%q,"at_km":%g,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}%s}`, id(chain), at(15), km, more))
	}
	reading("r1", "old", 1700, "")
	reading("r2", "new", 600, "")
	reading("r3", "new", 900, `,"void_reason":"miscounted"`)
	bike := garage.Read(b.state).Bikes[0]
	require.NotNil(t, bike.Fitted)
	assert.JSONEq(t, `{"drive":"derailleur","rear_sprockets":11,"care":"usual","km_per_week":120,"now_km":1200,
		"readings":[{"at_km":600,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}}],
		"earlier_chains":[{"readings":[{"at_km":1700,"reading":{"kind":"rule","pitches":24,"span_mm":305.6}}]}]}`,
		string(bike.Fitted.ForecastRequest()))
	assert.Equal(t, id("r2"), bike.Fitted.LastReading().ID)

	b.put("bikes", "bare", `{"name":"bare","drive":"derailleur"}`)
	b.chain("c", "bare", `,"fitted_at_km":0`)
	b.put("bikes", "hub", `{"name":"hub","drive":"hub","km_per_week":0}`)
	b.chain("d", "hub", `,"fitted_at_km":0,"limit_percent":0.8`)
	for _, bike := range garage.Read(b.state).Bikes {
		_, err := engine.Call("forecast", bike.Fitted.ForecastRequest())
		assert.NoError(t, err, bike.Name)
	}
}

func TestRead_hiddenAndBroken(t *testing.T) {
	b := newBook(t)
	b.bike("B", "")
	b.chain("A", "B", `,"fitted_at_km":0`)
	b.put("care", "w", fmt.Sprintf(`{"chain_id":%q,"at":%q,"did":["wiped"]}`, id("A"), at(2)))
	assert.Len(t, garage.Read(b.state).Bikes[0].Chains[0].Care, 1)
	op, err := record.ReadOp(fmt.Appendf(nil, `{"op_id":%q,"hlc":%q,"device_id":%q,"table":"bikes","record_id":%q,"remove":true}`,
		record.UUIDv7(99, [10]byte{}), record.Clock("").Next(1772352009999), id("dev"), id("B")))
	require.NoError(t, err)
	b.state.Apply(op)
	assert.Empty(t, garage.Read(b.state).Bikes)
	assert.Empty(t, garage.Read(record.State{}).Rounds)
}

// The phone's door: rows and unsent operations in, meaning out.
func TestMean(t *testing.T) {
	b := newBook(t)
	b.bike("B", "")
	b.odometer("o", "B", 3, 500)
	b.put("rounds", "R", `{"name":"Saturday","started_at":"2026-03-01T08:00:00Z"}`)
	request := &garage.Request{}
	for _, r := range b.state.Sorted() {
		request.Rows = append(request.Rows, r.Row())
	}
	request.Ops = append(request.Ops, fmt.Appendf(nil, `{"op_id":%q,"hlc":%q,"device_id":%q,"table":"chains","record_id":%q,"put":{"bike_id":%q,"fitted_at_km":100}}`,
		record.UUIDv7(99, [10]byte{}), record.Clock("").Next(1772352000000), id("dev"), id("A"), id("B")))
	answer, err := garage.Mean(request)
	require.NoError(t, err)
	text, err := wire.Write(answer)
	require.NoError(t, err)
	assert.JSONEq(t, fmt.Sprintf(`{"bikes":[{"bike_id":%[1]q,"km":500,"doubtful_distance_ids":[],"fitted_chain_id":%[2]q,"chains":[
		{"chain_id":%[2]q,"place":"on_bike","km":400,"reading_ids":[],"care_ids":[],
		"forecast_request":{"drive":"derailleur","rear_sprockets":11,"readings":[],"now_km":400,"earlier_chains":[]},
		"care_request":{"care":"usual","lubricant":"oil"}}]}],
		"rounds":[{"round_id":%[3]q,"bikes":[{"bike_id":%[1]q,"state":"not_seen","vain_check_ids":[]}]}]}`, id("B"), id("A"), id("R")), string(text))
	_, err = garage.Mean(&garage.Request{Rows: [][]byte{[]byte(`{}`)}})
	assert.Error(t, err)
}
