// Package typed is what a line at the bench says, a reading, an order, a lobe, a sheet or a
// photo, before anything is done. It knows no session.
package typed

import (
	"errors"
	"fmt"
	"iter"
	"regexp"
	"strconv"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
)

// Line is what a line asks for.
type Line struct {
	Order string // one of orders, or what is left of the line
	Entry sheet.Entry
	Note  string
	Turn  evidence.TurnDirection // 0 unless it was said
	Set   int                    // of an order of a new set

	Number int // of the reading that is to be corrected, from 1
}

// The orders. A reading, a remark and an empty line are orders too.
const (
	TakeReading = "reading"
	TakeRemark  = "remark"
	Nothing     = "nothing"
	TurnOnly    = "turn"
	NewSet      = "set"
	Undo        = "undo"
	Redo        = "redo"
	Fix         = "fix"
	Strike      = "strike"
	KeepIt      = "keep"
	Meant       = "meant"
	List        = "list"
	Plot        = "plot"
	ShowNext    = "next"
	Help        = "help"
	Done        = "done"
)

var orders = map[string]string{
	"undo": Undo, "u": Undo, "retype": Undo, "redo": Redo, "keep": KeepIt, "k": KeepIt, "m": Meant, "list": List, "l": List, "plot": Plot, "p": Plot,
	"next": ShowNext, "n": ShowNext, "help": Help, "h": Help, "?": Help, "done": Done, "quit": Done, "exit": Done, "q": Done,
}

// turns are the words that say which way the crank is turned.
var turns = map[string]evidence.TurnDirection{
	"f": evidence.Forward, "forward": evidence.Forward, "b": evidence.Backward, "back": evidence.Backward, "backward": evidence.Backward,
}

// Turn is the way that a word says the crank is turned; false of another word.
func Turn(word string) (turn evidence.TurnDirection, ok bool) {
	turn, ok = turns[strings.ToLower(word)]
	return turn, ok
}

// Parse takes a line; lengths without a unit are in this one, mm or in. An error says what to
// type, and the order is what was taken of it.
func Parse(line string, setup evidence.Setup, unit string) (Line, error) {
	body, note, _ := strings.Cut(legible.Plain(line), "#")
	t := Line{Note: strings.TrimSpace(note)}
	words := strings.Fields(body)
	switch {
	case len(words) == 0 && t.Note != "":
		t.Order = TakeRemark
		return t, nil
	case len(words) == 0:
		t.Order = Nothing
		return t, nil
	}
	first := strings.ToLower(words[0])
	if order, ok := orders[first]; ok {
		t.Order = order
		return t, alone(order, first, words[1:])
	}
	if first == NewSet {
		t.Order = NewSet
		return t, t.ofSet(words[1:])
	}
	if first == Fix || first == Strike {
		return t.ofNumber(first, words, setup, unit)
	}
	if turn, ok := Turn(first); ok {
		t.Turn = turn
		if len(words) == 1 {
			t.Order = TurnOnly
			return t, nil
		}
		body = strings.TrimSpace(body)[len(words[0]):]
	}
	t.Order = TakeReading
	var err error
	t.Entry, err = Reading(body, setup, unit)
	t.Entry.Note = t.Note
	return t, err
}

// alone refuses an order that has something behind it.
func alone(order, first string, rest []string) error {
	switch {
	case len(rest) == 0:
		return nil
	case order == Undo || order == Redo:
		return fmt.Errorf("%s goes alone, for the last thing done: type %[1]s; strike takes a reading out by its number, as in strike 3", first)
	}
	return fmt.Errorf("%s goes alone: type %[1]s, or help", first)
}

// ofSet takes a set's number.
func (t *Line) ofSet(words []string) error {
	if len(words) == 1 {
		if n, err := strconv.Atoi(words[0]); err == nil && n >= 1 && n <= evidence.MostSets {
			t.Set = n
			return nil
		}
	}
	return fmt.Errorf("set goes with its number, from 1 to %d: type for example set 2 once the protractor is moved on the crank", evidence.MostSets)
}

// between is what may stand between an angle and a depth. A comma within a number
// is none.
var between = regexp.MustCompile(`[;\s]+|,\s+`)

// halves is every way to part a text into two things, each of which may have blanks in it.
func halves(parts []string) iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		for i := 1; i < len(parts); i++ {
			if !yield(strings.Join(parts[:i], " "), strings.Join(parts[i:], " ")) {
				return
			}
		}
	}
}

// inHalves is halves of a text as it is typed.
func inHalves(text string) iter.Seq2[string, string] {
	return halves(between.Split(strings.TrimSpace(text), -1))
}

// Reading reads an angle and a depth. The one part of an angle such as 12 BTDC
// and of a depth such as 0.13 in may stand apart from the other, so every place
// between is tried. An angle that the protractor cannot show is a *NotOnScale.
func Reading(body string, setup evidence.Setup, unit string) (sheet.Entry, error) {
	body = strings.TrimSpace(body)
	parts := between.Split(body, -1)
	if angle, depth, ok := strings.Cut(body, ","); ok && len(parts) == 1 && strings.ContainsAny(body, ".") {
		parts = []string{angle, depth} // 342.5,3.29: no number has both
	}
	for angle, depth := range halves(parts) {
		written, err := measure.ParseAngle(angle)
		if err != nil {
			continue
		}
		if _, err = measure.ParseLength(depth, unit); err != nil {
			continue
		}
		e := sheet.Entry{Angle: angle, Depth: depth}
		if _, err = setup.Protractor.Crank(written); err != nil {
			return e, &NotOnScale{err, written}
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

// ofNumber takes what is to be done with a reading of the list.
func (t Line) ofNumber(order string, parts []string, setup evidence.Setup, unit string) (Line, error) {
	t.Order = order
	usage := errors.New("strike goes with a reading's number: type for example strike 3; the list has the numbers")
	if order == Fix {
		usage = errors.New("fix goes with a reading's number and what is right: type for example fix 3 342.5 2.22; the list has the numbers")
	}
	rest := parts[1:]
	if len(rest) == 0 {
		return t, usage
	}
	n, err := strconv.Atoi(rest[0])
	if rest = rest[1:]; err != nil || n < 1 || (len(rest) == 0) != (order == Strike) {
		return t, usage
	}
	t.Number = n
	if order == Strike {
		return t, nil
	}
	if turn, ok := Turn(rest[0]); ok && len(rest) > 1 {
		t.Turn, rest = turn, rest[1:]
	}
	t.Entry, err = Reading(strings.Join(rest, " "), setup, unit)
	return t, err
}

// NotOnScale is an angle that the protractor cannot show.
type NotOnScale struct {
	error
	Written evidence.Written
}
