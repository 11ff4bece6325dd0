package garage_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tautspan/internal/engine"
	"tautspan/internal/garage"
)

func (b *book) care(name, chain string, day int, did, more string) {
	b.t.Helper()
	b.put("care", name, fmt.Sprintf(`{"chain_id":%q,"at":%q,"did":%s%s}`, id(chain), at(day), did, more))
}

// The request a chain makes, by hand for each row. The bike has gone 1500 km by
// the 10th and 3000 km by the 25th; the chain was put on at 1000 km.
func TestChain_CareRequest(t *testing.T) {
	for _, row := range []struct {
		name  string
		enter func(*book)
		want  string
	}{
		{"nothing known", func(*book) {}, `{"care":"gritty","lubricant":"oil"}`},
		{"told with its distance", func(b *book) {
			b.care("a", "A", 9, `["wiped","lubricated"]`, `,"at_km":1900,"lubricant":"hot_wax"`)
		}, `{"care":"gritty","lubricant":"hot_wax","km_since_wiped":100,"km_since_lubricated":100}`},
		{"told with its day only", func(b *book) { b.care("a", "A", 12, `["cleaned"]`, ``) }, `{"care":"gritty","lubricant":"oil","km_since_cleaned":1500}`},
		{"before it was put on", func(b *book) { b.care("a", "A", 2, `["cleaned"]`, ``) }, `{"care":"gritty","lubricant":"oil","km_since_cleaned":2000}`},
		{"the last of two", func(b *book) {
			b.care("a", "A", 12, `["wiped"]`, `,"at_km":500`)
			b.care("b", "A", 13, `["wiped"]`, `,"at_km":1990`)
		}, `{"care":"gritty","lubricant":"oil","km_since_wiped":10}`},
		{"found dirty", func(b *book) { b.care("a", "A", 12, `["inspected"]`, `,"dirty":true`) }, `{"care":"gritty","lubricant":"oil","dirty":true}`},
		{"dirty, then wiped without a look", func(b *book) {
			b.care("a", "A", 12, `["inspected"]`, `,"dirty":true`)
			b.care("b", "A", 13, `["wiped"]`, `,"at_km":2000`)
		}, `{"care":"gritty","lubricant":"oil","km_since_wiped":0,"dirty":true}`},
		{"dirty, then cleaned", func(b *book) { b.care("a", "A", 12, `["cleaned"]`, `,"dirty":true,"at_km":2000`) }, `{"care":"gritty","lubricant":"oil","km_since_cleaned":0}`},
		{"ridden wet and squeaking", func(b *book) { b.care("a", "A", 12, `["inspected"]`, `,"ridden_wet":true,"sounds_dry":true`) }, `{"care":"gritty","lubricant":"oil","ridden_wet":true,"sounds_dry":true}`},
		{"ridden wet, then only wiped", func(b *book) {
			b.care("a", "A", 12, `["inspected"]`, `,"ridden_wet":true`)
			b.care("b", "A", 13, `["wiped"]`, `,"at_km":2000`)
		}, `{"care":"gritty","lubricant":"oil","km_since_wiped":0,"ridden_wet":true}`},
		{"ridden wet and squeaking, then lubricated", func(b *book) {
			b.care("a", "A", 12, `["inspected"]`, `,"ridden_wet":true`)
			b.care("b", "A", 13, `["lubricated"]`, `,"at_km":2000,"sounds_dry":true`)
		}, `{"care":"gritty","lubricant":"oil","km_since_lubricated":0}`},
		{"squeaked, then did not", func(b *book) {
			b.care("a", "A", 12, `["inspected"]`, `,"sounds_dry":true`)
			b.care("b", "A", 13, `["inspected"]`, `,"sounds_dry":false`)
		}, `{"care":"gritty","lubricant":"oil"}`},
		{"on what nobody knows", func(b *book) {
			b.care("a", "A", 11, `["lubricated"]`, `,"at_km":2000,"lubricant":"hot_wax"`)
			b.care("b", "A", 12, `["lubricated"]`, `,"at_km":2000,"lubricant":"what was there"`)
		}, `{"care":"gritty","lubricant":"oil","km_since_lubricated":0}`},
		{"beyond what it has run", func(b *book) { b.care("a", "A", 12, `["wiped"]`, `,"at_km":99999`) }, `{"care":"gritty","lubricant":"oil","km_since_wiped":0}`},
	} {
		t.Run(row.name, func(t *testing.T) {
			b := newBook(t)
			b.bike("B", `,"care":"gritty"`)
			b.odometer("o1", "B", 10, 1500)
			b.odometer("o2", "B", 25, 3000)
			b.chain("A", "B", `,"fitted_at_km":1000`)
			row.enter(b)
			request := garage.Read(b.state).Bikes[0].Fitted.CareRequest()
			assert.JSONEq(t, row.want, string(request))
			_, err := engine.Call("care", request)
			assert.NoError(t, err)
		})
	}
}

// What was never noted of a chain known from new was done when it was made.
func TestChain_CareRequest_fromNew(t *testing.T) {
	b := newBook(t)
	b.bike("B", "")
	b.odometer("o", "B", 20, 120)
	b.chain("A", "B", `,"fitted_at_km":0,"km_before":0`)
	request := garage.Read(b.state).Bikes[0].Fitted.CareRequest()
	assert.JSONEq(t, `{"care":"usual","lubricant":"factory_grease","km_since_wiped":120,"km_since_cleaned":120,"km_since_lubricated":120}`, string(request))
	_, err := engine.Call("care", request)
	require.NoError(t, err)
}

// Off the bike only an entry with its distance tells how far it has run since.
func TestChain_CareRequest_resting(t *testing.T) {
	b := newBook(t)
	b.bike("B", `,"km_per_week":70`)
	b.odometer("o", "B", 20, 5000)
	b.chain("A", "B", `,"km_before":900`)
	b.care("a", "A", 12, `["lubricated","cleaned"]`, `,"lubricant":"oil"`)
	b.care("b", "A", 13, `["wiped"]`, `,"at_km":850`)
	request := garage.Read(b.state).Bikes[0].Chains[0].CareRequest()
	assert.JSONEq(t, `{"care":"usual","lubricant":"oil","km_since_wiped":50,"km_per_week":70}`, string(request))
	_, err := engine.Call("care", request)
	require.NoError(t, err)
}
