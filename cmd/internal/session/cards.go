package session

import (
	"slices"

	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/sheet"
)

// card takes what a lobe's card says, of one that is read and of one that will be.
func (s *Session) card(rest string) (do func() error, err error) {
	c, keys, err := typed.Card(rest, s.Job, s.protractor())
	if err != nil {
		return nil, err
	}
	return func() error {
		return s.onItsCam(c, "card", func() error { return s.keepCard(c, keys) })
	}, nil
}

// keepCard puts what a card says into its lobe, whose cam is known.
func (s *Session) keepCard(c typed.Cam, keys []amend.Key) error {
	if err := s.carded(c); err != nil {
		return err
	}
	name := s.Job.Lobes[slices.IndexFunc(s.Job.Lobes, c.Is)].Name
	if err := s.amend(amend.Keyed("lobe", name, keys...)); err != nil {
		return err
	}
	s.answerCard(name)
	return nil
}

// carded takes a lobe into the job that is not read yet, so that its card can stand in it and a
// plan say which lifts to read.
func (s *Session) carded(c typed.Cam) error {
	if slices.ContainsFunc(s.Job.Lobes, c.Is) {
		return nil
	}
	file, err := s.lobeFile(c)
	if err != nil {
		return err
	}
	if _, err := s.open(file, sheet.Lifts); err != nil {
		return err
	}
	return s.amend(amend.With(c.Table(s.Job, s.set, s.firstRead(), file)))
}

// answerCard says that a card was kept, and what its lobe comes to or still needs.
func (s *Session) answerCard(name string) {
	what := []string{"Kept: the card of " + name + "."}
	f, err := s.found()
	if err == nil {
		what = append(what, f.LobeSentence(name), f.LobeLacks(name))
	}
	s.answer(s.state.Block([]string{joined(what)}))
	if err == nil {
		s.judgedBy(f)
	}
}
