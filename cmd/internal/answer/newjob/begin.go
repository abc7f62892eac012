package newjob

import (
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// Begun is a job that was just made.
type Begun struct {
	Title, Unit           string
	Setup                 evidence.Setup
	JobFile, ReadingsFile string
	CountsUntried         bool // nobody said which way the protractor's numbers grow
}

// Text says what was made and what to do next.
func (b Begun) Text(width int) ([]byte, error) {
	var d doc.Document
	whose := ""
	if name := b.Setup.Engine.Name; name != "" {
		whose = " for " + name
	}
	d.Say(fmt.Sprintf("Made %s and %s%s. Look through the job file, then:", b.JobFile, b.ReadingsFile, whose))
	file := words.ShellWord(b.JobFile)
	d.List([]string{
		"evendrop plan " + file + " says where to read;",
		"evendrop jot " + file + " takes the readings as you type them;",
		"evendrop find " + file + " gives the whole answer.",
	})
	if b.CountsUntried {
		d.Say("Nobody said yet which way the protractor counts, and early and late rest on it. Turn the crank a little by hand in the running " +
			"direction before you read: where the number falls, write counts = \"against\" under [protractor].")
	}
	d.Say(caution.Line)
	return form.Terminal(d, width)
}

// Readings is a readings file to fill in.
func (b Begun) Readings() []byte {
	return []byte(`# What the protractor and the gauge show, a reading a row, as they show it.
# turn is forward (the running direction) or backward; sweep and note are free.
# evendrop jot ` + filepath.Base(b.JobFile) + ` writes them here as you type them.
angle,depth,turn,sweep,note
`)
}

// Job is a job file to fill in.
func (b Begun) Job() []byte {
	e, p, g := b.Setup.Engine, b.Setup.Protractor, b.Setup.Gauge
	var f jobFile
	f.say("A job for evendrop. Type in what is known; uncomment the lines that apply.")
	f.say(`Lengths are in %s unless they carry a unit of their own, as in "81.4 mm".`, word(b.Unit == "in", "inches", "mm"))
	title := b.Title
	if title == "" {
		title = strings.TrimSpace(e.Name)
	}
	f.line(true, "title", quote(title), "")
	f.line(true, "unit", quote(b.Unit), "")

	f.table("[engine]")
	f.line(e.Name != "", "name", quote(orElse(e.Name, "1.6 petrol four")), "")
	f.line(e.Bore > 0, "bore", b.length(e.Bore, 79), "")
	f.line(e.Stroke > 0, "stroke", b.length(e.Stroke, 81.4), "twice the crank throw")
	f.line(e.Rod > 0, "rod", b.length(e.Rod, 133), "between centres")
	f.line(e.OffsetStated, "pin_offset", b.length(e.PinOffset, 0), "piston pin, toward the major thrust side positive")
	f.line(e.OffsetStated, "bore_offset", b.length(e.BoreOffset, 0), "bore, toward the other side positive")
	k := e.KnownTo // what is taken when nothing is stated
	f.line(false, "known_to", fmt.Sprintf("{ stroke = %s, rod = %s, offset = %s }",
		b.rough(k.Stroke), b.rough(k.Rod), b.rough(k.Offset)), "either way")

	f.table("[protractor]")
	f.line(true, "counts", quote(word(p.Sense == evidence.Against, "against", "with")), word(b.CountsUntried, "not tried: ", "numbers grow ")+"with or against the running direction")
	f.line(true, "wraps", strconv.Itoa(int(p.Scale)), "360, 180, 90 (write 12 BTDC) or 720 (two turns)")
	f.line(true, "step", degrees(p.Step), "degrees, smallest difference read")
	f.line(true, "error", degrees(p.Error), "degrees, bound on its own error at a position")
	f.line(true, "off_centre", b.length(p.OffCentre, 0), "bound")
	f.line(true, "radius", b.length(p.Radius, 0), "at which it is read")

	f.table("[gauge]")
	f.line(true, "kind", quote(string(g.Kind)), "dial, rod or borescope")
	f.line(true, "counts", quote(g.Counts.String()), "numbers grow as the piston goes down or up")
	f.line(true, "step", b.length(g.Step, 0), "smallest difference read")
	f.line(true, "error", b.length(g.Error, 0), "bound on its own error at a position")
	f.line(true, "scale_known_to", form.Digits(g.ScaleKnownTo), "fraction either way: slanting gauge, sloping crown")
	f.line(true, "lash", b.length(g.Lash, 0), "expected: big end, small end and mains together")
	f.line(true, "lash_known_to", b.length(g.LashKnownTo, 0), "either way")

	f.table("[[cylinder]]")
	f.line(true, "number", "1", "")
	f.line(true, "readings", quote(filepath.Base(b.ReadingsFile)), "")

	f.WriteString("\n")
	f.say("Marks to judge against the TDC found, one [[mark]] each:")
	f.say("[[mark]]")
	f.say(`name = "locking pin hole"`)
	f.say(`on = "flywheel"`)
	f.line(false, "read", "[3.8, 3.9]", "protractor readings with the pin in line")
	f.line(false, "should_be", "0.0", "crank degrees after TDC, from the maker's data")
	f.line(false, "limit", "1.0", "allowed either way")
	f.say(`source = "maker's manual"`)
	return []byte(f.String())
}

// jobFile is a job file being written.
type jobFile struct{ strings.Builder }

// say writes a comment.
func (f *jobFile) say(format string, args ...any) {
	fmt.Fprintln(f, strings.TrimRight("# "+fmt.Sprintf(format, args...), " "))
}

func (f *jobFile) table(name string) { fmt.Fprintf(f, "\n%s\n", name) }

// line writes a key, as a comment unless it is given.
func (f *jobFile) line(given bool, key, value, comment string) {
	text := key + " = " + value
	if !given {
		text = "# " + text
	}
	if comment != "" {
		text = fmt.Sprintf("%-25s # %s", text, comment)
	}
	fmt.Fprintln(f, text)
}

// length is a length in the job's unit; an example in mm where there is none.
func (b Begun) length(l, example geometry.Length) string {
	if l == 0 {
		return b.rough(example)
	}
	x := l.Inches()
	switch {
	case b.Unit == "mm":
		return short(l.Millimetres())
	case math.Abs(x-math.Round(x*1e4)/1e4) < 1e-9:
		return short(x)
	}
	return quote(short(l.Millimetres()) + " mm") // it was stated so, or is usual so
}

// rough is a length that nobody stated, in the job's unit.
func (b Begun) rough(l geometry.Length) string {
	if b.Unit == "in" {
		return words.Plain(math.Round(l.Inches()*1000) / 1000)
	}
	return words.Plain(l.Millimetres())
}

func degrees(a geometry.Angle) string { return short(a.Degrees()) }

// short is a number with what the way through other units added left out.
func short(x float64) string {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	return strconv.FormatFloat(y, 'f', -1, 64)
}

// quote is a text as TOML writes it.
func quote(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

func word(when bool, yes, no string) string {
	if when {
		return yes
	}
	return no
}
