package session

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
)

// typed is what a line asks for.
type typed struct {
	order string // one of orders, or what is left of the line
	entry sheet.Entry
	note  string
	turn  evidence.TurnDirection // 0 unless it was said
	set   int                    // of an order of a new set

	number int // of the reading that is to be corrected, from 1
}

// The orders. A reading, a remark and an empty line are orders too.
const (
	takeReading = "reading"
	takeRemark  = "remark"
	nothing     = "nothing"
	turnOnly    = "turn"
	newSet      = "set"
	undo        = "undo"
	redo        = "redo"
	fix         = "fix"
	strike      = "strike"
	keepIt      = "keep"
	meant       = "meant"
	list        = "list"
	plot        = "plot"
	showNext    = "next"
	help        = "help"
	done        = "done"
)

var orders = map[string]string{
	"undo": undo, "u": undo, "retype": undo, "redo": redo, "keep": keepIt, "k": keepIt, "m": meant, "list": list, "l": list, "plot": plot, "p": plot,
	"next": showNext, "n": showNext, "help": help, "h": help, "?": help, "done": done, "quit": done, "exit": done, "q": done,
}

// turns are the words that say which way the crank is turned.
var turns = map[string]evidence.TurnDirection{
	"f": evidence.Forward, "forward": evidence.Forward, "b": evidence.Backward, "back": evidence.Backward, "backward": evidence.Backward,
}

func parseLine(line string, setup evidence.Setup, unit string) (typed, error) {
	body, note, _ := strings.Cut(legible.Plain(line), "#")
	t := typed{note: strings.TrimSpace(note)}
	words := strings.Fields(body)
	switch {
	case len(words) == 0 && t.note != "":
		t.order = takeRemark
		return t, nil
	case len(words) == 0:
		t.order = nothing
		return t, nil
	}
	first := strings.ToLower(words[0])
	if order, ok := orders[first]; ok {
		t.order = order
		return t, alone(order, first, words[1:])
	}
	if first == newSet {
		t.order = newSet
		return t, t.ofSet(words[1:])
	}
	if first == fix || first == strike {
		return t.ofNumber(first, words, setup, unit)
	}
	if turn, ok := turns[first]; ok {
		t.turn = turn
		if len(words) == 1 {
			t.order = turnOnly
			return t, nil
		}
		body = strings.TrimSpace(body)[len(words[0]):]
	}
	t.order = takeReading
	var err error
	t.entry, err = parseReading(body, setup, unit)
	t.entry.Note = t.note
	return t, err
}

// alone refuses an order that has something behind it.
func alone(order, first string, rest []string) error {
	switch {
	case len(rest) == 0:
		return nil
	case order == undo || order == redo:
		return fmt.Errorf("%s goes alone, for the last thing done: type %[1]s; strike takes a reading out by its number, as in strike 3", first)
	}
	return fmt.Errorf("%s goes alone: type %[1]s, or help", first)
}

// ofSet takes a set's number.
func (t *typed) ofSet(words []string) error {
	if len(words) == 1 {
		if n, err := strconv.Atoi(words[0]); err == nil && n >= 1 && n <= evidence.MostSets {
			t.set = n
			return nil
		}
	}
	return fmt.Errorf("set goes with its number, from 1 to %d: type for example set 2 once the protractor is moved on the crank", evidence.MostSets)
}

// between is what may stand between an angle and a depth. A comma within a number
// is none.
var between = regexp.MustCompile(`[;\s]+|,\s+`)

// parseReading reads an angle and a depth. The one part of an angle such as 12 BTDC
// and of a depth such as 0.13 in may stand apart from the other, so every place
// between is tried.
func parseReading(body string, setup evidence.Setup, unit string) (sheet.Entry, error) {
	body = strings.TrimSpace(body)
	parts := between.Split(body, -1)
	if angle, depth, ok := strings.Cut(body, ","); ok && len(parts) == 1 && strings.ContainsAny(body, ".") {
		parts = []string{angle, depth} // 342.5,3.29: no number has both
	}
	for i := 1; i < len(parts); i++ {
		angle, depth := strings.Join(parts[:i], " "), strings.Join(parts[i:], " ")
		written, err := measure.ParseAngle(angle)
		if err != nil {
			continue
		}
		if _, err = measure.ParseLength(depth, unit); err != nil {
			continue
		}
		e := sheet.Entry{Angle: angle, Depth: depth}
		if _, err = setup.Protractor.Crank(written); err != nil {
			return e, &notOnScale{err, written}
		}
		return e, nil
	}
	const most = 30
	if runes := []rune(body); len(runes) > most {
		body = string(runes[:most]) + "..."
	}
	if len(parts) == 1 && parts[0] != "" {
		if _, err := measure.ParseAngle(parts[0]); err == nil {
			return sheet.Entry{}, fmt.Errorf("%q is one number: type an angle and a depth with a space between, such as 342.5 3.29", body)
		}
	}
	return sheet.Entry{}, fmt.Errorf("%q is not a reading: type an angle and a depth with a space between, such as 342.5 3.29, or help", body)
}
