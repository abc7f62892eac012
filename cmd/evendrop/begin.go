package main

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"evendrop/cmd/internal/answer/newjob"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/measure"
)

// beginning is a job about to be made.
type beginning struct {
	console
	*flags.Set
	setupFlags
	yes         *bool
	name, title *string
}

func runBegin(args []string, c console) error {
	b := beginning{console: c, Set: flags.New("begin", "evendrop begin DIR [--stroke MM --rod MM] [...]",
		`Makes a commented job file and a readings file to fill in. On a terminal it asks
for what the flags leave out; through a pipe nothing waits, and what is left out
is unknown or usual. No file is overwritten.`)}
	b.yes = b.Bool("yes", "the cautions have been read")
	b.name, b.title = b.oneLine("name", "of the engine"), b.oneLine("title", "of the job")
	b.setupFlags = newSetupFlags(b.Set)
	b.Elsewhere("is for find: leave it out, and write it into the job file that begin makes", "readings", "pin", "pin-limit")
	rest, err := c.parse(b.Set, args)
	if err != nil {
		return err
	}
	if len(rest) != 1 {
		return misuse("begin takes one folder: type for example evendrop begin bench --stroke 81.4 --rod 133 --gauge dial")
	}
	if _, err := b.setup(); err != nil {
		return err
	}
	begun, err := newjob.In(rest[0])
	if err != nil {
		return err
	}
	if err := b.cautions(); err != nil {
		return err
	}
	if c.terminal {
		if err := b.questions(); err != nil {
			return err
		}
	}
	return b.make(begun)
}

// oneLine adds a flag of one line of text.
func (b beginning) oneLine(name, help string) *string {
	line := new(string)
	flags.Var(b.Set, line, name, "TEXT", help, func(text string) (string, error) {
		if strings.ContainsFunc(text, unicode.IsControl) {
			return "", errors.New("expected one line of text")
		}
		return text, nil
	})
	return line
}

// cautions come before anything else. Somebody at a terminal says to have read
// them.
func (b beginning) cautions() error {
	page, err := caution.Page(b.width)
	if err != nil {
		return err
	}
	fmt.Fprintf(b.stderr, "%s\n", page)
	if *b.yes || !b.terminal {
		return nil
	}
	return b.ask("Type yes when you have read the cautions and will keep to them", "", func(answer string) error {
		if !strings.EqualFold(answer, "yes") {
			return errors.New("nothing is written before that: type yes, or press Ctrl-C to leave")
		}
		return nil
	})
}

// make makes the job of the flags and the answers.
func (b beginning) make(begun newjob.Begun) (err error) {
	begun.Title, begun.Unit, begun.CountsUntried = *b.title, *b.unit, !b.Given("counts")
	if begun.Setup, err = b.setup(); err != nil {
		return err
	}
	if *b.unit == "in" {
		begun.Setup = newjob.InInches(begun.Setup, b.Given)
	}
	begun.Setup.Engine.Name = strings.TrimSpace(*b.name)
	page, err := begun.Text(b.width)
	if err != nil {
		return err
	}
	return begun.Make(func() error { return b.print(page) })
}

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
