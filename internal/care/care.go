package care

import (
	"math"

	"tautspan/internal/chain"
	"tautspan/internal/words"
)

// Calculate returns when to wipe, clean and lubricate, and in which order. It
// takes any request that wire.Read accepts and returns no error.
func Calculate(r *Request) (*Response, error) {
	wipe, clean := r.wipe(), r.clean()
	lubricate := r.lubricate(clean.State != NotDue)
	answer := &Response{Tasks: []Plan{wipe, clean, lubricate}, DoNow: []Task{}}
	answer.order()
	for i := range answer.Tasks {
		answer.Tasks[i].DueInDays = r.days(answer.Tasks[i].DueInKM)
	}
	answer.NextInDays = r.days(answer.NextInKM)
	answer.explain(r)
	return answer, nil
}

func (r *Request) days(km float64) *float64 {
	if r.KMPerWeek == nil {
		return nil
	}
	days := 7 * km / *r.KMPerWeek
	return &days
}

// wet reports whether rain reached the chain; a full case keeps it out.
func (r *Request) wet() bool { return r.RiddenWet && r.Care != chain.Enclosed }

// wipe plans the wiping, which cleaning and lubricating include.
func (r *Request) wipe() Plan {
	p := newPlan(Wipe, wipeEvery[r.Care], least(r.KMSinceWiped, r.KMSinceCleaned, r.KMSinceLubricated))
	if r.wet() {
		p.dueNow("care_wet_wipe")
	}
	return p
}

// clean plans the cleaning. A chain that looks clean may go to the end of the
// interval, or for one interval when its last cleaning is not known.
func (r *Request) clean() Plan {
	every := cleanEvery[r.Care]
	looksClean := r.Dirty != nil && !*r.Dirty
	since := r.KMSinceCleaned
	switch {
	case looksClean && since == nil:
		since = new(float64)
	case looksClean:
		every[0] = every[1]
	}
	p := newPlan(Clean, every, since)
	if r.Dirty != nil && *r.Dirty {
		p.dueNow("care_dirty")
	}
	if looksClean {
		p.Reasons = append(p.Reasons, words.N("care_looks_clean"))
	}
	return p
}

// lubricate plans the lubricating, which follows every cleaning.
func (r *Request) lubricate(cleanFirst bool) Plan {
	p := newPlan(Lubricate, lubricateEvery(r.Lubricant, r.Care), r.KMSinceLubricated)
	if r.KMSinceCleaned != nil && (r.KMSinceLubricated == nil || *r.KMSinceCleaned < *r.KMSinceLubricated) {
		p.dueNow("care_stripped")
	}
	if r.wet() {
		p.dueNow("care_wet_lubricate")
	}
	if r.SoundsDry {
		p.dueNow("care_sounds_dry")
	}
	if cleanFirst {
		p.dueNow("care_after_cleaning")
	}
	return p
}

// least returns the smallest of the known distances, nil when none is.
func least(distances ...*float64) *float64 {
	var smallest *float64
	for _, d := range distances {
		if d != nil && (smallest == nil || *d < *smallest) {
			smallest = d
		}
	}
	return smallest
}

// newPlan plans a task by distance alone; since is nil when not known, which
// makes it due.
func newPlan(task Task, every interval, since *float64) Plan {
	p := Plan{Task: task, State: NotDue, IntervalKM: (*[2]float64)(&every)}
	if since == nil {
		p.dueNow("care_unknown")
		return p
	}
	p.DueInKM = math.Max(0, every[0]-*since)
	code := "care_by_distance"
	switch {
	case *since >= every[1]:
		p.State, code = Overdue, "care_overdue"
	case *since >= every[0]:
		p.State, code = Due, "care_due"
	}
	p.Reasons = append(p.Reasons, words.N(code, words.V("km", *since, 0), words.V("from", every[0], 0), words.V("to", every[1], 0)))
	return p
}

// dueNow makes the plan due for a reason other than distance.
func (p *Plan) dueNow(code string) {
	p.DueInKM = 0
	if p.State == NotDue {
		p.State = Due
	}
	p.Reasons = append(p.Reasons, words.N(code))
}

// order sets what to do now, in order, and what comes first. Cleaning takes in
// the wiping; lubricating without cleaning begins with it.
func (a *Response) order() {
	wipe, clean, lubricate := a.Tasks[0], a.Tasks[1], a.Tasks[2]
	switch {
	case clean.State != NotDue:
		a.DoNow = []Task{Clean, Lubricate}
		a.Reasons = append(a.Reasons, words.N("care_clean_first"), words.N("care_lubricate_at_once"))
	case lubricate.State != NotDue:
		a.DoNow = []Task{Wipe, Lubricate}
		a.Reasons = append(a.Reasons, words.N("care_wipe_first"))
	case wipe.State != NotDue:
		a.DoNow = []Task{Wipe}
	}
	if len(a.DoNow) > 0 {
		a.NextTask = a.DoNow[0]
		return
	}
	first := wipe
	for _, p := range []Plan{clean, lubricate} {
		if p.DueInKM < first.DueInKM {
			first = p
		}
	}
	a.NextTask, a.NextInKM = first.Task, first.DueInKM
	a.Reasons = append(a.Reasons, words.N("care_nothing_due"))
}
