// Package photowords has the texts of measuring from a photograph. They stand
// apart from the other words because they travel with the photo engine, which
// only riders who turned it on load.
package photowords

// Text returns the text of a code without its photo_, or the code itself where
// there is none.
func Text(code string) string {
	if text, there := english["photo_"+code]; there {
		return text
	}
	return code
}

var english = map[string]string{
	"photo_not_calibrated": "The print has not been measured. Lay a steel rule along its check line and enter what it reads: without that a home print can be some percent off.",
	"photo_no_marks":       "The frame's two rows of checks were not found. Show all of both rows, without glare, filling about half the picture's width or more.",
	"photo_no_thickness":   "How thick the rule, or the print with its card, is has not been said: its marks lie so far over the plates, and that counts.",
	"photo_no_rule":        "No rule with a mark each millimetre was found. Show at least 170 mm of it, without shine, large and sharp: 12 megapixels from 400 to 600 mm.",
	"photo_rule_bent":      "The rule's marks do not stand as they do on a straight rule. Lay it flat on the outer plates along the chain, and see that nothing shines.",
	"photo_rule_uncertain": "The result would be more uncertain than 0.12 %, too much to be of use. Hold the phone higher and level, or clean the rivets.",
	"photo_tilted":         "The phone was tilted too far. Hold it level over the chain, within 14°.",
	"photo_too_near":       "The phone was too near. Hold it at least 350 mm away; 400 to 700 mm is best.",
	"photo_not_flat":       "The frame does not lie flat. Glue it to stiff card and press it onto the outer plates.",
	"photo_blurred":        "The picture is not sharp enough to see the rivets' rims. Hold the phone still, tap to focus, use more light.",
	"photo_coarse":         "The picture shows too few pixels for each millimetre. Set the camera to 12 megapixels, or come nearer, but not under 350 mm.",
	"photo_not_a_chain":    "What lies in the window does not look like a chain: closed rims of rivets, evenly placed, with the plates' round ends on both sides. Clean the chain and lay it flat on its side.",
	"photo_few_pitches":    "Fewer than 12 pitches can be measured. Lay the frame along a straight piece of chain so that rivets show in all of the window, and wipe them clean.",
	"photo_count":          "The rivets do not count up: there is one too many or one too few for their places. Look at the picture: is a rivet hidden, or is something else marked?",
	"photo_scattered":      "The rivets found do not stand at even whole links. Wipe them, turn the light so that nothing shines, and take another picture.",
	"photo_not_straight":   "The chain is not straight. Pull it taut and lay it in the middle of the window.",
	"photo_not_possible":   "The elongation this picture gives is beyond what a chain can have. Something was taken for a rivet that is none.",
	"photo_uncertain":      "The result would be more uncertain than 0.12 %, too much to be of use. Measure the check line with a better rule, hold the phone higher and level, or clean the rivets.",

	"photo_budget_localisation": "how well the rims fit even whole links",
	"photo_budget_resolution":   "a tenth of a pixel at either end",
	"photo_budget_marks":        "how well the marks fit a flat reference",
	"photo_budget_lens":         "what another model of the lens would change",
	"photo_budget_calibration":  "your measurement of the check line",
	"photo_budget_height":       "the marks lie a little over or under where their thickness puts them, and how far away the phone was",
	"photo_budget_rule":         "the rule's own accuracy, within 0.1 mm",
	"photo_budget_tilt":         "one end of the print or rule may lie higher, which counts when the phone is tilted",
}
