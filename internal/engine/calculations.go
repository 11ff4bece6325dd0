package engine

import "tautspan/internal/wear"

// calculations is the one table of what the engine can do.
var calculations = []Calculation{
	define("wear", "One reading to a verdict with its uncertainty", wear.Calculate),
}
