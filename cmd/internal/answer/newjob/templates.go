package newjob

import (
	"math"
	"path/filepath"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
)

// cylinder is what is read of the first cylinder, and lines to fill in for what reads it
// without a depth.
func (b Begun) cylinder(w *toml.Writer) {
	w.Next("cylinder")
	w.Key("number", "1", "")
	w.Key("readings", toml.Quote(filepath.Base(b.ReadingsFile)), "")
	if b.Beside.Stop {
		w.KeyIf(false, "stops", toml.List(toml.List(b.shown(-31.5), b.shown(24))), "contacts, rising and falling side")
	}
	if b.Beside.Dwell {
		w.KeyIf(false, "dwell", toml.List("{ still = "+b.shown(-6.2)+", moves = "+b.shown(9.1)+`, turn = "forward" }`), "")
	}
	if b.Beside.Views {
		w.KeyIf(false, "views", toml.List("{ before = "+b.shown(-8.1)+", after = "+b.shown(11.5)+`, turn = "forward" }`), "")
	}
}

// sayTemplates says which lines wait in the job file.
func (b Begun) sayTemplates(d *doc.Document) {
	var lines []string
	for _, line := range []struct {
		waits bool
		says  string
	}{
		{b.Beside.Stop, "stops for the contacts"},
		{b.Beside.Dwell, "dwell, looked at turning both ways where the maker allows that"},
		{b.Beside.Views, "views for the angles at which the other gauge shows the same"},
		{len(b.Marks) > 0, words.Count(len(b.Marks), "mark")},
	} {
		if line.waits {
			lines = append(lines, line.says)
		}
	}
	if len(lines) > 0 {
		d.Say("In the job file wait, behind #, to be filled in once read: " + words.And(lines) + ".")
	}
}

// shown is an angle so many degrees after the zero, as the protractor's scale writes it.
func (b Begun) shown(degrees float64) toml.Literal {
	if !b.Setup.Protractor.BySide() {
		return toml.Number(degrees)
	}
	side := " ATDC"
	if degrees < 0 {
		side = " BTDC"
	}
	return toml.Quote(string(toml.Number(math.Abs(degrees))) + side)
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
		w.KeyIf(false, "on", toml.Quote(m.On), "")
		b.measured(w, m)
		w.KeyIf(false, "limit", "1.0", "allowed either way")
		w.KeyIf(false, "source", toml.Quote("maker's manual"), "")
	}
}

// measured is how a mark is read: at the protractor, or by how far it is off.
func (b Begun) measured(w *toml.Writer, m interview.Mark) {
	if m.In == "" {
		w.KeyIf(false, "read", toml.List(b.shown(3.8), b.shown(3.9)), "protractor readings with it in line")
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
