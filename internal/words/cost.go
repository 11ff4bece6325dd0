package words

// costEnglish has the texts of the calculation cost.
var costEnglish = map[string]string{
	"cost_rate":          "The chain wears by {rate} % per 1000 km.",
	"cost_from_care":     "No reading of this chain was given, so this rate is what is usual for its care.",
	"cost_from_readings": "The rate comes from a forecast with readings taken: {count}.",
	"cost_no_spread":     "The rate is one number, so low and high are the same as the cost.",
	"cost_spread":        "Low and high are the cost at {low} and {high} % per 1000 km; nine rates in ten lie between.",
	"cost_chains":        "A set of sprockets outlives {chains} chains when every chain is changed at {percent} %.",
	"cost_rings":         "A chainring outlives {sets} sets of sprockets.",
	"cost_new":           "A new chain reads {percent} % long.",
	"cost_together":      "A chain and sprockets that wear out together last twice as far as sprockets that get new chains, and no chain goes past 3 %.",
	"cost_flat":          "The choice of limit matters little: from {lo} to {hi} % the cost is within 2 % of the least.",
	"cost_origin":        "These are assumptions from common practice and simulation, not from measured sprockets. Work and lubricant are not counted.",

	"cost_not_safety": "This compares costs only. The limit for your drive stays the limit, whatever is cheapest.",
	"cost_past_limit": "The cheapest way here lets chains wear on with their sprockets, which can be past the limit. A chain past its limit can skip or part under load and throw you.",
}
