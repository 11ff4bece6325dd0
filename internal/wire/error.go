package wire

import (
	"errors"

	"tautspan/internal/fault"
)

// WriteError returns err as the contract's error object:
// {"error":{"code":…,"field":…,"message":…}}. What is no *fault.Error is our
// mistake, and its text stays with us.
func WriteError(err error) []byte {
	f, known := errors.AsType[*fault.Error](err)
	if !known {
		f = fault.New(fault.Internal, "", "something failed here; this is our mistake, not yours")
	}
	out, _ := Write(&errorMessage{f}) // holds texts only, which always write
	return out
}

// ErrorSchema returns the JSON Schema of the error object.
func ErrorSchema() []byte { return Schema(&errorMessage{&fault.Error{}}) }

type errorMessage struct{ *fault.Error }

func (e *errorMessage) Fields(o *Object) {
	Nested(o, "error", (*errorBody)(e.Error))
}

type errorBody fault.Error

func (e *errorBody) Fields(o *Object) {
	o.Text("code", (*string)(&e.Code)).Required().Doc("what kind of error", "")
	o.Text("field", &e.Field).Required().Doc("dotted path of the value it is about, empty for the whole", "")
	o.Text("message", &e.Message).Required().Doc("plain words: what is wrong, what is allowed", "")
}
