// Package reply writes every JSON answer of the server, and is the one place
// that turns error codes into HTTP statuses.
package reply

import (
	"errors"
	"net/http"
	"strconv"

	"github.com/rs/zerolog"

	"tautspan/internal/engine"
	"tautspan/internal/fault"
)

// statuses maps codes to HTTP statuses; codes not named here are bad requests.
var statuses = map[fault.Code]int{
	fault.UnknownName: http.StatusNotFound,
	fault.NotFound:    http.StatusNotFound,
	fault.TooLarge:    http.StatusRequestEntityTooLarge,
	fault.Denied:      http.StatusForbidden,
	fault.TooMany:     http.StatusTooManyRequests,
	fault.StorageFull: http.StatusInsufficientStorage,
	fault.Unavailable: http.StatusServiceUnavailable,
	fault.Internal:    http.StatusInternalServerError,
}

// JSON answers with a status and a body that is JSON already; a newline ends it.
func JSON(w http.ResponseWriter, status int, body []byte) {
	w.Header().Set("Content-Type", "application/json; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Content-Length", strconv.Itoa(len(body)+1))
	w.WriteHeader(status)
	_, _ = w.Write(append(body, '\n')) // the client is gone; nobody to tell
}

// Error answers with the contract's error object. An error that is no domain
// error is our mistake: it is logged with its cause and answered as internal.
func Error(w http.ResponseWriter, r *http.Request, err error) {
	ErrorStatus(w, r, statusOf(err), err)
}

// ErrorStatus is Error with a status of the caller's choosing.
func ErrorStatus(w http.ResponseWriter, r *http.Request, status int, err error) {
	if status == http.StatusInternalServerError {
		zerolog.Ctx(r.Context()).Error().Err(cause(err)).Str("path", r.URL.Path).Msg("request failed")
	}
	JSON(w, status, engine.ErrorJSON(err))
}

func statusOf(err error) int {
	var f *fault.Error
	if !errors.As(err, &f) {
		return http.StatusInternalServerError
	}
	if status, ok := statuses[f.Code]; ok {
		return status
	}
	return http.StatusBadRequest
}

func cause(err error) error {
	if inner := errors.Unwrap(err); inner != nil {
		return inner
	}
	return err
}
