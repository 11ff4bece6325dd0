package main

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Written by hand after the binary format of the WebAssembly Core Specification
// 2.0, chapter 5: a memory of one page, and two segments, "ab" at 1000 and "c"
// at 1005.
var (
	magic     = []byte("\x00asm\x01\x00\x00\x00")
	memory    = []byte{5, 3, 1, 0, 1}
	twoPieces = []byte{11, 16, 2, 0, 0x41, 0xe8, 0x07, 0x0b, 2, 'a', 'b', 0, 0x41, 0xed, 0x07, 0x0b, 1, 'c'}
	onePiece  = []byte{11, 13, 1, 0, 0x41, 0xe8, 0x07, 0x0b, 6, 'a', 'b', 0, 0, 0, 'c'}
	lastFirst = []byte{11, 16, 2, 0, 0x41, 0xed, 0x07, 0x0b, 1, 'c', 0, 0x41, 0xe8, 0x07, 0x0b, 2, 'a', 'b'}
	custom    = []byte{0, 3, 1, 'x', 7}
)

func join(parts ...[]byte) []byte { return bytes.Join(parts, nil) }

func TestOneSegment(t *testing.T) {
	got, err := oneSegment(join(magic, memory, twoPieces, custom))
	require.NoError(t, err)
	assert.Equal(t, join(magic, memory, onePiece, custom), got)
	turned, err := oneSegment(join(magic, memory, lastFirst, custom))
	require.NoError(t, err)
	assert.Equal(t, got, turned, "their order in the file is not that in memory")
	again, err := oneSegment(got)
	require.NoError(t, err)
	assert.Equal(t, got, again)
	none, err := oneSegment(join(magic, memory))
	require.NoError(t, err)
	assert.Equal(t, join(magic, memory), none)
}

func TestOneSegment_Err(t *testing.T) {
	whole := join(magic, memory, twoPieces)
	for short := range len(whole) {
		if short == len(magic) || short == len(magic)+len(memory) {
			continue // a program may end after a section
		}
		_, err := oneSegment(whole[:short])
		assert.ErrorIs(t, err, errShort, "%d bytes", short)
	}
	passive := bytes.Replace(whole, []byte{2, 0, 0x41}, []byte{2, 1, 0x41}, 1)
	_, err := oneSegment(passive)
	assert.ErrorContains(t, err, "kind 1")
}

func TestSigned(t *testing.T) {
	for _, n := range []int{0, 1, 63, 64, 127, 128, 8191, 8192, 47939, 1 << 20} {
		r := reader{rest: appendSigned(nil, n)}
		assert.Equal(t, n, r.signed())
		assert.Empty(t, r.rest)
	}
	r := reader{rest: []byte{0x7f}} // -1 in the format's own example of two's complement
	assert.Equal(t, -1, r.signed())
}
