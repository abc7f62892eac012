package main

import (
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/flags"
)

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
