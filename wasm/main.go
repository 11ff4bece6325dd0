//go:build js && wasm

// Command wasm is the engine on the phone: it offers the façade to JavaScript
// as tautspanCall(name, json) and holds no logic of its own.
package main

import (
	"syscall/js"

	"tautspan/internal/engine"
)

func main() {
	js.Global().Set("tautspanCall", js.FuncOf(func(_ js.Value, args []js.Value) any {
		response, err := engine.Call(args[0].String(), []byte(args[1].String()))
		if err != nil {
			response = engine.ErrorJSON(err)
		}
		return string(response)
	}))
	select {}
}
