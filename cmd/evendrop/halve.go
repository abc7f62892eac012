package main

import (
	"evendrop/cmd/internal/answer/halve"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/flags/setup"
	"evendrop/cmd/internal/form"
)

func runHalve(args []string, c console) error {
	set := flags.New("halve", "evendrop halve A B [A B ...]",
		`TDC as half-way between two protractor angles at equal drop, or at a positive
stop. More pairs are averaged. Type each pair in the order it was read: of a
pair turned back the later angle comes first, and lash cancels. No file is
needed.

  evendrop halve 348.6 11.8
  evendrop halve -5.2 9.1
  evendrop halve 354.5 8 5.5 352
  evendrop halve "12 BTDC" "9 ATDC"

With --lobe the angles are at equal lift on a cam lobe, turning forward. Type
first the one at which the valve was opening. The answer is the lobe's centre.

  evendrop halve 68 152 --lobe --tdc 2`)
	lobe := set.Bool("lobe", "the angles are at equal lift on a cam lobe: its centre")
	tdc := set.Text("tdc", "DEG", "with --lobe: what the protractor shows at TDC")
	protractor := setup.Protractor(set)
	as := set.As()
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	p, err := protractor()
	if err != nil {
		return err
	}
	if !set.Given("tdc") {
		tdc = nil
	}
	switch {
	case *lobe:
		answer, err := halve.OfLobe(p, rest, tdc)
		if err != nil {
			return err
		}
		return c.write(form.Of(answer), *as)
	case tdc != nil:
		return misuse("--tdc goes with --lobe: without it TDC is what halve finds")
	}
	answer, err := halve.Of(p, rest)
	if err != nil {
		return err
	}
	return c.write(form.Of(answer), *as)
}
