package web

import (
	"net/http"
	"strings"
)

// contentPolicy lets the page load its own files and talk to its own server,
// and nothing else. The engine needs 'wasm-unsafe-eval' to be compiled.
var contentPolicy = strings.Join([]string{
	"default-src 'none'",
	"script-src 'self' 'wasm-unsafe-eval'",
	"worker-src 'self'",
	"style-src 'self'",
	"img-src 'self'",
	"connect-src 'self'",
	"manifest-src 'self'",
	"base-uri 'none'",
	"form-action 'none'",
	"frame-ancestors 'none'",
}, "; ")

// permissions turns off what the app never asks for.
const permissions = "camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=(), midi=()"

// protect sets what a page or a file may do; the server sets the headers that
// every answer has.
func protect(h http.Header) {
	h.Set("Content-Security-Policy", contentPolicy)
	h.Set("Permissions-Policy", permissions)
}
