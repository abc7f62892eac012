package session

import (
	"errors"
	"slices"
	"strings"

	"evendrop/cmd/internal/session/marking"
	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
)

// card takes what a lobe's card says, of one that is read and of one that will be.
func (s *Session) card(rest string) (do func() error, err error) {
	c, rest, err := typed.OfCam("card", rest, s.Job.Lobes)
	if err != nil {
		return nil, errCard()
	}
	keys, err := s.cardKeys(rest)
	if err != nil {
		return nil, err
	}
	return func() error {
		if err := s.carded(c); err != nil {
			return err
		}
		name := s.Job.Lobes[slices.IndexFunc(s.Job.Lobes, c.Is)].Name
		if err := s.amend(amend.Keyed("lobe", name, keys...)); err != nil {
			return err
		}
		s.answerCard(name)
		return nil
	}, nil
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
	return s.amend(amend.With(s.newLobe(c, file)))
}

// errCard is how a card is typed.
func errCard() error {
	return errors.New("card goes with a lobe and its card: type for example " + typed.Examples["card"])
}

// cardKeys is what a card says, as a job file has it: opening and closing or the centre, then
// the checking lift and the limit either way.
func (s *Session) cardKeys(says string) (keys []amend.Key, err error) {
	says, limit, limited := strings.Cut(says, " limit ")
	says, lift, at := strings.Cut(says, " at ")
	if at {
		if _, err := measure.ParseLength(lift, s.Job.Unit); err != nil {
			return nil, errCard()
		}
		keys = append(keys, amend.Key{Name: "lift", Value: marking.Angle(strings.TrimSpace(lift))})
	}
	if a, b, err := s.twoAngles(says); err == nil {
		keys = append(keys, amend.Key{Name: "opens", Value: a.literal}, amend.Key{Name: "closes", Value: b.literal})
	} else if _, err := measure.ParseAngle(says); err == nil {
		keys = append(keys, amend.Key{Name: "centre", Value: marking.Angle(strings.TrimSpace(says))})
	} else {
		return nil, errCard()
	}
	if limited {
		degrees, ok := typed.Degrees(limit, 360)
		if !ok {
			return nil, errCard()
		}
		keys = append(keys, amend.Key{Name: "limit", Value: degrees})
	}
	return keys, nil
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
