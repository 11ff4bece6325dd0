package photo

import (
	"errors"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// Answer is the photo engine's one door: a picture file and a Request in JSON
// give a Response in JSON, or the contract's error object. A panic is an error
// with code internal, so that no picture can end the phone's engine.
func Answer(file, request []byte) (response []byte) {
	defer func() {
		if p := recover(); p != nil {
			cause, _ := p.(error)
			response = wire.WriteError(errors.Join(fault.New(fault.Internal, "", "measuring the picture failed; this is our mistake, not yours"), cause))
		}
	}()
	r := &Request{}
	if err := wire.Read(request, r); err != nil {
		return wire.WriteError(err)
	}
	answer, err := Measure(file, r)
	if err != nil {
		return wire.WriteError(err)
	}
	response, err = wire.Write(answer)
	if err != nil {
		return wire.WriteError(err)
	}
	return response
}
