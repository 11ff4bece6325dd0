//go:build !js

package wire

// documented is whether descriptions are kept: the phone describes nothing, so
// its compiler leaves their texts out.
const documented = true
