package newjob

import (
	"math"
	"path/filepath"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
)

// cylinder is what is read of the first cylinder, and lines to fill in for what reads it
// without a depth.
func (b Begun) cylinder(w *toml.Writer) {
	w.Next("cylinder")
	w.Key("number", "1", "")
	w.Key("readings", toml.Quote(filepath.Base(b.ReadingsFile)), "")
	for _, line := range Lines(b.Setup.Protractor, b.Beside) {
		w.Say("%s", line)
	}
}

// Lines are the lines of a cylinder in a job file for what reads its piston without a
// depth, with invented angles as a protractor writes them.
func Lines(p evidence.Protractor, beside interview.Beside) (lines []string) {
	at := func(degrees float64) string { return string(shown(p, degrees)) }
	if beside.Stop {
		lines = append(lines, "stops = [["+at(-31.5)+", "+at(24)+"]]")
	}
	if beside.Dwell {
		lines = append(lines, "dwell = [{ still = "+at(-6.2)+", moves = "+at(9.1)+`, turn = "forward" }]`)
	}
	if beside.Views {
		lines = append(lines, "views = [{ before = "+at(-8.1)+", after = "+at(11.5)+`, turn = "forward" }]`)
	}
	return lines
}

// sayTemplates says which lines wait in the job file.
func (b Begun) sayTemplates(d *doc.Document) {
	var lines []string
	for _, line := range []struct {
		waits bool
		says  string
	}{
		{len(b.Marks) > 0, words.Count(len(b.Marks), "mark")},
		{b.Beside.Stop, "stops for the contacts"},
		{b.Beside.Dwell, "dwell, looked at turning both ways where the maker allows that"},
		{b.Beside.Views, "views for the angles at which the other gauge shows the same"},
	} {
		if line.waits {
			lines = append(lines, line.says)
		}
	}
	if len(lines) > 0 {
		d.Say("In the job file lines wait behind #, to be filled in once read: " + words.And(lines) + ".")
	}
}

// shown is an angle so many degrees after the zero, as the protractor's scale writes it.
func shown(p evidence.Protractor, degrees float64) toml.Literal {
	if !p.BySide() {
		return toml.Number(degrees)
	}
	return toml.Quote(string(toml.Number(math.Abs(degrees))) + word(degrees < 0, " BTDC", " ATDC"))
}

// usualMark is the example of a job whose marks nobody named.
var usualMark = []interview.Mark{{Name: "locking pin hole", On: mark.Flywheel}}

// marks are the tables of what is to be judged, to be filled in.
func (b Begun) marks(w *toml.Writer) {
	named := b.Marks
	if len(named) == 0 {
		named = usualMark
	}
	w.Blank()
	w.Say("Marks to judge against the TDC found, one [[mark]] each:")
	for i, m := range named {
		if i > 0 {
			w.Blank()
		}
		w.Say("[[mark]]")
		w.KeyIf(false, "name", toml.Quote(m.Name), "")
		w.KeyIf(false, "on", toml.Quote(m.On), "what it sits on")
		b.measured(w, m)
		w.KeyIf(false, "limit", "1.0", "allowed either way")
		w.KeyIf(false, "source", toml.Quote("maker's manual"), "")
	}
}

// measured is how a mark is read: at the protractor, or by how far it is off.
func (b Begun) measured(w *toml.Writer, m interview.Mark) {
	if m.In == "" {
		w.KeyIf(false, "read", toml.List(shown(b.Setup.Protractor, 3.8), shown(b.Setup.Protractor, 3.9)), "protractor readings with it in line")
		w.KeyIf(false, "should_be", "0.0", "crank degrees after TDC, from the maker's data")
		return
	}
	w.KeyIf(false, "off", "0.5", "late positive, measured at "+m.On)
	w.KeyIf(false, "in", toml.Quote(string(m.In)), "")
	if m.In == mark.Teeth {
		w.KeyIf(false, "pitches", "42", "teeth all round")
		return
	}
	w.KeyIf(false, "radius", b.length(b.example(21, 0.8)), "from the centre to where it was measured")
}
