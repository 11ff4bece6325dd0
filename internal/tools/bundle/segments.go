package main

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// What the binary format of the WebAssembly Core Specification 2.0, chapter 5,
// calls these.
const (
	dataSection  = 11
	activeInZero = 0x00 // a segment that fills memory 0 at the start
	i32Const     = 0x41
	endOfCode    = 0x0b
	mostMemory   = 64 << 20 // bytes; no program of ours begins with nearly as many
)

// oneSegment joins the data of a WebAssembly program into one segment. Go's
// linker leaves out every short run of zeros and so writes tens of thousands of
// segments, whose heads cost more with brotli than the zeros do. The memory that
// the program begins with is the same.
func oneSegment(program []byte) ([]byte, error) {
	r := reader{rest: program}
	out := append([]byte(nil), r.take(8)...) // magic and version
	for len(r.rest) > 0 && r.err == nil {
		id := r.byte()
		content := r.take(r.number())
		if id == dataSection && r.err == nil {
			from, memory, err := memoryOf(content)
			if err != nil {
				return nil, err
			}
			content = appendSigned([]byte{1, activeInZero, i32Const}, from)
			content = binary.AppendUvarint(append(content, endOfCode), uint64(len(memory)))
			content = append(content, memory...)
		}
		out = binary.AppendUvarint(append(out, id), uint64(len(content)))
		out = append(out, content...)
	}
	return out, r.err
}

// memoryOf lays the segments of a data section out as they lie in memory, one
// over the other in their order, and says where the first byte lies.
func memoryOf(section []byte) (from int, memory []byte, err error) {
	type segment struct {
		at   int
		data []byte
	}
	r := reader{rest: section}
	from, to := mostMemory, 0
	segments := []segment{}
	for left := r.number(); left > 0 && r.err == nil; left-- {
		kind, code, at, end := r.byte(), r.byte(), r.signed(), r.byte()
		data := r.take(r.number())
		if r.err == nil && (kind != activeInZero || code != i32Const || end != endOfCode || at < 0 || at > mostMemory) {
			return 0, nil, fmt.Errorf("joining the engine's data: a segment of kind %d at %d, which Go's linker does not write", kind, at)
		}
		from, to = min(from, at), max(to, at+len(data))
		segments = append(segments, segment{at, data})
	}
	if r.err != nil || len(segments) == 0 {
		return 0, nil, r.err
	}
	memory = make([]byte, to-from)
	for _, one := range segments {
		copy(memory[one.at-from:], one.data)
	}
	return from, memory, nil
}

// reader takes the binary format apart. After an error it gives zeros.
type reader struct {
	rest []byte
	err  error
}

var errShort = errors.New("joining the engine's data: the program ends too early")

func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.rest, r.err = nil, errShort
		return nil
	}
	taken := r.rest[:n]
	r.rest = r.rest[n:]
	return taken
}

func (r *reader) byte() byte {
	if one := r.take(1); len(one) == 1 {
		return one[0]
	}
	return 0
}

// number reads an unsigned LEB128 number.
func (r *reader) number() int {
	n, length := binary.Uvarint(r.rest)
	if length <= 0 || n > mostMemory {
		r.rest, r.err = nil, errShort
		return 0
	}
	r.take(length)
	return int(n)
}

// signed reads a signed LEB128 number of 32 bits.
func (r *reader) signed() int {
	var n int64
	for shift := 0; shift < 35; shift += 7 {
		b := r.byte()
		n |= int64(b&0x7f) << shift
		if b&0x80 == 0 {
			if b&0x40 != 0 {
				n -= 1 << (shift + 7)
			}
			return int(n)
		}
	}
	r.rest, r.err = nil, errShort
	return 0
}

// appendSigned writes a number that is not negative as signed LEB128.
func appendSigned(to []byte, n int) []byte {
	for ; n >= 0x40; n >>= 7 {
		to = append(to, byte(n&0x7f)|0x80)
	}
	return append(to, byte(n))
}
