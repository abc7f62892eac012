// Command release makes what somebody without Go can use: a zip for each of six systems
// with the program, the examples and the README, the bench as a page and as a site, and the
// checksums of all.
//
//	go run ./cmd/release DIR
//
// The same source gives the same bytes.
package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"evendrop/cmd/internal/source"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// run makes a release in a folder that is not there yet, or is empty.
func run(args []string) error {
	if len(args) != 1 {
		return errors.New("takes the folder to make: type for example .ci/release ../release")
	}
	dir := args[0]
	if found, err := os.ReadDir(dir); err == nil && len(found) > 0 {
		return fmt.Errorf("%s: is not empty: name another folder", dir)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	source, err := source.CheckedOut()
	if err != nil {
		return fmt.Errorf("a release says which source it is from: %w", err)
	}
	for _, s := range systems {
		if err := s.zip(dir, source); err != nil {
			return err
		}
	}
	if err := goRun("./cmd/benchpage", "--version", source, filepath.Join(dir, "bench.html")); err != nil {
		return err
	}
	if err := goRun("./cmd/benchpage", "--version", source, "--site", filepath.Join(dir, "site")); err != nil {
		return err
	}
	fmt.Printf("%s: %s\n", dir, source)
	return checksums(dir)
}
