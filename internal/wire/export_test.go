package wire

// For tests: the glance and the long way.
var (
	IsCanonical   = isCanonical
	MakeCanonical = makeCanonical
)
