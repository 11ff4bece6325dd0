package forecast

import "flag"

// full asks for the long versions of the simulations: go test -run X -args -full
var full = flag.Bool("full", false, "run the long simulations and print their tables")
