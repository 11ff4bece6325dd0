package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"net/http"
	"strings"
)

// contentPolicy lets a page load its own files and talk to its own server, with
// the one style that is in it, and nothing else. The engine needs
// 'wasm-unsafe-eval' to be compiled.
func contentPolicy(style string) string {
	return strings.Join([]string{
		"default-src 'none'",
		"script-src 'self' 'wasm-unsafe-eval'",
		"worker-src 'self'",
		"style-src " + style,
		"img-src 'self'",
		"connect-src 'self'",
		"manifest-src 'self'",
		"base-uri 'none'",
		"form-action 'none'",
		"frame-ancestors 'none'",
	}, "; ")
}

// styleOf is the source expression for the style element of a page, by its hash
// (Content Security Policy Level 3, 2.3.1), and for what has none.
func styleOf(page []byte) string {
	_, rest, _ := bytes.Cut(page, []byte("<style>"))
	style, _, there := bytes.Cut(rest, []byte("</style>"))
	if !there {
		return "'none'"
	}
	sum := sha256.Sum256(style)
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// permissions turns off what the app never asks for.
const permissions = "camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=(), midi=()"

// protect sets what a page or a file may do; the server sets the headers that
// every answer has.
func protect(h http.Header, style string) {
	h.Set("Content-Security-Policy", contentPolicy(style))
	h.Set("Permissions-Policy", permissions)
}
