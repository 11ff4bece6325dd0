//go:build js && wasm

// Command photo is the photo engine on the phone, apart from the other engine
// because only riders who turned it on load it. It holds no logic of its own.
//
//	tautspanPhoto(file, json) → json: file is the picture as a Uint8Array.
package main

import (
	"runtime/debug"
	"syscall/js"

	"tautspan/internal/photo"
)

// keepBytes is how much memory the program holds before it frees eagerly.
const keepBytes = 140 << 20

func main() {
	debug.SetGCPercent(50)
	debug.SetMemoryLimit(keepBytes)
	js.Global().Set("tautspanPhoto", js.FuncOf(func(_ js.Value, args []js.Value) any {
		file := make([]byte, args[0].Length())
		js.CopyBytesToGo(file, args[0])
		return string(photo.Answer(file, []byte(args[1].String())))
	}))
	select {}
}
