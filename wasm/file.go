//go:build js && wasm

package main

import (
	"io"
	"syscall/js"
)

// file is a file JavaScript holds, read through a function of it.
type file struct {
	read js.Value
	at   int
}

// Read asks JavaScript for the next bytes. What it throws, for instance because
// the file is gone, becomes the error.
func (f *file) Read(p []byte) (n int, err error) {
	defer func() {
		if thrown, ok := recover().(error); ok {
			n, err = 0, thrown
		}
	}()
	n = js.CopyBytesToGo(p, f.read.Invoke(f.at, f.at+len(p)))
	f.at += n
	if n == 0 {
		err = io.EOF
	}
	return n, err
}
