package record

import "strconv"

// Clock is a hybrid logical clock as text that sorts by time:
// "2026-03-01T08:00:00.000Z-0000", UTC milliseconds and a counter of four
// hexadecimal digits in lower case. The zero value is before every other.
// Source of the idea: Kulkarni and others, Logical Physical Clocks, 2014.
type Clock string

const (
	clockShape  = "dddd-dd-ddTdd:dd:dd.dddZ-xxxx"
	instantSize = len("2026-03-01T08:00:00.000Z")
	maxCounter  = 0xffff
)

// MaxAheadMS is how far an operation's clock may be ahead of the server's.
const MaxAheadMS = dayMS

// Valid reports whether the clock has the exact form and names a real day.
func (c Clock) Valid() bool {
	if len(c) != len(clockShape) || !shaped(string(c), clockShape) {
		return false
	}
	_, ok := ParseInstant(string(c[:instantSize]))
	return ok && c[17:19] != "60" // a leap second has a second spelling
}

// MS returns the clock's milliseconds since 1970; 0 for the zero value. The
// clock must be valid.
func (c Clock) MS() int64 {
	if c == "" {
		return 0
	}
	ms, _ := ParseInstant(string(c[:instantSize]))
	return ms
}

// Next returns the clock of the next operation on a device whose latest known
// clock is c, own or seen, and whose wall clock shows nowMS: later than both.
// When the counter is used up it goes on with the next millisecond.
func (c Clock) Next(nowMS int64) Clock {
	last := c.MS()
	if c == "" || nowMS > last {
		return clockAt(nowMS, 0)
	}
	counter, _ := strconv.ParseUint(string(c[instantSize+1:]), 16, 16) // valid by the contract of Clock
	if counter == maxCounter {
		return clockAt(last+1, 0)
	}
	return clockAt(last, int(counter)+1)
}

func clockAt(ms int64, counter int) Clock {
	hex := strconv.FormatInt(int64(counter), 16)
	return Clock(FormatInstant(ms) + "-" + "0000"[len(hex):] + hex)
}

// Stamp orders operations: by clock, then device, then operation, so that any
// two differ. It is those three with a space between.
type Stamp string

func stampOf(clock Clock, device, op string) Stamp {
	return Stamp(string(clock) + " " + device + " " + op)
}
