package session

import (
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/session/typed"
)

// order takes what stands behind its word, and is what is to be done. An error says that
// it was not understood, and what to type; an error of do that nothing was kept.
type order func(rest string) (do func() error, err error)

// evidence are the orders of all that is no reading of the piston.
func (s *Session) evidence() map[string]order {
	orders := map[string]order{
		"lift": s.lift, "lobe": s.readLobe, "card": s.card, "piston": s.piston, "mark": s.mark, "cylinder": s.goToCylinder, "look": s.look,
		"sheet": s.sheet, "photo": s.photo, "drive": s.drive, "crowns": s.crowns, "crown": s.crowns, "throws": s.throws, "throw": s.throws,
	}
	for word := range sights {
		orders[word] = func(rest string) (func() error, error) { return s.see(word, rest) }
	}
	return orders
}

// free are the orders whose words may have a # in them.
var free = map[string]bool{"sheet": true, "photo": true}

// other does what a line says that is no reading of the piston; false where it is one.
func (s *Session) other(line string) (is bool, err error) {
	line = strings.TrimSpace(legible.Plain(line))
	if s.asked != nil {
		return true, s.reply(line)
	}
	word, rest, _ := strings.Cut(line, " ")
	if word = strings.ToLower(strings.TrimSuffix(word, ":")); !free[word] {
		body, _, _ := strings.Cut(line, "#")
		word, rest, _ = strings.Cut(strings.TrimSpace(body), " ")
		word = strings.ToLower(strings.TrimSuffix(word, ":"))
	}
	_, turned := typed.Turn(word)
	if seen, more, _ := strings.Cut(rest, " "); turned && sights[strings.ToLower(seen)].what != "" {
		word, rest = strings.ToLower(seen), word+" "+more // b dwell 2 -10 is dwell b 2 -10
	}
	take, is := s.evidence()[word]
	if !is {
		return s.ofLobe(line)
	}
	do, err := take(strings.TrimSpace(rest))
	if err != nil {
		s.bad++
		s.tell("%v", err)
		return true, nil
	}
	return true, do()
}

// kept does what changes the store, for somebody who may type it again where it fails. A
// line that could not be kept ends a pipe, whose next lines may count on it.
func (s *Session) kept(err error) error {
	if err != nil && s.Patient {
		s.notKept(err)
		return nil
	}
	return err
}
