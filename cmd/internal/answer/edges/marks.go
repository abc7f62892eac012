package edges

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/timing"
)

// Gap is where the gap of the crank wheel was read on a protractor.
type Gap struct {
	Tooth int            // the tooth at the sensor, from 1
	Typed []string       // what the protractor read
	After geometry.Angle // that tooth after the first
	Reads []string       // what it reads with the first tooth after the gap at the sensor
}

// Marks is the edges as [[mark]] entries of a job file. Against another capture a
// mark is how far a cam moved: one mark a cam, since its edges say the same, unless
// they do not. Without one it is where each edge is, which is judged by nothing
// until somebody says what it should be or a healthy engine was kept.
func (e Edges) Marks() (tables []byte, count int) {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Cam edges against the crank wheel, from %s.\n", quoted(e.File))
	if len(e.On) == 0 {
		fmt.Fprintf(&out, "# Check each \"on\": a capture does not tell which cam a column is.\n")
	}
	if e.Comparison == nil {
		fmt.Fprintf(&out, "# Edges of one cam say nearly the same, and a wandering cam moves them all: where marks\n# are weighed against one another, keep one edge of each cam.\n")
	}
	marks := e.marks()
	for _, m := range marks {
		out.WriteString("\n[[mark]]\n")
		for _, line := range m {
			out.WriteString(line + "\n")
		}
	}
	return out.Bytes(), len(marks)
}

// entry is the lines of a [[mark]].
type entry []string

func (e Edges) marks() (list []entry) {
	if e.Gap != nil {
		list = append(list, e.gapMark())
	}
	if e.Comparison == nil {
		for i, g := range e.Result.Edges {
			list = append(list, e.placeMark(i, g))
		}
		return list
	}
	for _, channel := range e.Result.Cams {
		shifts, together := e.Comparison.OfCam(channel)
		if together {
			list = append(list, e.shiftMark(fmt.Sprintf("cam of column %d", channel), compare.Mean(shifts)))
			continue
		}
		for i, s := range shifts {
			if told(s.Uncertainty) {
				list = append(list, e.shiftMark(fmt.Sprintf("cam of column %d, edge %d %s", channel, i+1, s.Edge.Kind), s))
			}
		}
	}
	return list
}

// gapMark is where the gap stands from TDC.
func (e Edges) gapMark() entry {
	g := e.Gap
	m := entry{
		`name = "crank wheel gap at the sensor"`, `on = "crank wheel"`,
		fmt.Sprintf("# the %s edge of the first tooth after the gap at the sensor", e.Result.CrankEdge),
	}
	if g.Tooth > 1 {
		m = append(m, fmt.Sprintf("# tooth %d was read there at %s, and comes %s deg after the first", g.Tooth, legible.Line(strings.Join(g.Typed, ", ")), words.Plain(g.After.Degrees())))
	}
	var reads []string
	for _, r := range g.Reads {
		reads = append(reads, quoted(r))
	}
	return append(m, "read = ["+strings.Join(reads, ", ")+"]", unknownNominal)
}

// unknownNominal leaves a mark without anything that it is compared with.
const unknownNominal = `should_be = "unknown" # the maker's figure, or evendrop keep of a healthy engine`

// placeMark is where an edge is after the gap.
func (e Edges) placeMark(i int, g timing.Edge) entry {
	m := e.camMark(fmt.Sprintf("cam edge %d, column %d %s%s", i+1, g.Channel, g.Kind, AfterGap), g)
	spread := 0.0
	if told(g.Deviation) {
		spread = g.Deviation.Degrees() / math.Sqrt(float64(g.Count))
	}
	return append(m, "off = "+words.Fixed(g.Angle.Degrees(), 3), `in = "crank degrees"`, "known_to = "+halfWidth(spread, toothSpacing), unknownNominal)
}

// AfterGap ends the name of a mark whose off is an edge's place rather than its
// shift.
const AfterGap = ", after the gap"

// shiftMark is how far an edge, or all edges of a cam, moved since another capture.
func (e Edges) shiftMark(name string, s compare.Shift) entry {
	return append(e.camMark(name, s.Edge), "off = "+words.Fixed(s.Angle.Degrees(), 3), `in = "crank degrees"`,
		"known_to = "+halfWidth(s.Uncertainty.Degrees(), finest), "source = "+quoted("against "+e.Against))
}

func (e Edges) camMark(name string, g timing.Edge) entry {
	return entry{"name = " + quoted(name), "on = " + quoted(e.member(g.Channel)), `against = "crank wheel"`}
}

// The least half-widths that are claimed, deg: of a shift, in which the errors of
// one wheel's teeth cancel, and of a place, in which they do not: teeth are spaced
// to 0.1 to 0.3 deg (common practice, no source).
const (
	finest       = 0.01
	toothSpacing = 0.2
)

// halfWidth is the half-width of a rectangle of a standard uncertainty, deg.
func halfWidth(uncertainty, least float64) string {
	return words.Fixed(math.Max(least, math.Sqrt(3)*uncertainty), 3)
}

// member is what carries a cam's wheel: as told, or by the number of cams.
func (e Edges) member(channel int) string {
	names, cams := e.On, e.Result.Cams
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

// quoted is a TOML string.
func quoted(text string) string { return strconv.Quote(legible.Line(strings.ToValidUTF8(text, "?"))) }
