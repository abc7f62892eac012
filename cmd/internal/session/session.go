// Package session is a sitting at the bench: a line is typed, what it says is kept, and
// where TDC stands is answered. It knows no terminal and no page: whoever shows it gives
// it lines and a store of readings, and shows what it says.
package session

import (
	"errors"
	"fmt"
	"slices"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/session/doubt"
	"evendrop/cmd/internal/session/standing"
	"evendrop/cmd/internal/session/typed"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/plan"
)

// Store is where readings are kept, such as a notebook.Notebook. What it returned without an
// error is kept whatever happens next.
type Store interface {
	// Readings are those that it holds now.
	Readings() ([]evidence.Reading, error)
	// Add keeps a reading, and is all of them.
	Add(sheet.Entry) ([]evidence.Reading, error)
	// Remark keeps a note beside them.
	Remark(text string) error
	// Correct puts readings right, and is all of them then. sheet.ErrGone is that what it is
	// about is no longer there.
	Correct(sheet.Correction) (sheet.Corrected, []evidence.Reading, error)
	// TakeAsIs goes on with what it holds after *notebook.Emptied.
	TakeAsIs()
	// News is what others made of it since it was asked last; "" for nothing.
	News() string
	// Lost is how many readings that were kept here are gone.
	Lost() int
}

// Session is one sitting.
type Session struct {
	Job     job.Job
	Number  int    // of the cylinder; 0: the job's first
	File    string // what the store is called
	Ground  plan.Ground
	Files   Files
	Store   Store // of the cylinder's readings; nil: of Files
	Width   int   // of a line of text, in characters; Unbroken
	Patient bool  // who types may type a line again that was not kept

	turn      evidence.TurnDirection // of the readings to come
	memory    memory
	set       int // of the readings to come, from 1
	state     standing.State
	cautioned []string // said before
	wished    int      // how often early readings were asked for again, as State.Wished
	bad       int      // lines that were not understood
	said      []Said
	deeds     deeds

	pages   []page     // sheets that were opened
	asked   *questions // that the next line answers; nil of none
	lobe    string     // that is read in place of the piston; "" of none
	cam     typed.Cam  // that it is on
	liftsIn page
	// lobeTold tells that its events were said at its last lift.
	lobeTold bool
	lifts    []evidence.Reading
	verdict  []string // what was last said of the marks
	doubts   doubt.Doubts
}

// Said is something to show.
type Said struct {
	Kind Kind
	Text string
	News []string // the paragraphs of an answer that come once and are not where the job stands: what moved, what is suspect
}

// Kind is what is said.
type Kind int

// A remark beside the answers is one paragraph, to be broken into lines; text as it
// stands is beside them too, and is in lines, as answers are.
const (
	Remark Kind = iota
	AsItStands
	Answer
)

// The ends of a sitting that did not go well.
var (
	ErrNotUnderstood = errors.New("some lines were not understood: see above")
	ErrLost          = errors.New("readings that were kept are no longer in the file: see above")
)

// Open begins with what the store holds.
func (s *Session) Open() ([]Said, error) {
	s.turn = evidence.Forward
	if s.Width == standing.Unbroken { // a page, which has no commands
		s.tell("%s", caution.OnPage())
	} else {
		s.tell("%s", caution.Line)
	}
	if s.Store == nil {
		if err := s.openFirst(); err != nil {
			return s.flush(), err
		}
	}
	readings, err := s.Store.Readings()
	if err != nil {
		return s.flush(), err
	}
	if s.turn = lastTurn(readings); len(readings) > 0 {
		s.tell("Going on turning %s, as in the last reading: type f or b first when it is the other way.", s.turn)
	}
	if s.set = lastSet(readings); s.set > 1 {
		s.tell("These readings go on in set %d, as the last one: type set %d once the protractor is moved on the crank.", s.set, s.set+1)
	}
	s.take(readings)
	return s.flush(), nil
}

// Prompt is what the next line is taken as: an answer, a lift, or a reading with the crank
// turned one way.
func (s *Session) Prompt() string {
	switch {
	case s.asked != nil:
		return s.asked.of
	case s.lobe != "":
		return string(s.cam.Valve) + " lobe, " + s.turn.String()
	}
	return s.turn.String()
}

// Standing is where the job stands.
func (s *Session) Standing() string { return s.state.Standing() }

// Obey does what a line asks for, and tells whether it ends the sitting. An error is of
// a line that could not be kept, whose next ones may count on it.
func (s *Session) Obey(line string) (said []Said, ended bool, err error) {
	ended, err = s.obey(line)
	s.tellNews()
	if next, seek := s.state.Next, s.state.Seek; err == nil &&
		(next != nil && next.Turn == evidence.Backward || seek != nil && seek.Turn == evidence.Backward) {
		s.warnOfTurningBack()
	}
	return s.flush(), ended, err
}

// End is where the job stands with what the store holds at the end.
func (s *Session) End() ([]Said, error) {
	readings, err := s.Store.Readings()
	s.tellNews()
	if err != nil {
		return s.flush(), err
	}
	s.take(readings)
	s.unanswered()
	page, err := s.state.Summary()
	s.answer(string(page) + s.whole())
	if left := s.doubts.LeftInWords(); left != "" {
		s.tell("%s", left)
	}
	return s.flush(), err
}

// Fault is what did not go well so far; nil of a sitting whose every line counts.
func (s *Session) Fault() error {
	switch {
	case slices.ContainsFunc(s.stores(), func(store Store) bool { return store.Lost() > 0 }):
		return ErrLost
	case s.bad > 0:
		return ErrNotUnderstood
	}
	return nil
}

func (s *Session) tell(format string, args ...any) {
	s.said = append(s.said, Said{Kind: Remark, Text: fmt.Sprintf(format, args...)})
}

func (s *Session) answer(text string) { s.answerWith(text, nil) }

// answerWith is an answer with those of its paragraphs that are news.
func (s *Session) answerWith(text string, news []string) {
	s.said = append(s.said, Said{Kind: Answer, Text: text, News: news})
}

// flush is what was said since the last time.
func (s *Session) flush() []Said {
	said := s.said
	s.said = nil
	for i := range said {
		said[i].Text = typed.In(s.Job.Unit, said[i].Text)
	}
	return said
}

// tellNews says what others made of the store.
func (s *Session) tellNews() {
	for _, store := range s.stores() {
		if news := store.News(); news != "" {
			s.tell("%s", news)
		}
	}
}

// warnOfTurningBack says the caution once, as soon as turning back is asked for.
func (s *Session) warnOfTurningBack() { s.caution(caution.TurnBack) }

// caution says a caution once in a sitting.
func (s *Session) caution(text string) {
	if !slices.Contains(s.cautioned, text) {
		s.cautioned = append(s.cautioned, text)
		s.tell("%s", text)
	}
}

// take is where the job stands with these readings.
func (s *Session) take(readings []evidence.Reading) {
	j := s.Job
	for _, c := range j.Cylinders {
		if c.Number == s.Number {
			c.Readings = readings
		}
		j.Setup.Protractor = j.Setup.Protractor.WrittenAs(c.Readings) // as find shows it
	}
	s.keepSet(readings)
	s.state = standing.State{Job: j, File: s.File, Readings: readings, Set: s.set, Width: s.Width, Wished: s.wished}
	cylinder := s.cylinder(readings)
	s.state.Current, s.state.Others = cylinder.Readings, others(cylinder)
	if len(cylinder.Readings) >= standing.Least || len(cylinder.Stops)+len(cylinder.Dwell)+len(cylinder.Views) > 0 {
		if result, err := s.memory.find(j.Setup, cylinder); err != nil {
			s.state.Why = err
		} else {
			s.state.Result = &result
		}
	}
	s.state.Plan(s.Job.Setup, s.Ground, cylinder, s.turn)
	s.doubts.State = s.state
}

// cylinder is the job's as it is read in the set at hand: these readings, and in the
// first set its stops, dwells and views.
func (s *Session) cylinder(readings []evidence.Reading) evidence.Cylinder {
	i := slices.IndexFunc(s.Job.Cylinders, func(c evidence.Cylinder) bool { return c.Number == s.Number })
	c := s.Job.Cylinders[i]
	c.Readings = readings
	c, _ = c.In(s.set)
	return c
}
