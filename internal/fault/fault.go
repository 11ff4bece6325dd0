// Package fault holds the one domain error. Whatever goes wrong with something
// a person entered is a *fault.Error: a code for programs, the field it is
// about, and a message in plain words saying what is wrong and what is allowed.
package fault

// Code is the machine-readable kind of an error. Codes are part of the JSON
// contract: add, never rename.
type Code string

// The codes in use.
const (
	InvalidJSON   Code = "invalid_json"  // the text is not one JSON value
	UnknownField  Code = "unknown_field" // a name nobody asked for, probably a typo
	MissingField  Code = "missing_field" // a required name is absent
	WrongType     Code = "wrong_type"    // text where a number belongs, and the like
	OutOfRange    Code = "out_of_range"  // a number or a list outside its stated range
	NotAllowed    Code = "not_allowed"   // a word that is not one of the allowed ones
	Unreadable    Code = "unreadable"    // text that should hold a quantity and does not
	Contradiction Code = "contradiction" // values that cannot all be true
	TooLarge      Code = "too_large"     // more bytes than the limit
	UnknownName   Code = "unknown_name"  // no calculation, table or record of that name
	Denied        Code = "denied"        // not signed in, or the role does not allow it
	NotFound      Code = "not_found"     // not there, or not yours to see
	ClockAhead    Code = "clock_ahead"   // a device's clock is too far ahead of the server's
	TooMany       Code = "too_many"      // a rate limit or a quota is used up
	StorageFull   Code = "storage_full"  // the disk is full
	Unavailable   Code = "unavailable"   // cannot be done now, try again later
	Internal      Code = "internal"      // our mistake, never the rider's
)

// Error is the domain error. Field is the dotted JSON path of the value it is
// about ("reading.steps[1].percent") and is empty when it is about the whole.
type Error struct {
	Code    Code
	Field   string
	Message string
	Cause   error // for the log, never shown to a rider
}

// New returns an error of the given code about field, with a message in plain
// words. It never fails.
func New(code Code, field, message string) *Error {
	return &Error{Code: code, Field: field, Message: message}
}

// Error returns the message, led by the field where there is one.
func (e *Error) Error() string {
	if e.Field == "" {
		return e.Message
	}
	return e.Field + ": " + e.Message
}

// Unwrap returns the cause, nil when there is none.
func (e *Error) Unwrap() error { return e.Cause }

// Under returns err with its field placed under the given path, so that a value
// can be checked without knowing where in a request it stands. Errors of other
// types, and nil, are returned as they are.
func Under(path string, err error) error {
	e, ok := err.(*Error)
	if !ok {
		return err
	}
	moved := *e
	switch {
	case e.Field == "":
		moved.Field = path
	case e.Field[0] == '[':
		moved.Field = path + e.Field
	default:
		moved.Field = path + "." + e.Field
	}
	return &moved
}
