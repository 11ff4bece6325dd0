package words

// identifyEnglish has the texts of the calculation identify, of the chain
// classes and of the closures.
var identifyEnglish = map[string]string{
	"class_derailleur_5_6": "Derailleur chain for 5 or 6 sprockets",
	"class_derailleur_7_8": "Derailleur chain for 7 or 8 sprockets",
	"class_derailleur_9":   "Derailleur chain for 9 sprockets",
	"class_derailleur_10":  "Derailleur chain for 10 sprockets",
	"class_derailleur_11":  "Derailleur chain for 11 sprockets",
	"class_derailleur_12":  "Derailleur chain for 12 sprockets",
	"class_derailleur_13":  "Derailleur chain for 13 sprockets",
	"class_single_3_32":    "Chain for one sprocket, 1/2 × 3/32 in",
	"class_single_1_8":     "Chain for one sprocket, 1/2 × 1/8 in",
	"class_cargo_5_32":     "Wide chain for one sprocket, 1/2 × 5/32 in",
	"class_cargo_3_16":     "Wide chain for one sprocket, 1/2 × 3/16 in",
	"class_pitch_10_mm":    "Chain of 10 mm pitch",
	"class_pitch_5_8_in":   "Chain of 5/8 in pitch",
	"class_pitch_1_in":     "Chain of 1 in pitch",

	"closure_spring_clip_joining_link": "Joining link with spring clip: can be opened again. The closed end of the clip leads in the direction of travel.",
	"closure_reusable_joining_link":    "Reusable joining link: only where its maker says it may be opened again; make sure both sides have snapped home.",
	"closure_one_use_joining_link":     "One-use joining link: fit a new one every time the chain is opened.",
	"closure_one_use_pin":              "One-use pin: press a new pin made for this chain in once, flush on both sides, and break its guide off.",
	"closure_half_link":                "Half link: only for an odd number of pitches, and weaker than a plain link.",
	"closure_never":                    "Never press an old pin back in, never reuse a one-use link or pin, never join with a part made for another width.",

	"identify_outer_inside":  "The outer width of {read} mm lies within {lo} to {hi} mm.",
	"identify_outer_edge":    "The outer width of {read} mm lies just outside {lo} to {hi} mm.",
	"identify_outer_outside": "The outer width of {read} mm does not go with {lo} to {hi} mm.",
	"identify_outer_unknown": "Outer widths of this family differ from maker to maker, so the width tells nothing.",
	"identify_inner_inside":  "The inner width of {read} mm lies within {lo} to {hi} mm.",
	"identify_inner_edge":    "The inner width of {read} mm lies just outside {lo} to {hi} mm.",
	"identify_inner_outside": "The inner width of {read} mm does not go with {lo} to {hi} mm.",
	"identify_inner_unknown": "Inner widths of this family differ from maker to maker, so the width tells nothing.",
	"identify_pitch_inside":  "The pitch of {read} mm goes with {nominal} mm.",
	"identify_pitch_long":    "The pitch of {read} mm is {percent} % longer than {nominal} mm, as in a worn chain.",
	"identify_pitch_outside": "The pitch of {read} mm does not go with {nominal} mm.",
	"identify_roller":        "The roller says no more than half-inch or not: all half-inch chains share it.",

	"identify_fits_yes":          "It suits this bike.",
	"identify_fits_no":           "It does not suit this bike's sprockets.",
	"identify_fits_other_pitch":  "It does not fit half-inch sprockets.",
	"identify_fits_no_bike":      "Whether it suits the bike shows once the drive and the number of sprockets are known.",
	"identify_fits_no_count":     "Whether it suits the bike depends on the number of rear sprockets.",
	"identify_fits_teeth":        "Whether it suits the bike depends on how wide the teeth are: the inner plates must pass over sprocket and chainring without force.",
	"identify_fits_beyond_table": "The table ends at 13 sprockets; ask the maker of the drive which chain it takes.",

	"identify_next_outer": "Measure the outer width over the pin ends, not at the joining link: it tells most.",
	"identify_next_inner": "Measure the gap between the inner plates as well.",
	"identify_next_marks": "Measure the outer width at three pins, and look for the width or the number of sprockets stamped on the plates.",
	"identify_next_again": "Measure again: outer width over plain pin ends, inner width between the inner plates, pitch from one pin to the very next.",
	"identify_next_count": "This pitch is twice half an inch. Unless the chain has long, open links, you measured from one pin to the second next: halve it.",

	"identify_next_wear": "The pitch reads long: check the wear before you use this chain or buy another like it.",

	"identify_caution_roller": "A roller diameter never tells which chain it is.",
	"identify_caution_none":   "No family explains these readings. Do not fit or join this chain on the strength of the nearest one.",
	"identify_caution_unsure": "More than one family is possible. Do not buy, join or fit a chain on this alone.",
	"identify_caution_match":  "A chain too wide or too narrow for its sprockets shifts badly, and can jam, come off or part under load.",
}
