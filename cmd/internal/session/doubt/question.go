package doubt

import (
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// Question is what is asked about readings that are kept, and answered with one key.
// Whoever types another reading leaves them as they are.
type Question struct {
	Text  string
	About []evidence.Reading // as they stand; none where what was typed was not kept
	Takes []Take             // what may have been meant; m takes the first

	keys string // what each of them does, for who types; a page has buttons
	open bool   // it may be another reading that is wrong
}

// Take is one thing that may have been meant.
type Take struct {
	Keys  []string               // that are typed for it, besides Meant
	Shows string                 // what it takes, in a word or two
	Line  typed.Line             // that puts it right
	Turn  evidence.TurnDirection // which puts it right, written over what the question is about; 0 where Line does
}

// The keys of a question.
const (
	Keep  = "k"
	Meant = "m"
)

// asks takes a question down, and is what it says.
func (d *Doubts) asks(q *Question) string {
	d.Question = q
	if !q.open {
		d.doubted = append(d.doubted, q.About...)
	}
	return q.said()
}

// said is the question with its keys.
func (q *Question) said() string { return q.Text + " " + q.keys }

// Answer is what a key says while there is a question, and what it takes of it, nil where the
// readings stay as typed; not of any other line.
func (d *Doubts) Answer(line string) (says string, takes *Take, was bool) {
	q := d.Question
	key := strings.ToLower(strings.TrimSpace(line))
	if q == nil || key == "" {
		return "", nil, false
	}
	if key == Keep || key == typed.KeepIt {
		d.Question = nil
		return d.keepAsTyped(q), nil, true
	}
	for i, t := range q.Takes {
		if slices.Contains(t.Keys, key) || i == 0 && key == Meant {
			d.Question = nil
			return "", &t, true
		}
	}
	return "", nil, false
}

// keepAsTyped takes readings for right that were asked about, and says so.
func (d *Doubts) keepAsTyped(q *Question) string {
	d.confirmed = append(d.confirmed, q.About...)
	switch {
	case len(q.About) == 0:
		return "No such angle is on this protractor, so it is not kept: type it again."
	case len(q.About) > 1:
		return "They are kept as they were typed."
	}
	return "It is kept as it was typed."
}

// Confirmed tells whether a reading was asked about and kept by a key.
func (d *Doubts) Confirmed(r evidence.Reading) bool { return sheet.Has(d.confirmed, r) }

// Forget lets go of a question that another line leaves unanswered.
func (d *Doubts) Forget(order string) {
	switch order {
	case typed.List, typed.Plot, typed.ShowNext, typed.Help, typed.Nothing, typed.TakeRemark, typed.KeepIt, typed.Meant:
	default:
		d.Question = nil
	}
}

// Left is readings that were asked about and neither kept by a key nor put right.
func (d *Doubts) Left() (list []evidence.Reading) {
	open := len(d.several) > 1
	for _, r := range d.several { // one of them is wrong, and none was put right
		open = open && sheet.Has(d.State.Readings, r)
	}
	for _, r := range d.State.Readings {
		if (sheet.Has(d.doubted, r) || open && sheet.Has(d.several, r)) && !sheet.Has(d.confirmed, r) {
			list = append(list, r)
		}
	}
	return list
}

// LeftInWords names, at the end, the readings that are still doubted; "" without any.
func (d *Doubts) LeftInWords() string {
	var names []string
	for _, r := range d.Left() {
		names = append(names, d.named(r))
	}
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("Asked about and left as typed: %s. Put right what is wrong with fix or strike.", words.And(names))
}
