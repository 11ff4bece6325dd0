package record

import (
	"tautspan/internal/chain"
	"tautspan/internal/wire"
)

// Round is a record of table rounds: a walk through the bikes that meet all of
// Set, TagStart and Care that are given; every bike without any.
type Round struct {
	Name       string
	StartedAt  string
	FinishedAt *string
	Set        *string
	TagStart   *string
	Care       chain.Care
}

// Fields declares the round's JSON.
func (r *Round) Fields(o *wire.Object) {
	o.Text("name", &r.Name).Length(1, 80).Doc("what people call it", "")
	at(o, "started_at", &r.StartedAt).Doc("when it began", "")
	o.OptionalText("finished_at", &r.FinishedAt).Length(1, 40).Doc("when it ended", "")
	o.OptionalText("set", &r.Set).Length(1, 80).Doc("only bikes of this group", "")
	o.OptionalText("tag_start", &r.TagStart).Length(1, 80).Doc("only bikes whose tag code begins so", "")
	wire.Choice(o, "care", &r.Care, chain.Cares()...).Doc("only bikes whose drive lives so", "")
}

func (r *Round) check() error {
	if err := checkInstant("started_at", &r.StartedAt); err != nil {
		return err
	}
	return checkInstant("finished_at", r.FinishedAt)
}

// BikeState is how a bike stands in a round.
type BikeState string

// The states. NotSeen is never recorded: it is the absence of a record.
const (
	Cleared BikeState = "cleared"
	Held    BikeState = "held"
	NotSeen BikeState = "not_seen"
)

// RoundCheck is a record of table round_checks: one bike seen in a round.
type RoundCheck struct {
	RoundID, BikeID string
	At              string
	State           BikeState
	ReadingID       *string
	Reason, By      *string
	Note            *string
}

// Fields declares the check's JSON.
func (c *RoundCheck) Fields(o *wire.Object) {
	id(o, "round_id", &c.RoundID).Doc("the round", "")
	id(o, "bike_id", &c.BikeID).Doc("the bike", "")
	at(o, "at", &c.At).Doc("when it was seen", "")
	wire.Choice(o, "state", &c.State, Cleared, Held).Doc("whether it may go out", "")
	o.OptionalText("reading_id", &c.ReadingID).Length(1, 40).Doc("the reading it rests on", "")
	note(o, "reason", &c.Reason).Doc("why it is held, or why it is cleared without a reading", "")
	o.OptionalText("by", &c.By).Length(1, 80).Doc("who saw it", "")
	note(o, "note", &c.Note).Doc("whatever else there is to say; never clears a held bike", "")
}

func (c *RoundCheck) check() error {
	for _, f := range []struct{ name, id string }{{"round_id", c.RoundID}, {"bike_id", c.BikeID}} {
		if err := checkID(f.name, f.id); err != nil {
			return err
		}
	}
	if err := checkOptionalID("reading_id", c.ReadingID); err != nil {
		return err
	}
	return checkInstant("at", &c.At)
}
