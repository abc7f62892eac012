// Command breaks breaks evendrop on purpose, one place at a time, and sees whether a
// test fails:
//
//	go run ./cmd/breaks                  every break of testdata/breaks
//	go run ./cmd/breaks -new             those without a result that holds, or that escaped
//	go run ./cmd/breaks -only 'caution'  those whose words match
//	go run ./cmd/breaks -table           the table for DEVELOPERS.md, from the results kept
//
// A break is an old text that stands once in the program and a new text in its
// place. Nothing is written but the results: the compiler is handed the broken file
// as an overlay. Exit 1 when a break escapes and the list gives no reason for it.
package main
