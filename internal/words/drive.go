package words

// driveEnglish has the texts of the calculations length and centre.
var driveEnglish = map[string]string{
	"methods_differ":     "The methods differ: {exact} pitches by exact geometry with its reserve, {rule} by the rule of thumb. The longer one is recommended, because too short a chain is the dangerous one.",
	"reserve_raised":     "Raised to {pitches} pitches, so that the largest pair is not pulled tight.",
	"added_rounded":      "Adding {added} gives an odd count, which does not close without a half link; it was rounded up.",
	"one_ring_wide":      "Drives with one chainring and so large a sprocket often need one or two more link pairs. Follow the derailleur maker's own rule where there is one.",
	"stock_short":        "The stock chain of {stock} pitches is {missing} too short. Get a longer one; do not shift to the largest pair with it.",
	"capacity_unknown":   "The cage's capacity is not known, so slack is judged by what the longest cages take up, about {most} teeth. This drive needs {needed} teeth; compare with the derailleur's own figure.",
	"capacity_short":     "This drive needs {needed} teeth of capacity, but the derailleur takes up {capacity}. The chain will hang slack in the small combinations.",
	"sprocket_too_large": "The largest sprocket has {largest} teeth; the derailleur's maker allows {most}.",
	"tight_combinations": "Combinations too tight with {pitches} pitches: {count}. Shifting into one can tear off the derailleur and lock the wheel. Fit {needed} pitches and until then never shift into them.",
	"slack_combinations": "Combinations in which the cage cannot take up a chain of {pitches} pitches: {count}. Do not ride in them: a slack chain can jump off.",

	"next_length_wrap":  "Before cutting, lay the chain round the largest chainring and the largest sprocket past the derailleur, suspension where it is longest, and count the reserve: cut off nothing you cannot put back.",
	"next_length_large": "With the chain closed, turn the cranks by hand on the stand and shift into the largest pair: the cage must still be bent, not pulled straight.",
	"next_length_small": "Then the smallest pair: the chain must neither hang slack nor touch itself.",
	"next_length_road":  "Press hard in every gear on the stand, then ride a quiet road gently before anything else.",

	"caution_too_short":  "Too short a chain can tear off the derailleur, lock the wheel and throw you. If in doubt, leave it a link pair longer.",
	"caution_suspension": "With rear suspension give the longest distance too: a chain cut at rest can be too short when the wheel moves.",
	"caution_half_link":  "A half link is weaker than a plain link, about two thirds of its strength, and made for single-sprocket chains only. Use one only where the chain's maker offers it.",

	"no_count_fits":        "No count gives the wanted play within the adjustment. Try another chainring or sprocket, or a chain tensioner.",
	"half_link_would_fit":  "With a half link {pitches} pitches would fit.",
	"reserve_short":        "The adjustment is used up at {at} % elongation, before the chain reaches its limit of {limit} %.",
	"past_single_limit":    "At {elongation} % the chain is at or past the limit of {limit} % for a drive with one sprocket. Change it rather than take it up.",
	"new_chain_play":       "A new chain may be up to {most} % longer than nominal. With the axle where it is, that alone can give {play} mm of play: measure the chain you have before you rely on a pair or a count that only just fits.",
	"play_cannot_be_set":   "The axle cannot move, so the play is what the count gives, and it grows with wear.",
	"next_centre_tightest": "Turn the cranks slowly and find where the chain is tightest: chainrings are never quite round. Set the play there.",
	"next_centre_line_up":  "Line the wheel up, tighten the axle nuts or the eccentric to the maker's torque, put the brake arm back, and measure the play again.",
	"next_centre_guard":    "Put the chain guard back on.",
	"caution_play":         "Too much play and the chain can jump off and lock the wheel; too little wears bearings and can break the chain.",
	"caution_fixed":        "On a fixed drive a chain that comes off locks the wheel: keep to the lower end of the play and check it often.",
}
