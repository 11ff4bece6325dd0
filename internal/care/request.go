package care

import (
	"tautspan/internal/chain"
	"tautspan/internal/wire"
	"tautspan/internal/words"
)

// Lubricant is what the chain runs on.
type Lubricant string

// The lubricants.
const (
	Oil           Lubricant = "oil"
	LiquidWax     Lubricant = "liquid_wax"
	HotWax        Lubricant = "hot_wax"
	FactoryGrease Lubricant = "factory_grease"
)

// Request is what is known of a chain's care. Distances are km since the task
// was last done; nil means not known.
type Request struct {
	Care              chain.Care
	Lubricant         Lubricant
	KMSinceWiped      *float64
	KMSinceCleaned    *float64
	KMSinceLubricated *float64
	RiddenWet         bool
	Dirty             *bool
	SoundsDry         bool
	KMPerWeek         *float64
}

// Fields declares the request's JSON.
func (r *Request) Fields(o *wire.Object) {
	wire.Choice(o, "care", &r.Care, chain.Cares()...).Required().Doc("how the chain lives", "")
	wire.Choice(o, "lubricant", &r.Lubricant, Oil, LiquidWax, HotWax, FactoryGrease).Required().Doc("what the chain runs on", "")
	since(o, "km_since_wiped", &r.KMSinceWiped)
	since(o, "km_since_cleaned", &r.KMSinceCleaned)
	since(o, "km_since_lubricated", &r.KMSinceLubricated)
	o.Boolean("ridden_wet", &r.RiddenWet).Default("false").Doc("rain, wet road or washing since it was last lubricated", "")
	o.OptionalBoolean("dirty", &r.Dirty).Doc("black, gritty or caked; absent when nobody looked", "")
	o.Boolean("sounds_dry", &r.SoundsDry).Default("false").Doc("it squeaks or rattles", "")
	o.OptionalNumber("km_per_week", &r.KMPerWeek).Between(0.1, 5000).Doc("usual distance, for days beside kilometres", "km")
}

func since(o *wire.Object, name string, p **float64) {
	o.OptionalNumber(name, p).Between(0, 100000).Doc("distance since, absent when not known", "km")
}

// Task is one of the three things done to a chain.
type Task string

// The tasks.
const (
	Wipe      Task = "wipe"
	Clean     Task = "clean"
	Lubricate Task = "lubricate"
)

// State says whether a task is due.
type State string

// The states.
const (
	NotDue  State = "not_due"
	Due     State = "due"
	Overdue State = "overdue"
)

// Plan is one task with when and why. Distances are km from now.
type Plan struct {
	Task       Task
	State      State
	DueInKM    float64
	DueInDays  *float64
	IntervalKM *[2]float64
	Reasons    []words.Note
}

// Fields declares the plan's JSON.
func (p *Plan) Fields(o *wire.Object) {
	wire.Choice(o, "task", &p.Task, Wipe, Clean, Lubricate).Required().Doc("what is to be done", "")
	wire.Choice(o, "state", &p.State, NotDue, Due, Overdue).Required().Doc("due from the first end of the interval, overdue from the second", "")
	o.Number("due_in_km", &p.DueInKM).Required().Doc("distance from now, 0 when due", "km")
	o.OptionalNumber("due_in_days", &p.DueInDays).OrNull().Doc("null without km_per_week", "days")
	o.Pair("interval_km", &p.IntervalKM).Required().Doc("due from the first, overdue from the second", "km")
	o.Notes("reasons", "reason", &p.Reasons)
}

// Response is what to do now, what comes next, and why.
type Response struct {
	DoNow      []Task
	NextTask   Task
	NextInKM   float64
	NextInDays *float64
	Tasks      []Plan
	Reasons    []words.Note
	Steps      []words.Note
	Cautions   []words.Note
}

// Fields declares the response's JSON.
func (r *Response) Fields(o *wire.Object) {
	wire.Choices(o, "do_now", &r.DoNow, Wipe, Clean, Lubricate).Required().Doc("what is due, in the order to do it", "")
	wire.Choice(o, "next_task", &r.NextTask, Wipe, Clean, Lubricate).Required().Doc("what comes first", "")
	o.Number("next_in_km", &r.NextInKM).Required().Doc("distance from now, 0 when due", "km")
	o.OptionalNumber("next_in_days", &r.NextInDays).OrNull().Doc("null without km_per_week", "days")
	wire.List(o, "tasks", &r.Tasks).Required().Doc("wipe, clean and lubricate", "")
	o.Notes("reasons", "reason", &r.Reasons)
	o.Notes("steps", "step", &r.Steps)
	o.Notes("cautions", "caution", &r.Cautions)
}
