package main

import (
	"errors"
	"math"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/answer/rehearse/class"
	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/flags/setup"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/practice"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

func runRehearse(args []string, c console) error {
	set := flags.New("rehearse", "evendrop rehearse DIR [--seed N] [...]\nevendrop rehearse --class N DIR [--seed N]\n"+
		"evendrop rehearse --check DIR --tdc DEG\nevendrop rehearse --check DIR --answers FILE.csv",
		`Practice readings, invented, with errors that can be switched on: a job in DIR,
and the answer in a file of its own. With --check a learner's answer is marked.
With --class N it makes N engines: for each a sheet to print, with protractors
to read by eye, and a key apart. A file of answers is marked at once.

  evendrop rehearse lesson --seed 7 --lash 0.05 --tilt 15 --typo 1 --turn both
  evendrop rehearse --check lesson --tdc 3.4
  evendrop rehearse lesson --seed 7 --lobe inlet
  evendrop rehearse --class 20 monday --seed 7
  evendrop rehearse --check monday --answers answers.csv
  evendrop rehearse --check lesson --late 3.4 --fault moved`)
	practised, cam := newPracticeFlags(set), newCamFlags(set)
	size := flags.Whole(set, "class", 0, practice.SmallestClass, practice.LargestClass, "20", "so many engines, with sheets to print and a key")
	answer := set.Text("answer", "FILE", "where the answer is kept: DIR/answer.toml; of a class a folder, DIR/"+class.TeacherOnly)
	replace := set.Bool("replace", "overwrite a practice job, or a class, that already exists")
	set.Heading(markedHeading)
	check := set.Text("check", "DIR", "mark an answer to the job in DIR")
	given := set.Text("tdc", "DEG", "the learner's TDC, as the protractor shows it")
	answers := set.Text("answers", "FILE.csv", "a class's answers: name,engine,tdc,within,pin")
	ofLobe := lobeAnswerFlags(set)
	as := set.As()
	rest, err := c.parse(set, args)
	if err != nil {
		return err
	}
	switch {
	case set.Given("class"):
		return makeClass(c, set.Typed(), classAsked{*size, practised().Seed, *answer, *replace}, rest)
	case set.Given("answers"):
		return checkClass(c, set.Typed(), marking{folder: *check, file: *answer, as: *as}, *answers, rest)
	}
	for _, name := range set.From(markedHeading) {
		if set.Given(name) && name != "as" {
			ofLobe.Lobe = cam.meant()
			return checkAnswer(c, marking{*check, *given, *answer, *as, *ofLobe}, rest)
		}
	}
	if len(rest) != 1 {
		return misuse("rehearse takes one folder: type for example evendrop rehearse lesson --seed 7")
	}
	if *as != "text" {
		return misuse("--as goes with --check DIR")
	}
	p := practised()
	p.Cams = cam.wanted()
	made, err := p.Make()
	if err != nil {
		return misuse("rehearse: %v", err)
	}
	lesson := rehearse.Practice{Job: made}.In(rest[0], *answer)
	page, err := lesson.Text(c.width)
	if err != nil {
		return err
	}
	return lesson.Write(*replace, func() error { return c.print(page) })
}

// markedHeading is over the flags that a learner's answer is said with.
const markedHeading = "To have an answer marked"

// marking is a learner's answer to be marked.
type marking struct {
	folder, tdc, file, as string
	lobe                  rehearse.LobeAnswer
}

// checkAnswer marks a learner's answer: a TDC, or what is said of a lobe.
func checkAnswer(c console, m marking, rest []string) error {
	lobe := len(m.lobe.Angles) > 0 || m.lobe.Fault != ""
	switch {
	case m.folder == "" && lobe:
		return misuse("what is said of a lobe goes with --check DIR: type for example evendrop rehearse --check lesson --late 3.4")
	case m.folder == "":
		return misuse("--tdc goes with --check DIR: type for example evendrop rehearse --check lesson --tdc 3.4")
	case m.tdc == "" && !lobe:
		return misuse("--check %s: what is the answer to be marked? type for example --tdc 3.4, of a lobe --late 3.4, or of a class --answers answers.csv", m.folder)
	case m.tdc != "" && lobe:
		return misuse("TDC and a lobe are marked one by one: leave --tdc out, or what is said of the lobe")
	case len(rest) > 0:
		return misuse("rehearse --check takes one folder, and was given %q as well", rest[0])
	}
	if lobe {
		marked, err := rehearse.CheckLobe(m.folder, m.file, m.lobe)
		if err != nil {
			return err
		}
		return c.write(form.Of(marked), m.as)
	}
	angle, err := usage.Angle(evidence.DefaultProtractor(), m.tdc)
	if err != nil {
		return err
	}
	marked, err := rehearse.Check(m.folder, m.file, angle)
	if err != nil {
		return err
	}
	return c.write(form.Of(marked), m.as)
}

// newPracticeFlags adds the flags that make up a practice job, and returns what they ask for.
func newPracticeFlags(set *flags.Set) func() practice.Plan {
	mm, p := "mm", practice.Plan{Stroke: 86, Rod: 146}
	seed := flags.Whole[uint64](set, "seed", 1, 0, math.MaxInt64, "7", "the same seed gives the same readings; 1")
	turn := set.Choice("turn", "forward", "", "forward", "backward", "both")
	readings := flags.Whole(set, "readings", 12, 0, flags.Many, "12", "in each direction; 12")
	lash := set.Length(&mm, "lash", measure.AnySize, "clearance that the piston lags by")
	tilt := set.Number("tilt", "DEG", func(float64) bool { return true }, "degrees such as 15", "the gauge leans")
	typos := flags.Whole(set, "typo", 0, 0, flags.Many, "1", "readings mistyped by a whole millimetre")
	offset := set.Length(&mm, "offset", measure.AnySize, "the bore stands off the crank, and the job does not say so")
	flags.Var(set, &p.Pin, "pin", "DEG", "a crank locking pin too, so much late", func(text string) (*geometry.Angle, error) {
		degrees, err := flags.ParseNumber(text, func(x float64) bool { return x > -90 && x < 90 }, "crank degrees between -90 and 90, late positive")
		late := geometry.Angle(degrees) * geometry.Degree
		return &late, err
	})
	for _, d := range []struct {
		setup.Dimension
		into  *geometry.Length
		usual string
	}{{setup.Stroke, &p.Stroke, "86"}, {setup.Rod, &p.Rod, "146"}} {
		flags.Var(set, d.into, d.Name, "MM", d.Help+"; "+d.usual, func(text string) (geometry.Length, error) {
			length, err := measure.ParseLength(text, mm)
			if err != nil {
				err = errors.New("expected a length such as 81.4")
			}
			return length, err
		})
	}
	return func() practice.Plan {
		p.Seed, p.Typos, p.Readings, p.Lash, p.Offset = *seed, *typos, *readings, *lash, *offset
		p.Tilt = geometry.Angle(*tilt) * geometry.Degree
		p.Turns = map[string][]evidence.TurnDirection{
			"forward": {evidence.Forward}, "backward": {evidence.Backward}, "both": {evidence.Forward, evidence.Backward},
		}[*turn]
		return p
	}
}
