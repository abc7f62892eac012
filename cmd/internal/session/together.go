package session

import (
	"fmt"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
)

// together is deeds that are undone and done again as one.
type together struct {
	what  string
	deeds []deed
}

func (t *together) words() string { return t.what }

func (t *together) undo() error {
	for i := len(t.deeds) - 1; i >= 0; i-- {
		if err := t.deeds[i].undo(); err != nil {
			return err
		}
	}
	return nil
}

func (t *together) redo() error {
	for _, d := range t.deeds {
		if err := d.redo(); err != nil {
			return err
		}
	}
	return nil
}

// turned writes another turn over readings, the last ones, and goes on turning so.
func (s *Session) turned(list []evidence.Reading, turn evidence.TurnDirection) error {
	before := s.state
	first, last := s.doubts.Number(list[0]), s.doubts.Number(list[len(list)-1])
	all := &together{what: fmt.Sprintf("readings %d to %d turned %s", first, last, turn)}
	for _, r := range list {
		c := &correction{session: s, why: whyFixed, last: true, number: s.Number}
		done, readings, err := s.Store.Correct(sheet.Correction{Strike: &r, Why: whyFixed, Type: &sheet.Entry{Turn: turn}})
		if err != nil {
			return s.goneOr(err, func() {})
		}
		c.counts, c.struck = done.Counts, done.Struck
		all.deeds = append(all.deeds, c)
		s.take(readings)
	}
	s.did(all)
	s.turnTo(turn)
	s.answer(s.state.Corrected(before, fmt.Sprintf("Readings %d to %d were turned %s. So are the next ones.", first, last, turn), ""))
	return nil
}
