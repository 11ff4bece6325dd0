package care

import (
	"slices"

	"tautspan/internal/words"
)

// explain adds how to do what is due (or comes first) and the cautions that go
// with it.
func (a *Response) explain(r *Request) {
	tasks := a.DoNow
	if len(tasks) == 0 {
		tasks = []Task{a.NextTask}
	}
	for _, task := range tasks {
		a.Steps = append(a.Steps, words.N(step(task, r.Lubricant)))
	}
	caution := func(when bool, codes ...string) {
		for _, code := range codes {
			if when {
				a.Cautions = append(a.Cautions, words.N(code))
			}
		}
	}
	cleans, lubricates := slices.Contains(tasks, Clean), slices.Contains(tasks, Lubricate)
	caution(lubricates, "care_caution_brakes")
	caution(cleans, "care_caution_brakes_cleaning", "care_caution_solvent", "care_caution_acid")
	caution(lubricates && r.Lubricant == HotWax, "care_caution_hot", "caution_closure")
	caution(true, "caution_fingers", "caution_damage", "caution_guidance")
}

// step is the code of how a task is done with this lubricant.
func step(task Task, lubricant Lubricant) string {
	switch {
	case task == Wipe:
		return "care_how_wipe"
	case task == Clean && lubricant == HotWax:
		return "care_how_clean_wax"
	case task == Clean:
		return "care_how_clean"
	}
	return "care_how_" + string(lubricant)
}
