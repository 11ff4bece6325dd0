package engine

import (
	"tautspan/internal/identify"
	"tautspan/internal/wear"
)

// calculations is the one table of what the engine can do.
var calculations = []Calculation{
	define("wear", "One reading to a verdict with its uncertainty", wear.Calculate),
	define("identify", "Which chain family this is, from widths, pitch and the bike", identify.Calculate),
}
