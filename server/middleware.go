package server

import (
	"net/http"
	"runtime/debug"
	"time"

	"github.com/rs/zerolog"
	"github.com/rs/zerolog/hlog"

	"tautspan/internal/fault"
	"tautspan/server/reply"
)

// requestLog gives every request an id and logs it when it is done: method,
// path, status, size and duration; never bodies, queries, tokens or addresses.
func requestLog(log zerolog.Logger) func(http.Handler) http.Handler {
	return func(next http.Handler) http.Handler {
		h := hlog.AccessHandler(func(r *http.Request, status, size int, took time.Duration) {
			zerolog.Ctx(r.Context()).Debug().Str("method", r.Method).Str("path", r.URL.Path).
				Int("status", status).Int("bytes", size).Dur("took_ms", took).Msg("request")
		})(next)
		return hlog.NewHandler(log)(hlog.RequestIDHandler("request_id", "Request-Id")(h))
	}
}

// recovered answers a panic with an internal error and logs its stack.
func recovered(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			p := recover()
			if p == nil {
				return
			}
			if p == http.ErrAbortHandler {
				panic(p)
			}
			zerolog.Ctx(r.Context()).Error().Interface("panic", p).Bytes("stack", debug.Stack()).Msg("handler panicked")
			reply.Error(w, r, fault.New(fault.Internal, "", "something failed here; this is our mistake, not yours"))
		}()
		next.ServeHTTP(w, r)
	})
}

// secured sets the headers every answer has. Pages add their own policy for
// what they may load; see server/web. With a domain of its own the server asks
// browsers to come by HTTPS only (RFC 6797), for a year.
func secured(ownDomain bool, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if ownDomain && r.TLS != nil {
			h.Set("Strict-Transport-Security", "max-age=31536000")
		}
		next.ServeHTTP(w, r)
	})
}
