package words

// forecastEnglish has the texts of the calculation forecast.
var forecastEnglish = map[string]string{
	"forecast_prior_only":    "There is no reading of this chain yet. This is how chains with this care usually wear, and how much they differ; one reading narrows it a lot.",
	"forecast_care_assumed":  "No care was given, so usual care is assumed.",
	"forecast_earlier":       "{count} earlier chains of this bike are counted in.",
	"forecast_earlier_one":   "One earlier chain of this bike is counted in.",
	"forecast_set_aside":     "{count} readings do not go with the others and count for almost nothing here. Look at them: correct them, or measure again.",
	"forecast_set_aside_one": "One reading does not go with the others and counts for almost nothing here. Look at it: correct it, or measure again.",
	"forecast_merged":        "There are readings at more than {most} distances, so neighbouring ones were taken together.",
	"forecast_beyond":        "The scale ends at {top} %; the elongation may be larger still.",
	"forecast_now":           "Measure now: the chance that the chain is past its limit is {percent} % already.",
	"forecast_now_large":     "Measure now: the chance that the chain is past its limit is more than 99 % already.",
	"forecast_last_aside":    "Measure again now: the last reading puts the chain past its limit, and nothing since says that it was wrong.",
	"forecast_check":         "Check again within {km} km. By then the chance of being past the limit reaches {percent} %.",
	"forecast_origin":        "No open data on chain wear was found. The starting point is common practice, and how well this works is known from simulation only.",

	"aside_none":           "At {km} km all else that is known puts the chain between {low} and {high} %. This reading does not fit, and no usual slip explains it. Measure again.",
	"aside_ten_times":      "At {km} km all else that is known puts the chain between {low} and {high} %. This reading fits with the decimal point one place further left: {entered}, that is {fits} %.",
	"aside_tenth_part":     "At {km} km all else that is known puts the chain between {low} and {high} %. This reading fits with the decimal point one place further right: {entered}, that is {fits} %.",
	"aside_digits_swapped": "At {km} km all else that is known puts the chain between {low} and {high} %. This reading fits with two digits swapped: {entered}, that is {fits} %.",
	"aside_units_mixed":    "At {km} km all else that is known puts the chain between {low} and {high} %. This reading fits if percent was entered for mm: {entered} mm, that is {fits} %.",
	"aside_pitches_off":    "At {km} km all else that is known puts the chain between {low} and {high} %. This reading fits if the span was {entered} pitches, that is {fits} %.",
}
