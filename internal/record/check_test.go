package record_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/fault"
	"tautspan/internal/record"
	"tautspan/internal/wire"
)

const reading = `{"kind":"rule","pitches":24,"span_mm":305.6}`

// whole gives every table a first put with every field it has.
var whole = map[string]string{
	"bikes": `{"name":"Loaner 4","drive":"derailleur","rear_sprockets":10,"chainrings":[50,34],"sprockets":[11,13,15],"chainstay_mm":415,
		"longest_chainstay_mm":420,"derailleur":{"max_sprocket":34,"capacity_teeth":39},"adjust_mm":[0,0],"etrto":"28-622","care":"usual",
		"km_per_week":80,"bears":["e_drive","child_seat","load"],"tag":"L4","set":"loaners","note":"squeaks"}`,
	"chains": `{"bike_id":"` + bike + `","name":"A","class":"derailleur_10","pitches":110,"limit_percent":0.75,"fitted_at_km":100,"km_before":0,
		"retired_at":"2026-03-01T08:00:00Z","closure":"joining_link","note":"n"}`,
	"readings": `{"chain_id":"` + bike + `","at":"2026-03-01T08:00:00+01:00","at_km":1200,"reading":` + reading + `,"by":"Ada","note":"n",
		"instrument_id":"` + bike + `","void_reason":"miscounted"}`,
	"distances":   `{"bike_id":"` + bike + `","at":"2026-03-01T08:00:00Z","odometer_km":1234.5,"source":"typed","note":"n"}`,
	"care":        `{"chain_id":"` + bike + `","at":"2026-03-01T08:00:00Z","did":["cleaned","lubricated"],"at_km":1200,"dirty":true,"ridden_wet":true,"sounds_dry":false,"lubricant":"wax","note":"n"}`,
	"instruments": `{"name":"steel rule","kind":"rule","resolution_mm":0.5,"steps":[0.5,0.75],"bears_on":"same_side","bias_percent":0.01}`,
	"rounds": `{"name":"Saturday","started_at":"2026-03-01T08:00:00Z","finished_at":"2026-03-01T09:00:00Z","set":"loaners",
		"tag_start":"L","care":"usual"}`,
	"round_checks": `{"round_id":"` + bike + `","bike_id":"` + bike + `","at":"2026-03-01T08:00:00Z","state":"held","reading_id":"` + bike + `",
		"reason":"brake","by":"Ada","note":"n"}`,
	"prices": `{"currency":"EUR","chain":2500,"sprockets":4000,"chainring":3000}`,
}

func checked(t testing.TB, table, body string, role record.Role, prior *record.Prior) error {
	t.Helper()
	author := record.Author{Device: deviceA, Role: role}
	o, err := record.ReadOp(opText(1, clockOf(0), deviceA, table, bike, body))
	if err != nil {
		return err
	}
	if err := o.Check(author, record.Clock(clockOf(0)).MS()); err != nil {
		return err
	}
	return o.Admit(author, prior)
}

// The contract's last table, field by field, with the fields added since (bears,
// at_km, dirty, ridden_wet and sounds_dry of care, tag_start and care of rounds, note of round_checks):
// what the tables declare is what is listed, and
// a record with all of it is taken.
func TestTables_asTheContractLists(t *testing.T) {
	for _, table := range record.Tables() {
		members, err := wire.Members([]byte(whole[table.Name]))
		require.NoError(t, err)
		names := []string{}
		for _, m := range members {
			names = append(names, m.Name)
		}
		if table.Name == "distances" {
			names = append(names, "add_km") // never together with odometer_km
		}
		assert.ElementsMatch(t, names, wire.Names(table.New()), table.Name)
		assert.NoError(t, checked(t, table.Name, `,"put":`+whole[table.Name], record.Owner, nil), table.Name)
	}
}

func TestOp_Admit_firstPutNeedsItsFields(t *testing.T) {
	for _, table := range record.Tables() {
		for _, name := range append(table.First, table.FirstOneOf...) {
			err := checked(t, table.Name, `,"put":`+without(t, whole[table.Name], name), record.Owner, nil)
			if name == "add_km" {
				assert.NoError(t, err)
				continue
			}
			requireCode(t, err, fault.MissingField, "put."+name)
		}
	}
}

func without(t *testing.T, object, name string) string {
	members, err := wire.Members([]byte(object))
	require.NoError(t, err)
	parts := []string{}
	for _, m := range members {
		if m.Name != name {
			parts = append(parts, fmt.Sprintf("%q:%s", m.Name, m.Value))
		}
	}
	return "{" + strings.Join(parts, ",") + "}"
}

func requireCode(t *testing.T, err error, code fault.Code, field string) {
	t.Helper()
	var f *fault.Error
	require.True(t, errors.As(err, &f), "want %s at %s, got %v", code, field, err)
	assert.Equal(t, code, f.Code, f.Message)
	assert.Equal(t, field, f.Field)
	assert.Greater(t, len(f.Message), 10)
}

func TestOp_bad(t *testing.T) {
	mine, other := &record.Prior{CreatedBy: deviceA}, &record.Prior{CreatedBy: deviceB}
	for _, row := range []struct {
		name, table, body string
		role              record.Role
		prior             *record.Prior
		code              fault.Code
		field             string
	}{
		{"unknown table", "wheels", `,"put":{"name":"a"}`, record.Owner, nil, fault.UnknownName, "table"},
		{"unknown field", "bikes", `,"put":{"nmae":"a"}`, record.Owner, mine, fault.UnknownField, "put.nmae"},
		{"unknown field cleared", "bikes", `,"put":{"nmae":null}`, record.Owner, mine, fault.UnknownField, "put.nmae"},
		{"neither put nor remove", "bikes", ``, record.Owner, mine, fault.MissingField, "put"},
		{"both", "bikes", `,"put":{"name":"a"},"remove":true`, record.Owner, mine, fault.Contradiction, "remove"},
		{"remove false", "bikes", `,"remove":false`, record.Owner, mine, fault.NotAllowed, "remove"},
		{"empty put", "bikes", `,"put":{}`, record.Owner, mine, fault.MissingField, "put"},
		{"put is a list", "bikes", `,"put":[]`, record.Owner, mine, fault.WrongType, "put"},
		{"unknown part of an operation", "bikes", `,"put":{"name":"a"},"extra":1`, record.Owner, mine, fault.UnknownField, "extra"},
		{"required field cleared", "bikes", `,"put":{"name":null}`, record.Owner, mine, fault.MissingField, "put.name"},
		{"empty name", "bikes", `,"put":{"name":""}`, record.Owner, mine, fault.OutOfRange, "put.name"},
		{"name of 81 characters", "bikes", `,"put":{"name":"` + strings.Repeat("ü", 81) + `"}`, record.Owner, mine, fault.OutOfRange, "put.name"},
		{"larger than 16 KiB", "bikes", `,"put":{"note":"` + strings.Repeat("n", 16<<10) + `"}`, record.Owner, mine, fault.TooLarge, "put"},
		{"negative teeth", "bikes", `,"put":{"chainrings":[-1]}`, record.Owner, mine, fault.OutOfRange, "put.chainrings[0]"},
		{"number as text", "bikes", `,"put":{"rear_sprockets":"10"}`, record.Owner, mine, fault.WrongType, "put.rear_sprockets"},
		{"not a day", "rounds", `,"put":{"started_at":"2026-02-30T08:00:00Z"}`, record.Owner, mine, fault.Unreadable, "put.started_at"},
		{"unknown burden", "bikes", `,"put":{"bears":["piano"]}`, record.Owner, mine, fault.NotAllowed, "put.bears[0]"},
		{"round of an unknown care", "rounds", `,"put":{"care":"rusty"}`, record.Owner, mine, fault.NotAllowed, "put.care"},
		{"not an id", "chains", `,"put":{"bike_id":"7"}`, record.Owner, mine, fault.Unreadable, "put.bike_id"},
		{"odometer and ride at once", "distances", `,"put":{"odometer_km":1,"add_km":1}`, record.Owner, mine, fault.Contradiction, "put.add_km"},
		{"gauge that contradicts itself", "readings", `,"put":{"chain_id":"` + bike + `","at":"2026-03-01T08:00:00Z","at_km":1,"reading":{"kind":"gauge",
			"bears_on":"same_side","steps":[{"percent":0.5,"drops":false},{"percent":0.75,"drops":true}]}}`, record.Owner, nil, fault.Contradiction, "put.reading.steps"},
		{"small letters for a currency", "prices", `,"put":{"currency":"eur"}`, record.Owner, nil, fault.NotAllowed, "put.currency"},
		{"changed reading", "readings", `,"put":{"at_km":5}`, record.Owner, mine, fault.NotAllowed, "put.at_km"},
		{"removed reading", "readings", `,"remove":true`, record.Owner, mine, fault.NotAllowed, "remove"},
		{"reading made valid again", "readings", `,"put":{"void_reason":null}`, record.Owner, mine, fault.MissingField, "put.void_reason"},
		{"remove of nothing", "bikes", `,"remove":true`, record.Owner, nil, fault.NotFound, "record_id"},
		{"viewer writes", "care", `,"put":` + whole["care"], record.Viewer, nil, fault.Denied, "table"},
		{"checker edits a bike", "bikes", `,"put":{"name":"a"}`, record.Checker, mine, fault.Denied, "table"},
		{"checker changes another's", "care", `,"put":{"note":"a"}`, record.Checker, other, fault.Denied, "record_id"},
		{"checker removes another's", "care", `,"remove":true`, record.Checker, other, fault.Denied, "record_id"},
		{"no role", "care", `,"put":` + whole["care"], "", nil, fault.Denied, "table"},
	} {
		t.Run(row.name, func(t *testing.T) {
			requireCode(t, checked(t, row.table, row.body, row.role, row.prior), row.code, row.field)
		})
	}
}

func TestOp_good(t *testing.T) {
	mine, other := &record.Prior{CreatedBy: deviceA}, &record.Prior{CreatedBy: deviceB}
	for _, row := range []struct {
		name, table, body string
		role              record.Role
		prior             *record.Prior
	}{
		{"one field later", "bikes", `,"put":{"note":"a"}`, record.Leader, other},
		{"a field cleared", "chains", `,"put":{"retired_at":null}`, record.Leader, other},
		{"void by its author", "readings", `,"put":{"void_reason":"slipped"}`, record.Checker, mine},
		{"checker corrects their own", "care", `,"put":{"note":"a"}`, record.Checker, mine},
		{"checker takes back their own", "round_checks", `,"remove":true`, record.Checker, mine},
		{"leader corrects another's", "care", `,"remove":true`, record.Leader, other},
		{"name of 80 characters", "bikes", `,"put":{"name":"` + strings.Repeat("ü", 80) + `"}`, record.Owner, mine},
	} {
		t.Run(row.name, func(t *testing.T) {
			assert.NoError(t, checked(t, row.table, row.body, row.role, row.prior))
		})
	}
}

func TestOp_Check_clockAndDevice(t *testing.T) {
	o, err := record.ReadOp(opText(1, "2026-03-02T08:00:00.001Z-0000", deviceA, "bikes", bike, `,"remove":true`))
	require.NoError(t, err)
	day := record.Clock("2026-03-01T08:00:00.000Z-0000").MS()
	requireCode(t, o.Check(record.Author{Device: deviceA, Role: record.Owner}, day), fault.ClockAhead, "hlc")
	assert.NoError(t, o.Check(record.Author{Device: deviceA, Role: record.Owner}, day+1))
	requireCode(t, o.Check(record.Author{Device: deviceB, Role: record.Checker}, day+1), fault.Denied, "device_id")
	assert.NoError(t, o.Check(record.Author{Device: deviceB, Role: record.Leader}, day+1), "leaders tell again what others made")
}

func TestReadOp_namesWhatItRefuses(t *testing.T) {
	text := string(opText(1, "yesterday", deviceA, "bikes", bike, `,"remove":true`))
	o, err := record.ReadOp([]byte(text))
	requireCode(t, err, fault.Unreadable, "hlc")
	assert.Equal(t, "017f22e2-79b0-7cc3-98c4-000000000001", o.ID)
	o, err = record.ReadOp([]byte(strings.Replace(text, `"hlc"`, `"hcl"`, 1)))
	requireCode(t, err, fault.UnknownField, "hcl")
	assert.Equal(t, "017f22e2-79b0-7cc3-98c4-000000000001", o.ID)
	o, err = record.ReadOp([]byte(strings.Replace(text, `"remove":true`, `"put":{"chainstay_mm":1e999}`, 1)))
	requireCode(t, err, fault.OutOfRange, "")
	assert.Equal(t, "017f22e2-79b0-7cc3-98c4-000000000001", o.ID)
	o, err = record.ReadOp([]byte(`{"op_id":7}`))
	requireCode(t, err, fault.WrongType, "op_id")
	assert.Empty(t, o.ID)
}

func TestNewOp(t *testing.T) {
	ask := record.Making{
		NowMS: 1772352000000, Random: "0cc318c4dc0c0c07398f", Role: record.Owner, Device: deviceA,
		Table: "bikes", Record: bike, Put: []byte(`{"name":"Loaner 4", "drive":"hub"}`),
	}
	answer, err := record.NewOp(&ask)
	require.NoError(t, err)
	assert.Equal(t, "2026-03-01T08:00:00.000Z-0000", string(answer.Clock))
	again, err := record.ReadOp(answer.Text)
	require.NoError(t, err)
	assert.Equal(t, answer, again)
	ask.Last = answer.Clock
	answer, err = record.NewOp(&ask)
	require.NoError(t, err)
	assert.Equal(t, "2026-03-01T08:00:00.000Z-0001", string(answer.Clock))

	bad := ask
	bad.Put = []byte(`{"name":"a"}`)
	_, err = record.NewOp(&bad)
	requireCode(t, err, fault.MissingField, "put.drive")
	bad.Known = true
	_, err = record.NewOp(&bad)
	assert.NoError(t, err)
	bad.Random = "no"
	_, err = record.NewOp(&bad)
	requireCode(t, err, fault.Unreadable, "random")
	bad = ask
	bad.Last = "noon"
	_, err = record.NewOp(&bad)
	requireCode(t, err, fault.Unreadable, "last_hlc")
}
