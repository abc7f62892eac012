// Command benchpage builds the bench as a page: one HTML file that holds the core as
// WebAssembly and asks for nothing.
//
//	go run ./cmd/benchpage bench.html
//	go run ./cmd/benchpage --site DIR
//
// The same source gives the same bytes.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"

	"evendrop/cmd/internal/source"
)

func main() {
	site := flag.String("site", "", "write the page as a `folder` for a web host, with a manifest and a service worker")
	version := flag.String("version", "", "of the source that the page says it is from: the commit that is checked out, unless stated")
	flag.Usage = func() {
		fmt.Fprintln(flag.CommandLine.Output(), "Usage: go run ./cmd/benchpage FILE, or --site DIR\nRun it in the folder of evendrop's source.")
		flag.PrintDefaults()
	}
	flag.Parse()
	if err := run(flag.Args(), *site, *version); err != nil {
		fmt.Fprintln(os.Stderr, "benchpage:", err)
		os.Exit(1)
	}
}

// run builds what the command line asks for.
func run(args []string, site, version string) error {
	if len(args) > 1 || (len(args) == 1) == (site != "") {
		return errors.New("takes the file to write, or --site and a folder: type for example go run ./cmd/benchpage bench.html")
	}
	if version == "" {
		var err error
		if version, err = source.CheckedOut(); err != nil {
			version = "evendrop (devel)"
		}
	}
	core, err := buildCore(version)
	if err != nil {
		return err
	}
	if site != "" {
		return writeSite(site, core)
	}
	page, err := single(core)
	if err != nil {
		return err
	}
	if err := os.WriteFile(args[0], page, 0o644); err != nil {
		return err
	}
	fmt.Printf("%s: %.2f MB, of which the core %.2f MB (%.2f packed, %.2f unpacked), from %s\n",
		args[0], mb(len(page)), mb(len(bytewise.text(core.packed))), mb(len(core.packed)), mb(core.size), core.version)
	return nil
}

func mb(bytes int) float64 { return float64(bytes) / 1e6 }
