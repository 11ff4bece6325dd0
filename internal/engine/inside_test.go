package engine

// Records lists what a phone may ask about its own records.
func Records() []Calculation { return records }
