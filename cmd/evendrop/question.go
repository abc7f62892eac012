package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"evendrop/tdc/job/measure"
)

// notTried stands for an answer that a turn of the crank has yet to give.
const notTried = "not tried yet"

// questions asks for what the flags did not say.
func (b beginning) questions() error {
	b.tell("\nPress Enter where something is unknown, or for the answer in brackets.\n")
	if !b.flags.Changed("name") {
		if err := b.ask("Engine's name", "", b.text("name")); err != nil {
			return err
		}
	}
	for _, q := range []struct{ flag, question string }{
		{"bore", "Bore"}, {"stroke", "Stroke"}, {"rod", "Connecting rod between centres"},
	} {
		if b.flags.Changed(q.flag) {
			continue
		}
		if err := b.ask(fmt.Sprintf("%s, %s", q.question, *b.bare.text["unit"]), "", b.length(q.flag)); err != nil {
			return err
		}
	}
	for _, q := range []struct {
		flag, question, standard string
		answers                  map[string]string
	}{
		{"counts", "Turn the crank a little by hand in the running direction.\nDid the protractor's number rise or fall", notTried,
			map[string]string{"rise": "with", "r": "with", "fall": "against", "f": "against"}},
		{"wraps", "Where its scale comes round: 360, 180 (180 both ways), 90 (quadrants) or 720 (both turns of a cycle)", "360",
			map[string]string{"720": "720", "360": "360", "180": "180", "90": "90"}},
		{"gauge", "What reads the piston: dial, rod or borescope", "dial",
			map[string]string{"dial": "dial", "rod": "rod", "borescope": "borescope", "d": "dial", "r": "rod", "b": "borescope"}},
		{"gauge-counts", "Its numbers grow as the piston goes down or up", "down",
			map[string]string{"down": "down", "up": "up", "d": "down", "u": "up"}},
	} {
		if b.flags.Changed(q.flag) {
			continue
		}
		if err := b.ask(q.question, q.standard, b.choice(q.flag, q.answers)); err != nil {
			return err
		}
	}
	return nil
}

// text takes one line of text.
func (b beginning) text(flag string) func(string) error {
	return func(answer string) error { return b.flags.Set(flag, plainLine(answer)) }
}

// length takes a length above zero, or nothing, that makes an engine which turns.
func (b beginning) length(flag string) func(string) error {
	return func(answer string) error {
		if answer != "" {
			if length, err := measure.ParseLength(answer, *b.bare.text["unit"]); err != nil || length <= 0 {
				return errors.New("expected a length such as 81.4, or nothing")
			}
		}
		if err := b.flags.Set(flag, answer); err != nil {
			return err
		}
		if _, err := b.bare.setup(); err != nil {
			return errors.Join(fmt.Errorf("that cannot be: %w", err), b.flags.Set(flag, ""))
		}
		return nil
	}
}

// choice takes one of a few words.
func (b beginning) choice(flag string, answers map[string]string) func(string) error {
	return func(answer string) error {
		if answer == notTried {
			return nil
		}
		value, ok := answers[strings.ToLower(answer)]
		if !ok {
			var words []string
			for word := range answers {
				if len(word) > 1 {
					words = append(words, word)
				}
			}
			slices.Sort(words)
			return fmt.Errorf("type %s; or press Ctrl-C to leave, and nothing is written", strings.Join(words, " or "))
		}
		return b.flags.Set(flag, value)
	}
}
