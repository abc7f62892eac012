package main

import (
	"fmt"
	"runtime/debug"
	"strings"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/flags"
)

// welcome says what evendrop is for and what to type first.
func welcome() string {
	var b strings.Builder
	b.WriteString("evendrop finds an engine's true top dead centre from protractor angles and\n" +
		"piston depths. It says how sure that is, and judges the engine's marks by it.\n\n" +
		"Type one of these first:\n\n" +
		"  evendrop begin bench               a job in the folder bench, to fill in\n" +
		"  evendrop cautions                  before you turn an engine\n" +
		"  evendrop halve 348.6 11.8          half-way between two angles at equal drop\n" +
		"  evendrop find JOB                  the answer for a job file, for example\n" +
		"                                     examples/diagnostician/job.toml\n" +
		"  evendrop find --help               what find takes without a job file\n\n" +
		"Commands:\n\n")
	for _, c := range commands() {
		fmt.Fprintf(&b, "  evendrop %-21s %s\n", c.use, c.does)
	}
	return b.String()
}

// source is what a release says it was built from; "" of what was built otherwise.
var source string

// version is the program's name and the source or the version that it was built from.
func version() string {
	if source != "" {
		return source
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return "evendrop " + info.Main.Version
	}
	return "evendrop (devel)"
}

func runCautions(args []string, c console) error {
	set := flags.New("cautions", "evendrop cautions", "Prints the safety page: read it before you turn an engine.")
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return misuse("cautions takes nothing more: type evendrop cautions")
	}
	page, err := caution.Page(c.width)
	if err != nil {
		return err
	}
	return c.print(page)
}
