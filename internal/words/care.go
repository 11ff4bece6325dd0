package words

// careEnglish has the texts of the calculation care.
var careEnglish = map[string]string{
	"care_by_distance":       "{km} km since the last time; due from {from} km, at the latest at {to} km.",
	"care_due":               "{km} km since the last time; due since {from} km, at the latest at {to} km.",
	"care_overdue":           "{km} km since the last time; it was due by {to} km.",
	"care_unknown":           "Nobody knows when this was last done, so it is due.",
	"care_wet_wipe":          "It was ridden wet: dry it, or it rusts and water carries the grit inside.",
	"care_wet_lubricate":     "It was ridden wet: water has washed lubricant out.",
	"care_dirty":             "The chain is dirty.",
	"care_looks_clean":       "It looks clean, so cleaning can wait; grit inside the rollers does not show, so not without end.",
	"care_stripped":          "It was cleaned after it was last lubricated: what was inside the rollers has been washed out.",
	"care_sounds_dry":        "It squeaks or rattles: the pins run dry.",
	"care_after_cleaning":    "Cleaning comes first and takes the lubricant with it.",
	"care_clean_first":       "A dirty chain is cleaned before it is lubricated: lubricant on dirt carries the grit into the rollers and wears the chain faster.",
	"care_lubricate_at_once": "Lubricate as soon as it is clean and dry, before the next ride.",
	"care_wipe_first":        "Wipe first, then lubricate, so that dirt from the outside does not go in.",
	"care_nothing_due":       "Nothing is due now.",

	"care_how_wipe":           "Hold a dry rag round the lower run and turn the cranks backwards by hand until the chain leaves no more dirt.",
	"care_how_clean":          "Brush the chain with a cleaner made for chains, rollers and plates from both sides, rinse, wipe, and let it dry through. Clean sprockets and chainrings with it.",
	"care_how_clean_wax":      "Take the chain off and rinse it in hot water, mind the scalding, until wax and grit have come away, then let it dry through. Take off oil or grease completely first: wax does not hold on it.",
	"care_how_oil":            "One drop on each roller along the inside of the lower run, turn the cranks slowly, wait a few minutes, then wipe the outside dry.",
	"care_how_liquid_wax":     "On a clean, dry, grease-free chain: one drop on each roller, turn the cranks, then let it dry for hours, best overnight.",
	"care_how_hot_wax":        "Clean, dry, grease-free chain, off the bike: hang it in melted wax until no more bubbles rise, let it drip and cool, then bend each link loose.",
	"care_how_factory_grease": "Factory grease cannot be renewed at home. Wipe the outside and use oil from now on, or take all grease off before you change to wax.",

	"care_caution_brakes":          "Keep lubricant off rotor, pads and rim: a brake that has caught some does not hold. Try the brakes before you ride.",
	"care_caution_brakes_cleaning": "Keep cleaner and its spray off rotor, pads, rim, bearings and electric parts.",
	"care_caution_solvent":         "Solvents burn and their fumes harm: gloves, fresh air, no flame, no petrol. They strip the grease from inside the rollers, so lubricate at once.",
	"care_caution_acid":            "No rust remover, not even a weak acid such as vinegar: it can make hardened pins and plates brittle, and they crack under load without warning.",
	"care_caution_hot":             "Melted wax burns skin and catches fire: use a pot with a thermostat or a water bath, never an open flame, never alone, and no water on burning wax.",
}
