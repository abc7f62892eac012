package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

// throws adds the cylinders against one another.
func (f Answer) throws(d *doc.Document, draw drawing) {
	if len(f.Throws) == 0 {
		return
	}
	d.Section("The cylinders compared")
	d.Table(f.throwTable())
	d.SayAs(doc.Quiet, f.comparedIn())
	d.SayAs(doc.Quiet, f.index())
	said := "" // under the figure before; not said again
	for _, name := range []string{picture.Throws, picture.Crowns, picture.Cylinders} {
		if caption := captions[name]; caption == said {
			draw.figure(d, name, "")
		} else if figure := draw(name, 0, caption); figure != nil {
			d.Add(figure...)
			said = caption
		}
	}
	if f.Throws[0].Crown == nil {
		d.SayAs(doc.Quiet, "Crowns are not compared: say same_zero = true under [gauge] when one set-up of the gauge read every cylinder.")
	}
}

func (f Answer) throwTable() doc.Table {
	bench := f.Bench()
	t := doc.Table{Caption: "The cylinders compared", Header: []string{"Cylinder", "TDC at", "throw off", "± deg"}}
	crowns := slices.ContainsFunc(f.Throws, func(t mark.JudgedThrow) bool { return t.Crown != nil })
	if crowns {
		t.Header = append(t.Header, "crown lower", "± "+bench.Unit())
	}
	t.Header = append(t.Header, "verdict")
	results, _ := tdc.OnOneSet(f.Results)
	for i, throw := range f.Throws {
		off, half := "-", ""
		if i > 0 {
			places := words.Decimals(throw.Expanded.Degrees())
			off, half = words.Signed(throw.Angle.Degrees(), places), words.Fixed(throw.Expanded.Degrees(), places)
		}
		crown, crownHalf := "", ""
		if c := throw.Crown; c != nil {
			value, wide := bench.In(geometry.Length(c.Value)), bench.In(geometry.Length(c.Expanded))
			places := words.Decimals(wide)
			crown, crownHalf = words.Signed(value, places), words.Fixed(wide, places)
		}
		at := f.reads(results[i].TDC.Angle, words.Decimals(results[i].TDC.Expanded.Degrees()))
		cells := []string{strconv.Itoa(throw.Cylinder), at, off, half}
		if crowns {
			cells = append(cells, crown, crownHalf)
		}
		t.Add(picture.States[throw.Worst()], append(cells, throwVerdict(throw))...)
	}
	return t
}

// comparedIn says in which set the cylinders are compared, where that is not the one that
// each has its TDC of.
func (f Answer) comparedIn() string {
	for _, r := range f.Results {
		if len(f.Throws) > 0 && evidence.SetOf(r.Set) != f.ThrowSet() {
			return fmt.Sprintf("Compared as the protractor was set in set %d, the last that every cylinder was read in.", f.ThrowSet())
		}
	}
	return ""
}

// throwVerdict is the worse of a throw's verdict and its crown's.
func throwVerdict(t mark.JudgedThrow) string {
	worst := t.Worst()
	switch {
	case t.CannotTell:
		return "cannot be determined"
	case t.Moved:
		return "protractor moved"
	case worst == mark.NoLimitSaid:
		return ""
	case t.Verdict == t.CrownVerdict:
		return "both " + brief(worst)
	case t.Verdict == worst:
		return "throw " + brief(worst)
	}
	return "crown " + brief(worst)
}

// brief is a verdict with a word before it, so that a table of cylinders is no wider than a
// screen.
func brief(v mark.Verdict) string {
	if v == mark.TooClose {
		return "too close"
	}
	return string(v)
}

// throwSentences names what is outside its limit.
func (f Answer) throwSentences() []string {
	var list []string
	for _, t := range f.Throws {
		if t.Verdict == mark.Outside {
			list = append(list, fmt.Sprintf("Cylinder %d's throw is %s deg out of its place: outside its limit of %s deg.",
				t.Cylinder, words.SignedOff(t.Angle, t.Expanded), words.Plain(f.Job.Setup.Engine.ThrowLimit.Degrees())))
		}
		if text := f.crownSentence(t); text != "" {
			list = append(list, text)
		}
	}
	return list
}

// crownSentence is what a crown that is outside points to. Of only two the lower one's says it
// for both.
func (f Answer) crownSentence(t mark.JudgedThrow) string {
	if t.CrownVerdict != mark.Outside {
		return ""
	}
	b, limit := f.Bench(), f.Job.Setup.Engine.CrownLimit
	off := b.LengthWithin(geometry.Length(math.Abs(t.Crown.Value)), geometry.Length(t.Crown.Expanded))
	switch {
	case !f.onlyTwoCrowns():
		return fmt.Sprintf("Cylinder %d's crown stands %s %s at TDC than the others: outside its limit of %s. It points to a bent rod, or different parts.",
			t.Cylinder, off, words.Lower(t.Crown.Value), b.Stated(limit))
	case t.Crown.Value > 0:
		return fmt.Sprintf("Cylinder %d's crown stands %s lower at TDC than the other one that was read: outside the limit of %s. Two alone cannot tell which of them is out of place: read another cylinder. A bent rod or different parts make such a difference.",
			t.Cylinder, off, b.Stated(limit))
	}
	return ""
}

// onlyTwoCrowns tells whether one crown was compared with one other.
func (f Answer) onlyTwoCrowns() bool {
	crowns := 0
	for _, t := range f.Throws {
		if t.Crown != nil {
			crowns++
		}
	}
	return crowns == 2
}

// index is what the throws say of a wheel off its centre.
func (f Answer) index() string {
	i := f.Index
	if !i.Told {
		return fmt.Sprintf("A protractor off its centre and throws out of place cannot be distinguished: the throws come up at %d places of the turn, and it takes 4. "+
			"Set the protractor half a turn on from where it is on the crank, and read again.", i.Places)
	}
	places := words.Decimals(i.Expanded.Degrees())
	if i.Amplitude <= i.Expanded {
		return fmt.Sprintf("Nothing shows a protractor off its centre: the error that goes once round with it is within the %s deg that could be chance.", words.Fixed(i.Expanded.Degrees(), places))
	}
	offCentre := geometry.Length(i.Amplitude.Radians()) * f.Job.Setup.Protractor.Radius
	return fmt.Sprintf("The throws' errors go once round with %s ± %s deg. That points to a protractor %s off its centre, or to all throws out of place in the same way.",
		words.Fixed(i.Amplitude.Degrees(), places), words.Fixed(i.Expanded.Degrees(), places),
		f.Bench().Length(offCentre, offCentre/10)+" "+f.Bench().Unit())
}
