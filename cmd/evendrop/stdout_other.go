//go:build !unix

package main

// stdoutClosed cannot be told before something is written; then it is an error.
func stdoutClosed() bool { return false }
