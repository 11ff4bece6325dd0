package engine

import (
	"io"

	"tautspan/internal/ride"
	"tautspan/internal/wire"
)

// Ride answers like the calculation ride, for a GPX file too large for a
// request: up to ride.MaxFileBytes, read piece by piece. The phone uses it for
// files the rider opens; HTTP and the shell have the calculation. Errors and
// panics are as for Call.
func Ride(file io.Reader) (response []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			response, err = nil, panicked(p)
		}
	}()
	answer, err := ride.Measure(file)
	if err != nil {
		return nil, err
	}
	return wire.Write(answer)
}
