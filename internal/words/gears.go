package words

// gearsEnglish has the texts of the calculation gears.
var gearsEnglish = map[string]string{
	"circumference_computed": "The circumference of {circumference} mm is computed from the tyre size. Rolled out under the rider it is one or two percent less.",
	"chainlines_equal":       "No rear chain line was given: the middle of the sprockets is taken to lie in line with the middle of the chainrings.",
	"laboratory_range":       "In a laboratory, on clean chains, {worst} to {best} % of the power came through, at chain pulls of {low} and {high} N; larger wheels did better. It is the range of one test rig, not a figure for this bicycle, and nothing is read between or beyond it.",
	"tension_average":        "The chain's pull is an average over a turn of the cranks. A hard push peaks at about twice that.",
	"tension_not_measured":   "In some gears the pull lies outside what the laboratory measured, so nothing is said of their efficiency.",
	"gears_out_of_reach":     "Gears that a chain of {pitches} pitches does not reach: {count}. Do not shift into them.",

	"caution_width": "Chain, sprockets and chainrings must be made for the same number of sprockets; gears that fit by their teeth may still not fit together.",
}
