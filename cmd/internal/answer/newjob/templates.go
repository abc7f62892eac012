package newjob

import (
	"cmp"
	"path/filepath"
	"slices"
	"strings"

	"evendrop/cmd/internal/interview"
	"evendrop/geometry"
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
	for _, line := range lines(b.Setup.Protractor, b.Beside) {
		w.Say("%s", line)
	}
}

// lines are the lines of a cylinder in a job file for what reads its piston without a
// depth, with invented angles as a protractor writes them.
func lines(p evidence.Protractor, beside interview.Beside) (lines []string) {
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

// Orders are lines of jot for what reads the piston without a depth and for marks, with
// invented angles as a protractor writes them.
func Orders(p evidence.Protractor, beside interview.Beside, marks []interview.Mark) (lines []string) {
	pair := func(first, second float64) string {
		return strings.ReplaceAll(string(shown(p, first)+" "+shown(p, second)), `"`, "")
	}
	if beside.Stop {
		lines = append(lines, "stop "+pair(-31.5, 24)+" is both contacts with the stop.")
	}
	if beside.Dwell {
		lines = append(lines, "dwell "+pair(-6.2, 9.1)+" is where it stands still and where it moves again: look both ways where the maker allows turning back.")
	}
	if beside.Views {
		lines = append(lines, "view "+pair(-8.1, 11.5)+" is two angles at which the other gauge shows the same.")
	}
	for _, m := range marks {
		if line := MarkLine(m); line != "mark" {
			lines = append(lines, line+" asks for what is read, and the rest.")
		} else {
			lines = append(lines, "mark asks about "+m.Name+".")
		}
	}
	return lines
}

// MarkLine is the line of jot that asks about a mark.
func MarkLine(m interview.Mark) string {
	if words := strings.Fields(strings.ToLower(m.Name)); slices.ContainsFunc(words, func(w string) bool { return slices.Contains(reserved, w) }) {
		return "mark"
	}
	return "mark " + m.Name + " on " + m.On
}

// reserved are words that end a mark's name in a line of jot.
var reserved = []string{"on", "read", "reads", "off", "is", "against", "should", "limit", "known", "within", "radius"}

// shown is an angle so many degrees after the zero, as the protractor shows it.
func shown(p evidence.Protractor, degrees float64) toml.Literal {
	reads := toml.Literal(evidence.ShortNumber(p.Shows(geometry.Angle(degrees) * geometry.Degree).Degrees()))
	if !p.BySide() {
		return reads
	}
	return toml.Quote(strings.TrimPrefix(string(reads), "-") + word(degrees < 0, " BTDC", " ATDC"))
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

// sheet is what a customer's sheet says, and lines to fill in for the rest of it.
func (b Begun) sheet(w *toml.Writer) {
	given := !b.Sheet.Empty()
	w.Blank()
	w.Say("For a customer's sheet, and photos in this folder (JPEG or PNG):")
	if given {
		w.Table("sheet")
	} else {
		w.Say("[sheet]")
	}
	for _, line := range []struct{ key, example string }{
		{"shop", "Mill Lane Garage"}, {"customer", "J. Smith"}, {"vehicle", "AB12 CDE"}, {"odometer", "84,200 miles"}, {"order", "4711"}, {"by", "K. Lee"},
	} {
		value := *b.Sheet.At(line.key)
		w.KeyIf(value != "", line.key, toml.Quote(cmp.Or(value, line.example)), "")
	}
	w.Blank()
	w.Say("[[photo]]")
	w.KeyIf(false, "file", toml.Quote("pin.jpg"), "")
	w.KeyIf(false, "shows", toml.Quote("the pin against the edge of its hole"), "")
}
