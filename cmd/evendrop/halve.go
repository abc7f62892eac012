package main

import (
	"io"
	"strings"

	"evendrop/cmd/internal/answer/halve"
	"evendrop/tdc/evidence"
	halving "evendrop/tdc/halve"
	"evendrop/tdc/job/measure"
)

const halveUsage = `evendrop halve A B [A B ...]

TDC as half-way between two protractor angles at equal drop, or at a positive
stop. More pairs are averaged. Type each pair in the order it was read: of a
pair turned back the later angle comes first, and lash cancels. No file is
needed.

  evendrop halve 348.6 11.8
  evendrop halve -5.2 9.1
  evendrop halve 354.5 8 5.5 352
  evendrop halve "12 BTDC" "9 ATDC"

  --counts with|against     numbers grow with or against the running direction
  --wraps 720|360|180|90    how the protractor's scale comes round
  --protractor-step DEG     smallest difference read
  --protractor-error DEG    bound on the protractor's own error
  --as text|markdown|json|csv
`

func runHalve(args []string, stdout io.Writer) error {
	flags := flagSet("halve")
	as := flags.String("as", "text", "")
	protractor := protractorFlags(flags)
	rest, err := parse(flags, args, halveUsage, stdout)
	if err != nil {
		return err
	}
	if err := checkFormat(*as); err != nil {
		return err
	}
	p, err := protractor()
	if err != nil {
		return err
	}
	texts := withSides(rest)
	if len(texts) == 0 || len(texts)%2 != 0 {
		return misuse("halve takes pairs of angles, and was given %d: type for example evendrop halve 348.6 11.8", len(texts))
	}
	answer := halve.Halve{Protractor: p}
	for i := 0; i < len(texts); i += 2 {
		first, err := crankAngle(p, texts[i])
		if err != nil {
			return err
		}
		second, err := crankAngle(p, texts[i+1])
		if err != nil {
			return err
		}
		answer.Pairs = append(answer.Pairs, halving.Pair{First: first, Second: second})
		if sided(texts[i]) || sided(texts[i+1]) {
			answer.Protractor.Scale = evidence.Quadrants // as it was typed
		}
	}
	if answer.Halved, err = halving.Pairs(answer.Protractor, answer.Pairs); err != nil {
		return err
	}
	return write(stdout, answer, *as)
}

// sided tells whether an angle was typed with the side that it lies on.
func sided(text string) bool {
	w, err := measure.ParseAngle(text)
	return err == nil && w.Side != evidence.NoSide
}

// withSides joins a BTDC or ATDC that was typed apart to its number.
func withSides(args []string) []string {
	var joined []string
	for _, arg := range args {
		if n := len(joined); n > 0 && (strings.EqualFold(arg, "BTDC") || strings.EqualFold(arg, "ATDC")) {
			joined[n-1] += " " + arg
		} else {
			joined = append(joined, arg)
		}
	}
	return joined
}
