package rehearse

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/practice/cams"
	"evendrop/cmd/internal/usage"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/job/toml"
)

// writeLobe is a lobe as the learner gets it.
func writeLobe(w *toml.Writer, j cams.Job) {
	l := j.Lobe
	w.Next("lobe")
	w.Key("name", toml.Quote(l.Name), "")
	w.Key("on", toml.Quote(l.On), "")
	w.Key("valve", toml.Quote(string(l.Valve)), "")
	w.Key("readings", toml.Quote(j.File()), "lifts, turned forward")
	w.Key("lift", toml.Number(l.Card.Lift.Millimetres()), "the card's checking lift")
	w.Key("opens", toml.Quote(words.EventAbout(l.Card.Opens)), "")
	w.Key("closes", toml.Quote(words.EventAbout(l.Card.Closes)), "")
	w.Key("top", toml.Number(l.Card.Top.Millimetres()), "")
	w.Key("limit", toml.Number(words.Stated(l.Limit)), "")
	w.Key("source", toml.Quote(l.Source), "")
}

// lobeFile is a lobe's readings.
func lobeFile(j cams.Job) []byte {
	out := bytes.NewBufferString(readingsFile + "angle,lift\n")
	for _, r := range j.Lobe.Readings {
		fmt.Fprintf(out, "%s,%s\n", words.Fixed(r.Angle.Degrees(), 1), words.Fixed(r.Lift.Millimetres(), 2))
	}
	return out.Bytes()
}

// ofLobes says what to do with the lobes.
func (p Practice) ofLobes(d *doc.Document, check string) {
	for _, j := range p.Job.Lobes {
		d.Say(fmt.Sprintf("The lifts of the %s are in %s. How late is its cam, and what is wrong with it: nothing, has it moved, or is lift missing? Have it marked with: %s --lobe %s --late DEG --fault moved. "+
			"--opens, --closes and --centre are marked too.", j.Lobe.Name, filepath.Join(p.Folder, j.File()), check, j.Lobe.Valve))
	}
}

// LobeAnswer is what a learner says of a lobe.
type LobeAnswer struct {
	Lobe   string // the valve of the lobe that it is about; "" where the job has but one
	Angles []LobeAngle
	Fault  cams.Fault // "" where it says none
}

// LobeAngle is one angle that a learner says.
type LobeAngle struct {
	What  cams.Quantity
	Angle geometry.Angle
}

// LobeRehearsal is a learner's answer about a lobe, marked.
type LobeRehearsal struct {
	cams.Answer
	angles []cams.Marked
	said   cams.Fault // by the learner; "" where nothing was
}

// CheckLobe marks what a learner says of a lobe by the answer in a file; "" for the
// folder's own. An error is of an answer that cannot be read, and of a lobe that the job
// has not.
func CheckLobe(folder, file string, given LobeAnswer) (LobeRehearsal, error) {
	answer, err := kept(folder, file)
	if err != nil {
		return LobeRehearsal{}, err
	}
	var of *cams.Answer
	for i, l := range answer.Lobes {
		if l.Valve == given.Lobe || given.Lobe == "" && len(answer.Lobes) == 1 {
			of = &answer.Lobes[i]
		}
	}
	switch {
	case len(answer.Lobes) == 0:
		return LobeRehearsal{}, usage.Errorf("the job in %s has no lobe: make one with --lobe inlet", folder)
	case of == nil && given.Lobe == "":
		return LobeRehearsal{}, usage.Errorf("the job in %s has two lobes: say --lobe inlet or --lobe exhaust", folder)
	case of == nil:
		return LobeRehearsal{}, usage.Errorf("the job in %s has no %s lobe", folder, given.Lobe)
	}
	r := LobeRehearsal{Answer: *of, said: given.Fault}
	for _, a := range given.Angles {
		r.angles = append(r.angles, of.Mark(a.What, a.Angle))
	}
	return r, nil
}

// asked tells whether an angle was marked.
func (r LobeRehearsal) asked(q cams.Quantity) bool {
	for _, m := range r.angles {
		if m.What == q {
			return true
		}
	}
	return false
}

// Document is the answer in words.
func (r LobeRehearsal) Document() doc.Document {
	var d doc.Document
	d.Section(words.Capital(r.Name))
	for _, m := range r.angles {
		d.Say(sentenceOf(m))
		if m.Near != nil {
			d.Say(fmt.Sprintf("It lies near %s, where this trap leads: %s. %s", angleOf(m.What, m.Near.At, 2), m.Near.Name, m.Near.Why))
		}
	}
	if r.said != "" {
		d.Say(r.faultSentence())
	}
	t := doc.Table{Header: []string{"The traps in these readings", "for", "leads to"}}
	for _, trap := range r.Traps {
		if r.asked(trap.What) {
			t.Rows = append(t.Rows, []string{trap.Name, string(trap.What), angleOf(trap.What, trap.At, 2)})
		}
	}
	d.Table(t)
	d.Say("Everything here is invented. " + caution.With(caution.Lobe))
	return d
}

// sentenceOf is how near an angle is.
func sentenceOf(m cams.Marked) string {
	given := words.Trimmed(m.Given, 3) + " deg"
	if m.What != cams.Late {
		given = angleOf(m.What, m.Given, 1)
	}
	return fmt.Sprintf("%s: %s %s is %s deg %s than the truth, which is %s. Up to %s deg counts as right: these readings tell no better.",
		words.Capital(verdictOf(m)), said[m.What], given, words.Fixed(math.Abs(m.Off), 2), words.Later(geometry.Angle(m.Off)*geometry.Degree), angleOf(m.What, m.Truth, 2), words.Plain(m.Limit))
}

// said is what a quantity is called where an angle follows.
var said = map[cams.Quantity]string{cams.Opens: "opening at", cams.Closes: "closing at", cams.Centre: "a centre at", cams.Late: "a cam late by"}

// angleOf is an angle as a quantity is said: events as a card has them.
func angleOf(q cams.Quantity, degrees float64, places int) string {
	angle := geometry.Angle(math.Round(degrees*math.Pow10(places))/math.Pow10(places)) * geometry.Degree
	switch q {
	case cams.Late:
		return words.Signed(degrees, places) + " deg"
	case cams.Centre:
		return words.Centre(angle)
	}
	return words.Event(angle)
}

func verdictOf(m cams.Marked) string {
	if m.Within() {
		return "within"
	}
	return "outside"
}

// right tells whether the learner knows what befell the cam.
func (r LobeRehearsal) right() bool { return r.said == r.Fault }

// faultSentence is whether the learner knows what befell the cam.
func (r LobeRehearsal) faultSentence() string {
	verdict := "Wrong"
	if r.right() {
		verdict = "Right"
	}
	return verdict + ": " + map[cams.Fault]string{
		cams.Nothing: "nothing was wrong with this cam.",
		cams.Moved:   fmt.Sprintf("the cam had moved, by %s deg, and no lift was missing. Opening and closing moved together.", words.Signed(r.Late.Truth, 1)),
		cams.Lift:    fmt.Sprintf("the cam had not moved, and %s mm of lift was missing. Opening came late and closing early.", words.Fixed(r.Lost, 2)),
		cams.Both:    fmt.Sprintf("the cam had moved, by %s deg, and %s mm of lift was missing as well.", words.Signed(r.Late.Truth, 1), words.Fixed(r.Lost, 2)),
	}[r.Fault]
}
