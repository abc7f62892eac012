package main

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/measure"
)

// notTried stands for an answer that a turn of the crank has yet to give.
const notTried = "not tried yet"

// question is what begin asks for instead of a flag.
type question struct {
	flag, text, standard string
	take                 func(answer string) error
}

// questions asks for what the flags did not say.
func (b beginning) questions() error {
	b.tell("\nPress Enter where something is unknown, or for the answer in brackets.\n")
	for _, q := range []question{
		{"name", "Engine's name", "", func(answer string) error { return b.Set.Set("name", legible.Plain(answer)) }},
		{"bore", "Bore, " + *b.unit, "", b.length("bore")},
		{"stroke", "Stroke, " + *b.unit, "", b.length("stroke")},
		{"rod", "Connecting rod between centres, " + *b.unit, "", b.length("rod")},
		{"counts", "Turn the crank a little by hand in the running direction.\nDid the protractor's number rise or fall", notTried,
			b.choice("counts", map[string]string{"rise": "with", "r": "with", "fall": "against", "f": "against"})},
		{"wraps", "Where its scale comes round: 360, 180 (180 both ways), 90 (quadrants) or 720 (both turns of a cycle)", "360",
			b.choice("wraps", map[string]string{"720": "720", "360": "360", "180": "180", "90": "90"})},
		{"gauge", "What reads the piston: dial, rod or borescope", "dial",
			b.choice("gauge", map[string]string{"dial": "dial", "rod": "rod", "borescope": "borescope", "d": "dial", "r": "rod", "b": "borescope"})},
		{"gauge-counts", "Its numbers grow as the piston goes down or up", "down",
			b.choice("gauge-counts", map[string]string{"down": "down", "up": "up", "d": "down", "u": "up"})},
	} {
		if b.Given(q.flag) {
			continue
		}
		if err := b.ask(q.text, q.standard, q.take); err != nil {
			return err
		}
	}
	return nil
}

// length takes a length above zero, or nothing, that makes an engine which turns.
func (b beginning) length(flag string) func(string) error {
	return func(answer string) error {
		if answer != "" {
			if length, err := measure.ParseLength(answer, *b.unit); err != nil || length <= 0 {
				return errors.New("expected a length such as 81.4, or nothing")
			}
		}
		err := b.Set.Set(flag, answer)
		if err == nil {
			_, err = b.setup()
		}
		if err != nil {
			return errors.Join(fmt.Errorf("that is not possible: %w", err), b.Set.Set(flag, ""))
		}
		return nil
	}
}

// choice takes one of a few words, which stand for the values of a flag.
func (b beginning) choice(flag string, answers map[string]string) func(string) error {
	return func(answer string) error {
		if answer == notTried {
			return nil
		}
		if value, ok := answers[strings.ToLower(answer)]; ok {
			return b.Set.Set(flag, value)
		}
		typed := slices.DeleteFunc(slices.Sorted(maps.Keys(answers)), func(word string) bool { return len(word) == 1 })
		return fmt.Errorf("type %s; or press Ctrl-C to leave, and nothing is written", words.Or(typed))
	}
}
