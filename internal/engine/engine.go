// Package engine is the façade over every calculation: a name and JSON in, JSON
// out. It is the only door for the phone (WebAssembly), HTTP and the shell, so
// all three answer alike.
package engine

import (
	"errors"
	"strconv"

	"tautspan/internal/fault"
	"tautspan/internal/wire"
)

// MaxRequestBytes is the largest request any door accepts, 256 KiB.
const MaxRequestBytes = 256 << 10

// Calculation is one entry of the façade.
type Calculation struct {
	Name    string
	Summary string
	// Request and Response make an empty message, to describe it.
	Request, Response func() wire.Message
	run               func(request []byte) ([]byte, error)
}

// message is a *T that is a wire.Message.
type message[T any] interface {
	*T
	wire.Message
}

// define makes an entry out of a model's function. T and U are its request and
// response types.
func define[T, U any, P message[T], Q message[U]](name, summary string, f func(P) (Q, error)) Calculation {
	return Calculation{
		Name: name, Summary: summary,
		Request:  func() wire.Message { return P(new(T)) },
		Response: func() wire.Message { return Q(new(U)) },
		run: func(request []byte) ([]byte, error) {
			question := P(new(T))
			if err := wire.Read(request, question); err != nil {
				return nil, err
			}
			answer, err := f(question)
			if err != nil {
				return nil, err
			}
			return wire.Write(answer)
		},
	}
}

// Calculations lists every calculation in a fixed order.
func Calculations() []Calculation { return calculations }

// Call answers the request to the named calculation with JSON. Every error is a
// *fault.Error; a panic inside a model is one with code internal, so that it
// cannot end the server or the phone's engine.
func Call(name string, request []byte) ([]byte, error) {
	return call(calculations, MaxRequestBytes, name, request)
}

func call(table []Calculation, maxBytes int, name string, request []byte) (response []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			response, err = nil, panicked(p)
		}
	}()
	for _, c := range table {
		if c.Name != name {
			continue
		}
		if len(request) > maxBytes {
			return nil, fault.New(fault.TooLarge, "",
				"the request has "+strconv.Itoa(len(request))+" bytes; allowed are at most "+strconv.Itoa(maxBytes))
		}
		return c.run(request)
	}
	return nil, fault.New(fault.UnknownName, "", "there is no calculation of this name; there are "+names(table))
}

func panicked(p any) error {
	f := fault.New(fault.Internal, "", "the calculation failed; this is our mistake, not yours")
	switch cause := p.(type) {
	case error:
		f.Cause = cause
	case string:
		f.Cause = errors.New(cause)
	}
	return f
}

func names(table []Calculation) string {
	all := ""
	for i, c := range table {
		if i > 0 {
			all += ", "
		}
		all += c.Name
	}
	return all
}

// ErrorJSON returns err as the contract's error object; see wire.WriteError.
func ErrorJSON(err error) []byte { return wire.WriteError(err) }

// ErrorSchema returns the JSON Schema of the error object.
func ErrorSchema() []byte { return wire.ErrorSchema() }

// RequestSchema returns the JSON Schema of a calculation's request.
func RequestSchema(c Calculation) []byte { return wire.Schema(c.Request()) }

// ResponseSchema returns the JSON Schema of a calculation's response.
func ResponseSchema(c Calculation) []byte { return wire.Schema(c.Response()) }
