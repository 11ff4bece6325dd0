package api

// Table lists every action.
func Table() []Route { return routes }
