//go:build js && wasm

// Command wasm is the engine on the phone: it offers the façade to JavaScript
// and holds no logic of its own.
//
//	tautspanCall(name, json) → json: any calculation.
//	tautspanRecords(name, json) → json: what a phone asks about its own records.
//	tautspanRide(read) → json: the calculation ride for a file of any size
//	allowed; read(from, to) gives the file's bytes from..to-1 as a Uint8Array,
//	fewer at its end, at once (in a worker, FileReaderSync on a slice of it).
package main

import (
	"syscall/js"

	"tautspan/internal/engine"
)

func main() {
	js.Global().Set("tautspanCall", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return answer(engine.Call(args[0].String(), []byte(args[1].String())))
	}))
	js.Global().Set("tautspanRecords", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return answer(engine.CallRecords(args[0].String(), []byte(args[1].String())))
	}))
	js.Global().Set("tautspanRide", js.FuncOf(func(_ js.Value, args []js.Value) any {
		return answer(engine.Ride(&file{read: args[0]}))
	}))
	select {}
}

// answer is the response or the error object.
func answer(response []byte, err error) string {
	if err != nil {
		response = engine.ErrorJSON(err)
	}
	return string(response)
}
