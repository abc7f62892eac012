package session

import (
	"fmt"
	"strings"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/toml"
)

// sight is something that two angles tell of TDC, and what the job file calls it.
type sight struct {
	list          string // in the job file
	first, second string // keys of the angles; "" in a bare pair
	what          string // for a person
	example       string
}

var sights = map[string]sight{
	"stop":  {"stops", "", "", "positive stop", "stop -31.5 24: where the piston touches it on the rising side, and on the falling"},
	"dwell": {"dwell", "still", "moves", "dwell", "dwell -6.2 9.1: where the piston stands still, and where it moves again, in the order turned"},
	"view":  {"views", "before", "after", "equal view", "view 351.9 2.9: two angles at which the borescope shows the same, in the order turned"},
}

// see takes a stop, a dwell or a view.
func (s *Session) see(order, rest string) (do func() error, err error) {
	at := sights[order]
	turn, rest := s.turnedFirst(rest)
	a, b, err := typed.TwoAngles(rest, s.protractor())
	if err != nil {
		return nil, fmt.Errorf("%s goes with two angles: type for example %s (%w)", order, at.example, err)
	}
	if s.set > 1 {
		return nil, fmt.Errorf("a %s counts in set 1, before the protractor was moved: it cannot be kept in set %d", at.what, s.set)
	}
	what, item := fmt.Sprintf("%s %s and %s", at.what, a.Text, b.Text), toml.List(a.Literal, b.Literal)
	if at.first != "" {
		item = toml.Literal(fmt.Sprintf("{ %s = %s, %s = %s, turn = %q }", at.first, a.Literal, at.second, b.Literal, turn))
		what += ", turning " + turn.String()
	}
	d := &amended{s, what, amend.Seen(s.Number, at.list, item), amend.Unseen(s.Number, at.list, item)}
	return func() error {
		s.turnTo(turn)
		before := s.state
		if err := d.redo(); err != nil {
			return err
		}
		s.did(d)
		if order == "stop" {
			s.caution(caution.Stop)
		}
		s.answer(s.state.After(before, what+"."))
		s.judged()
		return nil
	}, nil
}

// turnedFirst parts the way that the crank was turned, where it is said first, from what
// follows it; else it is turned as before.
func (s *Session) turnedFirst(text string) (turn evidence.TurnDirection, rest string) {
	word, rest, _ := strings.Cut(text, " ")
	if turn, said := typed.Turn(word); said {
		return turn, rest
	}
	return s.turn, text
}

// protractor is the job's, in the way that the readings so far are written.
func (s *Session) protractor() evidence.Protractor {
	return s.Job.Setup.Protractor.WrittenAs(s.state.Readings)
}

// amended is a change of the job file; a deed.
type amended struct {
	session        *Session
	what           string
	doing, undoing amend.Edit
}

func (d *amended) words() string { return d.what }
func (d *amended) undo() error   { return d.session.amend(d.undoing) }
func (d *amended) redo() error   { return d.session.amend(d.doing) }

// table is the deed of adding a table to the job file, which has its name by a key.
func (s *Session) table(kind, key, name string, text []byte) *amended {
	return &amended{s, kind + " " + name, amend.With(text), amend.Without(kind, key, name)}
}

// amend changes the job file, and goes on with the job that it is then.
func (s *Session) amend(edit amend.Edit) error {
	j, err := s.Files.Amend(edit)
	if err != nil {
		return err
	}
	s.Job = j
	s.take(s.state.Readings)
	return nil
}

// others is the cylinder's evidence that is no reading: what it is of, in words.
func others(c evidence.Cylinder) (list []string) {
	for _, o := range []struct {
		n    int
		what string
	}{{len(c.Stops), "stop"}, {len(c.Dwell), "dwell"}, {len(c.Views), "view"}} {
		if o.n > 0 {
			list = append(list, words.Count(o.n, o.what))
		}
	}
	return list
}
