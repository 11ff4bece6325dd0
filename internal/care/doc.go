// Package care says when a chain is next wiped, cleaned and lubricated, in which
// order, and why.
//
// Each task has an interval [from, to] in km for the class of care and, for
// lubricating, the lubricant; it is due from the first and overdue from the
// second. Beyond distance: rain asks for wiping and lubricating unless a case
// keeps it out, a dirty chain for cleaning, a noisy one for lubricating. Two
// rules tie the tasks together: a chain due for cleaning is cleaned before it is
// lubricated, because lubricant carries the grit into the rollers; and a cleaned
// chain is lubricated at once, because solvent strips what was inside.
//
// Request
//
//	care                  enclosed, clean, usual or gritty; required
//	lubricant             oil, liquid_wax, hot_wax or factory_grease; required
//	km_since_wiped        0..100000 km, absent when not known
//	km_since_cleaned      0..100000 km, absent when not known
//	km_since_lubricated   0..100000 km, absent when not known
//	ridden_wet            since it was last lubricated; default false
//	dirty                 what the rider sees or feels; absent when not looked at
//	sounds_dry            it squeaks or rattles; default false
//	km_per_week           0.1..5000 km, for days beside kilometres
//
// Response
//
//	do_now                tasks due now, in the order to do them
//	next_task, next_in_km, next_in_days   what comes first; days null without km_per_week
//	tasks                 wipe, clean and lubricate, each with state (not_due, due,
//	                      overdue), due_in_km (0 when due), due_in_days, interval_km
//	                      [from, to] and its reasons
//	reasons               why the tasks stand in this order
//	steps                 how to do what is due, or what comes first
//	cautions              what can hurt the rider, the chain or the brakes
//
// All intervals and ways of working are common practice without a source; the
// caution about weak acids is from The Complete Guide to Chain, p. 111.
package care
