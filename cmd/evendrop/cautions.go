package main

import (
	"io"

	"evendrop/cmd/internal/caution"
)

const cautionsUsage = `evendrop cautions

Prints the safety page: read it before you turn an engine.
`

func runCautions(args []string, stdout io.Writer) error {
	rest, err := parse(flagSet("cautions"), args, cautionsUsage, stdout)
	if err != nil {
		return err
	}
	if len(rest) > 0 {
		return misuse("cautions takes nothing more: type evendrop cautions")
	}
	page, err := caution.Page()
	if err != nil {
		return err
	}
	_, err = stdout.Write(page)
	return err
}
