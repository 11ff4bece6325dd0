package engine

import (
	"tautspan/internal/care"
	"tautspan/internal/cost"
	"tautspan/internal/drive"
	"tautspan/internal/forecast"
	"tautspan/internal/gears"
	"tautspan/internal/identify"
	"tautspan/internal/ride"
	"tautspan/internal/wear"
)

// calculations is the one table of what the engine can do.
var calculations = []Calculation{
	define("wear", "One reading to a verdict with its uncertainty", wear.Calculate),
	define("identify", "Which chain family this is, from widths, pitch and the bike", identify.Calculate),
	define("cost", "What each way of changing the chain costs per 1000 km", cost.Calculate),
	define("care", "When to wipe, clean and lubricate next, in which order and why", care.Calculate),
	define("length", "How long the chain of a derailleur drive must be, and how it sits in every gear", drive.Length),
	define("centre", "Which chain closes on axles a fixed distance apart, and how much wear the adjustment takes up", drive.Centre),
	define("gears", "What each gear does: way, speed, chain angle, pull, duplicates", gears.Calculate),
	define("forecast", "When the chain will reach its limit, and when to check next", forecast.Calculate),
	define("ride", "How far the rides recorded in a GPX 1.1 file went", ride.Calculate),
}
