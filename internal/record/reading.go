package record

import (
	"tautspan/internal/chain"
	"tautspan/internal/fault"
	"tautspan/internal/wear"
	"tautspan/internal/wire"
)

// Reading is a record of table readings. It is never changed, only voided.
type Reading struct {
	ChainID      string
	At           string
	AtKM         float64 // since the chain was new
	Reading      *wear.Reading
	By, Note     *string
	InstrumentID *string
	VoidReason   *string
}

// Fields declares the reading's JSON.
func (r *Reading) Fields(o *wire.Object) {
	id(o, "chain_id", &r.ChainID).Doc("the chain it was taken on", "")
	at(o, "at", &r.At).Doc("when it was taken", "")
	o.Number("at_km", &r.AtKM).Between(0, mostChainKM).Doc("what the chain had run since it was new", "km")
	wire.Optional(o, "reading", &r.Reading).Doc("what was measured, as wear takes it", "")
	o.OptionalText("by", &r.By).Length(1, 80).Doc("who took it", "")
	note(o, "note", &r.Note)
	o.OptionalText("instrument_id", &r.InstrumentID).Length(1, 40).Doc("with which instrument", "")
	note(o, "void_reason", &r.VoidReason).Doc("why it does not count; the reading itself stays", "")
}

func (r *Reading) check() error {
	if err := checkID("chain_id", r.ChainID); err != nil {
		return err
	}
	if err := checkOptionalID("instrument_id", r.InstrumentID); err != nil {
		return err
	}
	if err := checkInstant("at", &r.At); err != nil {
		return err
	}
	if r.Reading == nil {
		return nil
	}
	// Whatever the bike, a reading must be one that the engine can judge.
	_, err := wear.Calculate(&wear.Request{Drive: chain.Single, PitchMM: chain.PitchMM, Reading: *r.Reading})
	return err
}

// Instrument is a record of table instruments.
type Instrument struct {
	Name         string
	Kind         wear.Kind
	ResolutionMM *float64
	Steps        []float64
	BearsOn      wear.Bearing
	BiasPercent  *float64
}

// Fields declares the instrument's JSON.
func (i *Instrument) Fields(o *wire.Object) {
	o.Text("name", &i.Name).Length(1, 80).Doc("what people call it", "")
	wire.Choice(o, "kind", &i.Kind, wear.Rule, wear.Compare, wear.Gauge, wear.Caliper, wear.Screen, wear.Photo).Doc("how it measures", "")
	o.OptionalNumber("resolution_mm", &i.ResolutionMM).Between(0.001, 10).Doc("smallest step that can be read", "mm")
	o.Numbers("steps", &i.Steps).Between(0.05, 3).Length(1, 12).Doc("elongation each step of a gauge stands for", "percent")
	wire.Choice(o, "bears_on", &i.BearsOn, wear.OpposedRollers, wear.SameSide).Doc("what a gauge bears on", "")
	o.OptionalNumber("bias_percent", &i.BiasPercent).Between(-1, 1).Doc("how much too long it reads", "percent")
}

func (i *Instrument) check() error { return nil }

const (
	mostKM      = 1e6    // on a bike's own count
	mostChainKM = 500000 // of one chain, as the forecast takes it
)

func id(o *wire.Object, name string, p *string) *wire.Field { return o.Text(name, p).Length(1, 40) }
func at(o *wire.Object, name string, p *string) *wire.Field { return o.Text(name, p).Length(1, 40) }

func note(o *wire.Object, name string, p **string) *wire.Field {
	return o.OptionalText(name, p).Length(1, 2000).Doc("in one's own words", "")
}

// checkID refuses a text that is no UUID; an absent one is not this check's matter.
func checkID(field, text string) error {
	if text == "" || ValidUUID(text) {
		return nil
	}
	return fault.New(fault.Unreadable, field, "this is no UUID in lower case")
}

func checkOptionalID(field string, text *string) error {
	if text == nil {
		return nil
	}
	return checkID(field, *text)
}

// checkInstant refuses a text that is no date and time.
func checkInstant(field string, text *string) error {
	if text == nil || *text == "" {
		return nil
	}
	if _, ok := ParseInstant(*text); !ok {
		return fault.New(fault.Unreadable, field, "this is no date and time as RFC 3339 writes it, such as 2026-03-01T08:00:00Z, from 1970 on")
	}
	return nil
}
