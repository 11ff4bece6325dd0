// Package assets holds the built app inside the program.
package assets

import "embed"

// Dist is what the build wrote to assets/dist: index.html, sw.js and files/
// whose names carry the hash of their content, with .gz and .br beside each.
// On a clone that was never built it holds a placeholder only.
//
//go:embed all:dist
var Dist embed.FS
