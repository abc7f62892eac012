package edges

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/timing"
)

// gap is where the gap of the crank wheel was read on a protractor.
type gap struct {
	tooth int            // the tooth at the sensor, from 1
	typed []string       // what the protractor read
	after geometry.Angle // that tooth after the first
	reads []string       // what it reads with the first tooth after the gap at the sensor
}

// Marks is the edges as [[mark]] entries of a job file. Against another capture a
// mark is how far a cam moved: one mark a cam, since its edges say the same, unless
// they do not. Without one it is where each edge is, which is judged by nothing
// until somebody says what it should be or a healthy engine was kept.
func (e Edges) Marks() (tables []byte, count int) {
	var w toml.Writer
	w.Say("Cam edges against the crank wheel, from %s.", quoted(e.file))
	if len(e.on) == 0 {
		w.Say(`Check each "on": a capture does not tell which cam a column is.`)
	}
	if e.comparison == nil {
		w.Say("The edges of one cam's wheel count as one witness: a wandering cam or sensor moves them all.")
	}
	if e.gap != nil {
		e.gapMark(&w)
		count++
	}
	count += e.camMarks(&w)
	return w.Bytes(), count
}

// camMarks writes the marks of the cams, and tells how many they are.
func (e Edges) camMarks(w *toml.Writer) (count int) {
	if e.comparison == nil {
		for i, g := range e.result.Edges {
			e.placeMark(w, i, g)
		}
		return len(e.result.Edges)
	}
	for _, channel := range e.result.Cams {
		shifts, together := e.comparison.OfCam(channel)
		if together {
			e.shiftMark(w, fmt.Sprintf("cam of column %d", channel), compare.Mean(shifts))
			count++
			continue
		}
		for i, s := range shifts {
			if told(s.Uncertainty) {
				e.shiftMark(w, fmt.Sprintf("cam of column %d, edge %d %s", channel, i+1, s.Edge.Kind), s)
				count++
			}
		}
	}
	return count
}

// gapMark is where the gap stands from TDC.
func (e Edges) gapMark(w *toml.Writer) {
	g := e.gap
	w.Next("mark")
	w.Key("name", toml.Quote("crank wheel gap at the sensor"), "")
	w.Key("on", toml.Quote("crank wheel"), "")
	w.Say("the %s edge of the first tooth after the gap at the sensor", e.result.CrankEdge)
	if g.tooth > 1 {
		w.Say("tooth %d was read there at %s, and comes %s deg after the first", g.tooth, legible.Line(strings.Join(g.typed, ", ")), words.Plain(g.after.Degrees()))
	}
	var reads []toml.Literal
	for _, r := range g.reads {
		reads = append(reads, quoted(r))
	}
	w.Key("read", toml.List(reads...), "")
	unknownNominal(w)
}

// unknownNominal leaves a mark without anything that it is compared with.
func unknownNominal(w *toml.Writer) {
	w.Key("should_be", toml.Quote("unknown"), "the maker's figure, or evendrop keep of a healthy engine")
}

// placeMark is where an edge is after the gap.
func (e Edges) placeMark(w *toml.Writer, i int, g timing.Edge) {
	spread := 0.0
	if told(g.Deviation) {
		spread = g.Deviation.Degrees() / math.Sqrt(float64(g.Count))
	}
	e.camMark(w, fmt.Sprintf("cam edge %d, column %d %s%s", i+1, g.Channel, g.Kind, afterGap), g, g.Angle, halfWidth(spread, toothSpacing))
	unknownNominal(w)
}

// afterGap ends the name of a mark whose off is an edge's place rather than its
// shift.
const afterGap = ", after the gap"

// shiftMark is how far an edge, or all edges of a cam, moved since another capture.
func (e Edges) shiftMark(w *toml.Writer, name string, s compare.Shift) {
	e.camMark(w, name, s.Edge, s.Angle, halfWidth(s.Uncertainty.Degrees(), finest))
	w.Key("source", quoted("against "+e.against), "")
}

// camMark is an edge on its cam and how far it is off.
func (e Edges) camMark(w *toml.Writer, name string, g timing.Edge, off geometry.Angle, knownTo toml.Literal) {
	w.Next("mark")
	w.Key("name", quoted(name), "")
	w.Key("on", quoted(e.member(g.Channel)), "")
	w.Key("against", toml.Quote("crank wheel"), "")
	w.Key("off", toml.Literal(words.Fixed(off.Degrees(), 3)), "")
	w.Key("in", toml.Quote(string(mark.CrankDegrees)), "")
	w.Key("known_to", knownTo, "")
}

// The least half-widths that are claimed, deg: of a shift, in which the errors of
// one wheel's teeth cancel, and of a place, in which they do not: teeth are spaced
// to 0.1 to 0.3 deg (common practice, no source).
const (
	finest       = 0.01
	toothSpacing = 0.2
)

// halfWidth is the half-width of a rectangle of a standard uncertainty, deg.
func halfWidth(uncertainty, least float64) toml.Literal {
	return toml.Literal(words.Fixed(math.Max(least, math.Sqrt(3)*uncertainty), 3))
}

// member is what carries a cam's wheel: as told, or by the number of cams.
func (e Edges) member(channel int) string {
	names, cams := e.on, e.result.Cams
	if len(names) == 0 && len(cams) == 1 {
		names = []string{"cam wheel"}
	} else if len(names) == 0 {
		names = []string{"inlet wheel", "exhaust wheel"}
	}
	if i := slices.Index(cams, channel); i < len(names) {
		return names[i]
	}
	return fmt.Sprintf("wheel of column %d", channel)
}

// quoted is a text from outside, on one line.
func quoted(text string) toml.Literal {
	return toml.Quote(legible.Line(strings.ToValidUTF8(text, "?")))
}
