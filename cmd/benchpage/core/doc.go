//go:build !(js && wasm)

// Command core is the bench in a page: it is built for GOOS=js GOARCH=wasm by cmd/benchpage.
package main

import "os"

func main() { os.Exit(2) }
