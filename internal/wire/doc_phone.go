//go:build js

package wire

// documented is whether descriptions are kept: see doc_server.go.
const documented = false
