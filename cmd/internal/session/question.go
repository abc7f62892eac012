package session

import (
	"slices"
	"strings"

	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// question is what is asked about readings that are kept, and answered with one key.
// Whoever types another reading leaves them as they are.
type question struct {
	text  string
	keys  string             // what each of them does, for who types; a page has buttons
	about []evidence.Reading // as they stand
	takes []take             // what may have been meant; m takes the first
	open  bool               // it may be another reading that is wrong
}

// take is one thing that may have been meant.
type take struct {
	keys  []string // that are typed for it, besides m
	shows string   // what it takes, in a word or two
	do    func() error
}

// The keys of a question.
const (
	keyKeep  = "k"
	keyMeant = "m"
)

// asks takes a question down, and is what it says.
func (s *Session) asks(q *question) string {
	s.question = q
	if !q.open {
		s.doubted = append(s.doubted, q.about...)
	}
	return q.said()
}

// said is the question with its keys.
func (q *question) said() string { return q.text + " " + q.keys }

// answered does what a key asks for while there is a question; not of any other line.
func (s *Session) answered(line string) (was bool, err error) {
	q := s.question
	key := strings.ToLower(strings.TrimSpace(line))
	if q == nil || key == "" {
		return false, nil
	}
	if key == keyKeep || key == typed.KeepIt {
		s.question = nil
		s.keepAsTyped(q)
		return true, nil
	}
	for i, t := range q.takes {
		if slices.Contains(t.keys, key) || i == 0 && key == keyMeant {
			s.question = nil
			return true, t.do()
		}
	}
	return false, nil
}

// keepAsTyped takes readings for right that were asked about.
func (s *Session) keepAsTyped(q *question) {
	s.confirmed = append(s.confirmed, q.about...)
	what := "It is kept as it was typed."
	switch {
	case len(q.about) == 0:
		what = "No such angle is on this protractor, so it is not kept: type it again."
	case len(q.about) > 1:
		what = "They are kept as they were typed."
	}
	s.tell("%s", what)
}

// forgets lets go of a question that another line leaves unanswered.
func (s *Session) forgets(order string) {
	switch order {
	case typed.List, typed.Plot, typed.ShowNext, typed.Help, typed.Nothing, typed.TakeRemark, typed.KeepIt, typed.Meant:
	default:
		s.question = nil
	}
}

// stillDoubted is readings that were asked about and neither kept by a key nor put right.
func (s *Session) stillDoubted() (list []evidence.Reading) {
	open := len(s.several) > 1
	for _, r := range s.several { // one of them is wrong, and none was put right
		open = open && sheet.Has(s.state.Readings, r)
	}
	for _, r := range s.state.Readings {
		if (sheet.Has(s.doubted, r) || open && sheet.Has(s.several, r)) && !sheet.Has(s.confirmed, r) {
			list = append(list, r)
		}
	}
	return list
}

// tellDoubted names, at the end, the readings that are still doubted.
func (s *Session) tellDoubted() {
	var names []string
	for _, r := range s.stillDoubted() {
		names = append(names, s.named(r))
	}
	if len(names) > 0 {
		s.tell("Asked about and left as typed: %s. Put right what is wrong with fix or strike.", words.And(names))
	}
}
