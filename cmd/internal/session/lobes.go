package session

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/session/marking"
	"evendrop/cmd/internal/session/typed"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/amend"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/lobe"
)

// lift keeps a lift of a lobe, and goes on with its next ones.
func (s *Session) lift(rest string) (do func() error, err error) {
	c, rest, err := typed.OfCam("lift", rest, s.Job.Lobes)
	if err != nil {
		return nil, err
	}
	if rest == "" { // its lifts come next
		return func() error { return s.toLobe(c) }, nil
	}
	e, err := typed.Reading(rest, s.Job.Setup, s.Job.Unit)
	if err != nil {
		return nil, fmt.Errorf("%q is not an angle and a lift: type for example %s", rest, typed.Examples["lift"])
	}
	return func() error {
		if err := s.toLobe(c); err != nil {
			return err
		}
		e.Turn = s.turn
		return s.addLift(e)
	}, nil
}

// readLobe goes on with a lobe's lifts.
func (s *Session) readLobe(rest string) (do func() error, err error) {
	c, rest, err := typed.OfCam("lobe", rest, s.Job.Lobes)
	if err == nil && rest != "" {
		err = fmt.Errorf("lobe goes with the lobe alone: type for example %s", typed.Examples["lobe"])
	}
	return func() error { return s.toLobe(c) }, err
}

// toLobe goes on with a lobe's lifts, where it does not already.
func (s *Session) toLobe(c typed.Cam) error {
	if k := slices.IndexFunc(s.Job.Lobes, c.Is); k >= 0 {
		c.Own = s.Job.Lobes[k].Name
	}
	file, err := s.lobeFile(c)
	if err != nil {
		return err
	}
	if s.lobe == c.Name() && s.liftsIn.file == file {
		return nil
	}
	p, err := s.open(file, sheet.Lifts)
	if err != nil {
		return err
	}
	if s.lifts, err = p.Readings(); err != nil {
		return err
	}
	s.keepRead()
	s.lobe, s.cam, s.liftsIn, s.lobeTold = c.Name(), c, p, false
	if s.turn == evidence.Backward {
		s.turn = evidence.Forward
	}
	s.caution(caution.Lobe)
	s.tell("Angles and lifts are of %s from here on, turning %s: type piston to go back to the piston.", s.lobe, s.turn)
	return nil
}

// lobeFile is where the lifts of a lobe are kept, of a cylinder that the job has.
func (s *Session) lobeFile(c typed.Cam) (string, error) {
	if k := s.lobeOf(c); k >= 0 {
		return s.Job.LobeFiles[k], nil
	}
	if !slices.ContainsFunc(s.Job.Cylinders, func(o evidence.Cylinder) bool { return o.Number == c.Cylinder }) {
		return "", fmt.Errorf("the job has no cylinder %d: type cylinder %d first", c.Cylinder, c.Cylinder)
	}
	return s.beside(c.File(s.set)), nil
}

// lobeOf is where the lobe that is meant stands in the job, as it is read in the set at hand;
// -1 of one that is not read in it yet.
func (s *Session) lobeOf(c typed.Cam) int {
	return slices.IndexFunc(s.Job.Lobes, func(l lobe.Lobe) bool { return c.Is(l) && evidence.SetOf(l.Set) == max(1, s.set) })
}

// addLift keeps a lift of the lobe at hand; the job file names the lobe from its first one
// on.
func (s *Session) addLift(e sheet.Entry) error {
	return s.onItsCam(s.cam, "lift", func() error { return s.keepLift(e) })
}

// onItsCam does something with a lobe once it is known how the cams are driven. One cam that has
// all lobes is no guess: what may have slipped on the way to it is another than to two. Where the
// job says which cam marks or lobes are on, that stands.
func (s *Session) onItsCam(c typed.Cam, of string, do func() error) error {
	if _, err := s.lobeFile(c); err != nil {
		return err
	}
	d := s.Job.Drive
	if d.Layout != "" || len(d.Joints)+len(s.Job.Lobes) > 0 || c.Member(s.Job) == "cam" {
		return do()
	}
	f := marking.Driven(s.Job, c.Member(s.Job))
	return s.ask(&questions{asking: f, of: of, then: func() error {
		if err := s.amend(amend.With(f.Drive())); err != nil {
			return err
		}
		return do()
	}})
}

// keepLift keeps a lift of a lobe whose cam is known.
func (s *Session) keepLift(e sheet.Entry) error {
	lifts, err := s.liftsIn.Add(e)
	if err != nil {
		return err
	}
	s.lifts = lifts
	made, table := s.lobeOf(s.cam) < 0, s.cam.Table(s.Job, s.set, s.firstRead(), s.liftsIn.file)
	if made {
		if err := s.nameLobe(table); err != nil {
			return err
		}
		s.tell("The card says when it opens and closes, and at which lift: type for example %s.", typed.Examples["card"])
	}
	s.did(&liftKept{session: s, in: s.liftsIn, reading: s.lifts[len(s.lifts)-1], of: s.lobe, cam: s.cam, table: table, made: made})
	s.answerLift(len(s.lifts))
	return nil
}

// nameLobe puts the lobe of the first lift into the job file. A lift that stood in its file
// already, because that failed before or was killed, is not there twice; where it fails, the
// lift is not there at all.
func (s *Session) nameLobe(table []byte) error {
	last := len(s.lifts) - 1
	if last > 0 && sheet.Place(s.lifts[:last], s.lifts[last]) == last-1 {
		if err := s.leaveOut(s.lifts[last], "typed again"); err != nil {
			return err
		}
	}
	err := s.amend(amend.With(table))
	if err != nil {
		_ = s.leaveOut(s.lifts[len(s.lifts)-1], "not kept") // on a full disk it may have to stay
	}
	return err
}

// leaveOut takes a lift of the lobe at hand out of its file again.
func (s *Session) leaveOut(r evidence.Reading, why string) error {
	_, lifts, err := s.liftsIn.Correct(sheet.Correction{Strike: &r, Why: why})
	if err == nil {
		s.lifts = lifts
	}
	return err
}

// readAgain takes what a file of lifts holds into the job.
func (s *Session) readAgain(file string, lifts []evidence.Reading) {
	if file == s.liftsIn.file {
		s.lifts = lifts
	}
	s.Job.Lobes = slices.Clone(s.Job.Lobes)
	for i := range s.Job.Lobes {
		if s.Job.LobeFiles[i] != file {
			continue
		}
		s.Job.Lobes[i].Readings = make([]lobe.Reading, len(lifts))
		for k, r := range lifts {
			s.Job.Lobes[i].Readings[k] = lobe.Reading{Angle: r.Angle, Lift: r.Depth, Turn: r.Turn, Side: r.Side, Note: r.Note, File: r.File, Line: r.Line}
		}
	}
}

// answerLift says that so many lifts are kept, and what the lobe comes to, or what it still
// needs where it has been read down to its checking lift or its lifts are in no order.
func (s *Session) answerLift(lifts int) {
	s.readAgain(s.liftsIn.file, s.lifts)
	what := []string{"Kept."}
	f, err := s.found()
	if err == nil {
		told, lacks := f.LobeSentence(s.lobe), f.LobeLacks(s.lobe)
		if told == "" && (s.comesDown() || s.lobeTold) {
			what = append(what, lacks)
		}
		what, s.lobeTold = append(what, told), told != ""
	}
	s.answer(s.state.Numbered(lifts, s.state.Block([]string{joined(what)})))
	if err == nil {
		s.judgedBy(f)
	}
}

// comesDown tells whether the last lift is one toward the closing: lower than the one before,
// and less than a third of the highest.
func (s *Session) comesDown() bool {
	n := len(s.lifts)
	if n < 2 {
		return false
	}
	top := slices.MaxFunc(s.lifts, func(a, b evidence.Reading) int { return cmp.Compare(a.Depth, b.Depth) }).Depth
	return s.lifts[n-1].Depth < s.lifts[n-2].Depth && s.lifts[n-1].Depth < top/3
}

// LobeNext is what lifts to read of the lobe at hand.
func (s *Session) LobeNext() string {
	b, lift := s.state.Bench(), geometry.Length(0)
	if k := s.lobeOf(s.cam); k >= 0 {
		lift = s.Job.Lobes[k].Card.Lift
	}
	about := "the card's checking lift"
	if lift > 0 {
		about = "the checking lift of " + b.Depth(lift)
	}
	text := fmt.Sprintf("Of %s read, turning forward, on each side two lifts about %s and three higher up, and the top once. The two lie one below and one above it, within 5 deg.", s.lobe, about)
	if f, err := s.found(); err == nil {
		text = joined([]string{f.LobeLacks(s.lobe), text})
	}
	return text
}

// joined is those of the sentences that say something.
func joined(sentences []string) string {
	return strings.Join(slices.DeleteFunc(sentences, func(text string) bool { return text == "" }), " ")
}

// listLifts is the lifts of the lobe at hand.
func (s *Session) listLifts() string {
	var lines []string
	for i, r := range s.lifts {
		lines = append(lines, fmt.Sprintf("%3d  %s deg, %s, %s", i+1, s.state.Bench().Reads(r.Angle, 1), s.state.Bench().Depth(r.Depth), r.Turn))
	}
	return strings.Join(append(lines, words.Count(len(s.lifts), "lift")+" of "+s.lobe+"."), "\n") + "\n"
}

// ofLobe takes a line while a lobe is read; false where it is none of it.
func (s *Session) ofLobe(line string) (is bool, err error) {
	if s.lobe == "" {
		return false, nil
	}
	t, err := typed.Parse(line, s.Job.Setup, s.Job.Unit)
	switch {
	case err != nil || t.Order == typed.NewSet:
		s.bad++
		s.tell("That is neither a lift of %s, such as 62.5 1.04, nor an order. Type piston to go back to the piston's readings.", s.lobe)
		return true, nil
	case t.Order == typed.List:
		s.show(s.listLifts(), nil)
		return true, nil
	case t.Order == typed.ShowNext:
		s.answer(s.state.Block([]string{s.LobeNext()}))
		return true, nil
	case t.Order != typed.TakeReading:
		return false, nil
	}
	if t.Turn != 0 {
		s.turnTo(t.Turn)
	}
	t.Entry.Turn = s.turn
	return true, s.addLift(t.Entry)
}

// liftKept is a lift that was kept; a deed.
type liftKept struct {
	session *Session
	in      page
	of      string
	reading evidence.Reading
	struck  *sheet.Struck
	cam     typed.Cam
	table   []byte // of its lobe, as it began
	made    bool   // the lobe came into the job by it, and not by its card
}

func (d *liftKept) words() string {
	b := d.session.state.Bench()
	return fmt.Sprintf("lift %s %s of %s", b.Reads(d.reading.Angle, 1), b.Depth(d.reading.Depth), d.of)
}

func (d *liftKept) undo() error {
	if lifts, err := d.in.Readings(); err == nil && len(lifts) == 1 && d.made { // no job names a lobe of which nothing is known
		if err := d.session.amend(amend.Without("lobe", "name", d.of)); err != nil {
			return err
		}
	}
	done, lifts, err := d.in.Correct(sheet.Correction{Strike: &d.reading, Why: "undone"})
	d.struck = done.Struck
	return d.then(lifts, err)
}

func (d *liftKept) redo() error {
	done, lifts, err := d.in.Correct(sheet.Correction{Revive: d.struck})
	if done.Counts != nil {
		d.reading = *done.Counts
	}
	if err == nil && !slices.Contains(d.session.Job.LobeFiles, d.in.file) {
		err = d.session.amend(amend.With(d.table))
	}
	return d.then(lifts, err)
}

// then goes on with the lifts that the sheet holds.
func (d *liftKept) then(lifts []evidence.Reading, err error) error {
	if err != nil {
		return err
	}
	d.session.readAgain(d.in.file, lifts)
	return nil
}
