package newjob

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/record"
	"evendrop/tdc/job/toml"
)

// Begun is a job that was just made.
type Begun struct {
	Title, Unit           string
	Setup                 evidence.Setup
	JobFile, ReadingsFile string
	CountsUntried         bool // nobody said which way the protractor's numbers grow
	Beside                interview.Beside
	Marks                 []interview.Mark // to be judged
	Sheet                 record.Sheet     // for a customer
}

// Text says what was made and what to do next. An error is form.Terminal's.
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
	if orders := Orders(b.Setup.Protractor, b.Beside, b.Marks); len(orders) > 0 {
		d.Say("What else is read, jot takes in lines such as these, or fill it into the job file where it waits behind #:")
		d.List(orders)
	}
	d.Say(b.untried("write counts = \"against\" under [protractor]."))
	d.Say(caution.Line)
	return form.Terminal(d, width)
}

// UntriedOnPage is what to do where nobody said which way the protractor counts, and has
// no job file to write in; "" where somebody said it.
func (b Begun) UntriedOnPage() string {
	return b.untried("make the job again, and answer that it fell.")
}

// untried is what to do, and where, while nobody said which way the protractor counts.
func (b Begun) untried(where string) string {
	if !b.CountsUntried {
		return ""
	}
	return "Which way the protractor counts is not stated yet, and early and late depend on it. Turn the crank a little by hand in the running " +
		"direction before you read: where the number falls, " + where
}

// Readings is a readings file to fill in.
func (b Begun) Readings() []byte {
	return []byte(`# What the protractor and the gauge show, a reading a row, as they show it.
# turn is forward (the running direction) or backward; sweep and note are free.
# A column set may be added: 1, and 2, 3, ... each time the protractor was moved on the crank.
# evendrop jot ` + filepath.Base(b.JobFile) + ` writes them here as you type them.
angle,depth,turn,sweep,note
`)
}

// Job is a job file to fill in.
func (b Begun) Job() []byte {
	w := toml.Writer{Column: 26}
	w.Say("A job for evendrop. Type in what is known; uncomment the lines that apply.")
	w.Say(`Lengths are in %s unless they carry a unit of their own, as in "81.4 mm".`, word(b.Unit == "in", "inches", "mm"))
	w.Key("title", toml.Quote(cmp.Or(b.Title, strings.TrimSpace(b.Setup.Engine.Name))), "")
	w.Key("unit", toml.Quote(b.Unit), "")
	b.engine(&w)
	b.protractor(&w)
	b.gauge(&w)
	b.cylinder(&w)
	b.marks(&w)
	b.sheet(&w)
	return w.Bytes()
}

func (b Begun) engine(w *toml.Writer) {
	e := b.Setup.Engine
	w.Table("engine")
	w.KeyIf(e.Name != "", "name", toml.Quote(cmp.Or(e.Name, "1.6 petrol four")), "")
	w.KeyIf(e.Bore > 0, "bore", b.length(cmp.Or(e.Bore, b.example(79, 3.1))), "")
	w.KeyIf(e.Stroke > 0, "stroke", b.length(cmp.Or(e.Stroke, b.example(81.4, 3.2))), "twice the crank throw")
	w.KeyIf(e.Rod > 0, "rod", b.length(cmp.Or(e.Rod, b.example(133, 5.25))), "between centres")
	w.KeyIf(e.OffsetStated, "pin_offset", b.length(e.PinOffset), "piston pin, toward the major thrust side positive")
	w.KeyIf(e.OffsetStated, "bore_offset", b.length(e.BoreOffset), "bore, toward the other side positive")
	k := e.KnownTo // what is taken when nothing is stated
	knownTo := "{ stroke = " + b.length(k.Stroke) + ", rod = " + b.length(k.Rod)
	if e.OffsetStated { // that of one nobody stated would hold for one stated later
		knownTo += ", offset = " + b.length(k.Offset)
	}
	w.KeyIf(false, "known_to", knownTo+" }", "either way")
}

func (b Begun) protractor(w *toml.Writer) {
	p := b.Setup.Protractor
	w.Table("protractor")
	w.Key("counts", toml.Quote(word(p.Sense == evidence.Against, "against", "with")), word(b.CountsUntried, "not tried: ", "numbers grow ")+"with or against the running direction")
	w.Key("wraps", toml.Number(float64(p.Scale)), "360, 180, 90 (write 12 BTDC) or 720 (two turns)")
	w.Key("step", degrees(p.Step), "degrees, smallest difference read")
	w.Key("error", degrees(p.Error), "degrees, largest error of its own at a position")
	w.Key("off_centre", b.length(p.OffCentre), "at most")
	w.Key("radius", b.length(p.Radius), "at which this protractor is read")
}

func (b Begun) gauge(w *toml.Writer) {
	g := b.Setup.Gauge
	w.Table("gauge")
	w.Key("kind", toml.Quote(string(g.Kind)), "dial, rod or borescope")
	w.Key("counts", toml.Quote(g.Counts.String()), "numbers grow as the piston goes down or up")
	w.Key("step", b.length(g.Step), "smallest difference read")
	w.Key("error", b.length(g.Error), "largest error of its own at a position")
	w.Key("scale_known_to", toml.Number(g.ScaleKnownTo), "fraction either way: slanting gauge, sloping crown")
	w.Key("lash", b.length(g.Lash), "bearing clearance expected, not valve lash")
	w.Key("lash_known_to", b.length(g.LashKnownTo), "either way")
}

// length is a length in the job's unit, or with its own where it was stated in the other.
func (b Begun) length(l geometry.Length) toml.Literal {
	if b.Unit != "in" {
		return short(l.Millimetres())
	}
	x := l.Inches()
	if math.Abs(x-math.Round(x*1e4)/1e4) < 1e-9 {
		return short(x)
	}
	return toml.Quote(string(short(l.Millimetres())) + " mm")
}

func degrees(a geometry.Angle) toml.Literal { return short(a.Degrees()) }

// short is a number with what the way through other units added left out.
func short(x float64) toml.Literal {
	y, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 6, 64), 64)
	return toml.Number(y)
}

func word(when bool, yes, no string) string {
	if when {
		return yes
	}
	return no
}

// InInches is a set-up with what is usual in round inches, near the millimetres of
// evidence.DefaultGauge and its like, in place of every length that nobody stated: a dial
// divided in half-thousandths, a calliper read to two thousandths, a crown judged to
// twenty (common practice, no source). Flag names are those of evendrop begin.
func InInches(s evidence.Setup, stated func(flag string) bool) evidence.Setup {
	g, p, k := &s.Gauge, &s.Protractor, &s.Engine.KnownTo
	step, bound := 0.0005, 0.001
	switch g.Kind {
	case evidence.DepthRod:
		step, bound = 0.002, 0.004
	case evidence.Borescope:
		step, bound = 0.02, 0.02
	}
	offset := 0.55
	if s.Engine.OffsetStated {
		offset = 0.02
	}
	for _, usual := range []struct {
		flag   string // "" of what has none
		into   *geometry.Length
		inches float64
	}{
		{"gauge-step", &g.Step, step}, {"gauge-error", &g.Error, bound}, {"lash", &g.Lash, 0.0025}, {"lash-known-to", &g.LashKnownTo, 0.0025},
		{"", &p.OffCentre, 0.02}, {"", &p.Radius, 4}, {"", &k.Stroke, 0.004}, {"", &k.Rod, 0.02}, {"", &k.Offset, offset},
	} {
		if usual.flag == "" || !stated(usual.flag) {
			*usual.into = geometry.Length(usual.inches) * geometry.Inch
		}
	}
	return s
}

// example is a length of the engine that is commented out, in the job's unit.
func (b Begun) example(millimetres, inches float64) geometry.Length {
	if b.Unit == "in" {
		return geometry.Length(inches) * geometry.Inch
	}
	return geometry.Length(millimetres) * geometry.Millimetre
}
