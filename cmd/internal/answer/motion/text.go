package motion

import (
	"fmt"
	"math"

	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/chart/plain"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
)

// Text is the answer in lines of up to width characters.
func (m Motion) Text(width int) ([]byte, error) {
	d, err := m.document(width)
	if err != nil {
		return nil, err
	}
	return form.Terminal(d, width)
}

// Markdown is the answer as Markdown.
func (m Motion) Markdown() ([]byte, error) {
	d, err := m.document(form.Widest)
	if err != nil {
		return nil, err
	}
	return form.Markdown(d)
}

// document has a plot in its middle, in lines of up to width characters.
func (m Motion) document(width int) (d doc.Document, err error) {
	d.Say(m.sentence())
	if len(m.engines) > 1 {
		d.Table(m.engineTable())
		unit := m.bench().Unit()
		d.Table(m.sideBySide("Drop, "+unit, func(r motionRow, e engine) string { return m.length(e, r.drop) }))
		d.Table(m.sideBySide("Slope, "+unit+"/deg", func(r motionRow, e engine) string { return m.slope(e, r.slope) }))
		if m.rpm > 0 {
			d.Table(m.sideBySide("Speed, "+m.speedUnit(), func(r motionRow, _ engine) string { return m.speed(*r.speed) }))
		}
		if m.engines[0].cylinder != nil {
			d.Table(m.sideBySide("Volume, "+m.volumeUnit(), func(r motionRow, e engine) string { return m.volume(e, *r.volume) }))
		}
	} else {
		d.Table(m.motionTable())
	}
	dwells, err := m.dwellTable()
	if err != nil {
		return nil, err
	}
	d.Table(dwells)
	if m.liquid > 0 {
		sentences, err := m.liquidSentences()
		if err != nil {
			return nil, err
		}
		d.List(append(sentences, liquidCaution))
	}
	plot, err := plain.Plot(m.drops(), width, PlotRows)
	d.Add(doc.Verbatim(plot))
	d.List(m.notes())
	d.Say(caution.Line)
	return d, err
}

// sentence is what matters most about the first engine, and what was taken for
// granted.
func (m Motion) sentence() string {
	e := m.engines[0]
	if len(m.engines) > 1 {
		return fmt.Sprintf("%d engines side by side. Their dimensions are taken as exact; an offset not stated is zero.", len(m.engines))
	}
	bench := m.bench()
	offset := "offset taken as zero"
	if e.offsetStated {
		offset = fmt.Sprintf("pin offset %s, bore offset %s", bench.Stated(e.pinOffset), bench.Stated(e.boreOffset))
	}
	text := fmt.Sprintf("Stroke %s, rod %s (%s times the stroke), %s; all taken as exact.",
		bench.Stated(2*e.Throw()), bench.Stated(e.Rod()), words.Fixed(float64(e.Rod()/(2*e.Throw())), 2), offset)
	if e.Offset() != 0 {
		text += fmt.Sprintf(" TDC comes %s deg %s the throw lies along the bore; the piston travels %s %s, %s deg down and %s deg up.",
			words.Fixed(math.Abs(e.TDC().Degrees()), 2), afterOrBefore(e.TDC().Degrees()), words.Fixed(bench.In(e.Stroke()), 3), bench.Unit(),
			words.Fixed(e.downstroke().Degrees(), 2), words.Fixed(360-e.downstroke().Degrees(), 2))
	}
	if m.rpm > 0 {
		text += fmt.Sprintf(" At %s rpm the piston's mean speed is %s %s.",
			words.Plain(m.rpm), m.speed(2*e.Stroke().Millimetres()*m.rpm/60000), m.speedUnit())
	}
	return text
}

func afterOrBefore(degrees float64) string {
	if degrees < 0 {
		return "before"
	}
	return "after"
}

// notes are what the tables teach.
func (m Motion) notes() []string {
	e := m.engines[0]
	whose := ""
	if len(m.engines) > 1 {
		whose = " of engine A"
	}
	flank := geometry.Millimetre
	if m.inches {
		flank = 0.04 * geometry.Inch
	}
	_, after, err := e.AnglesAt(flank)
	if err != nil { // a piston that travels less
		return []string{"Angles are crank degrees from TDC, late positive."}
	}
	bench := m.bench()
	unseen := bench.In(e.Drop(geometry.Degree / 10))
	seen := bench.PerDegree(e.Slope(after)) / 10
	return append([]string{
		fmt.Sprintf("The highest point tells little: the crank pin moves across the bore there. At 0.1 deg from TDC the piston%s is %s %s lower. On the flank, at a drop of %s, "+
			"0.1 deg is %s %s: read there, on both sides.",
			whose, words.Fixed(unseen, words.Decimals(unseen)), bench.Unit(), bench.Stated(flank), words.Fixed(seen, words.Decimals(seen)), bench.Unit()),
		"Cosine is what an infinitely long rod would do. A shorter rod makes the piston linger less at TDC and longer at BDC." + m.columnNote(),
		"Angles are crank degrees from TDC, late positive." + m.volumeNote(),
	}, m.offsetNote()...)
}

// offsetNote says how far from TDC half-way between equal drops lies with an offset.
func (m Motion) offsetNote() []string {
	e := m.engines[0]
	off := e.halfWay(m.deepest()).Degrees()
	if len(m.engines) > 1 || e.Offset() == 0 {
		return nil
	}
	return []string{fmt.Sprintf("With this offset half-way between equal drops is not quite TDC. At a drop of %s %s it comes %s deg %s it, the less the nearer to the top.",
		m.length(e, m.deepest()), m.bench().Unit(), words.Fixed(math.Abs(off), words.Decimals(math.Abs(off))), afterOrBefore(off))}
}

// columnNote says what a heading does not.
func (m Motion) columnNote() string {
	if len(m.engines) > 1 {
		both := ""
		if named, _ := m.offsets(); named == "offset" {
			both = " Offset is the bore's minus the pin's."
		}
		return both + " TDC is counted from the throw along the bore, and down from TDC to BDC."
	}
	return " Off BDC is the piston's height over its lowest point, at the same distance from BDC."
}

func (m Motion) volumeNote() string {
	switch {
	case m.engines[0].cylinder != nil:
		return " Volume is the whole space above the piston."
	case m.engines[0].bore > 0:
		return " Swept is the volume since TDC; --compression gives the whole space above the piston."
	}
	return ""
}
