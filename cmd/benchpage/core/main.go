//go:build js && wasm

// Command core is the bench in a page: it gives the page one function, evendrop, which
// takes a request as JSON and returns a response as JSON.
package main

import (
	"syscall/js"

	"evendrop/cmd/internal/bench"
)

// version is the source that it is built from; cmd/benchpage sets it.
var version = "evendrop (devel)"

func main() {
	core := &bench.Core{Version: version}
	js.Global().Set("evendrop", js.FuncOf(func(_ js.Value, args []js.Value) any {
		if len(args) != 1 || args[0].Type() != js.TypeString {
			return `{"error": "evendrop takes one request, as JSON in a string", "revision": 0}`
		}
		return string(core.Do([]byte(args[0].String())))
	}))
	select {} // the function is there as long as the program runs
}
