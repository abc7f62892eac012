package report

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"evendrop/tdc/wheel"
)

// Marks is the edges as [[mark]] entries of a job file. How far an edge is off is
// known against another capture; without one its line waits, as a comment, for
// the figure of the maker or of a good engine.
func (e Edges) Marks() []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Cam edges against the crank wheel, from %s.\n", quoted(e.File))
	fmt.Fprintf(&out, "# Edges of one cam say the same thing: one of each cam will do.\n")
	if e.Places {
		fmt.Fprintf(&out, "# Places of a healthy engine, not shifts: for a job that evendrop keep reads, no other.\n")
	}
	if len(e.On) == 0 {
		fmt.Fprintf(&out, "# Check each \"on\": a capture does not tell which cam a column is.\n")
	}
	for i := range e.Result.Edges {
		e.writeMark(&out, i)
	}
	return out.Bytes()
}

// Appended is the edges whose shift is known as [[mark]] entries to end a job
// file, with where the crank wheel's gap stands left to be read on the protractor:
// a comment, since a capture does not show TDC.
func (e Edges) Appended() (tables []byte, marks []string) {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Cam edges against the crank wheel, from %s.\n", quoted(e.File))
	for i, g := range e.Result.Edges {
		if e.known(g) {
			marks = append(marks, e.writeMark(&out, i))
		}
	}
	fmt.Fprintf(&out, "\n# To keep where the gap of the crank wheel stands from TDC, turn the engine forward by\n"+
		"# hand until the %s edge of the first tooth after the gap is at the sensor, read the\n"+
		"# protractor, and take the # away. should_be: the maker's, or what a healthy engine\n"+
		"# showed (evendrop keep). It is unknown here: a capture does not show TDC.\n", e.Result.CrankEdge)
	fmt.Fprintf(&out, "# [[mark]]\n# name = \"crank wheel gap\"\n# on = \"crank wheel\"\n# read = [READ, READ]\n# should_be = SHOULD_BE\n")
	return out.Bytes(), marks
}

// writeMark writes edge i as a mark, and returns its name.
func (e Edges) writeMark(out *bytes.Buffer, i int) string {
	g := e.Result.Edges[i]
	name := fmt.Sprintf("cam edge %d, column %d %s", i+1, g.Channel, g.Kind)
	if e.Places {
		name += AfterGap
	}
	fmt.Fprintf(out, "\n[[mark]]\nname = %q\n", name)
	fmt.Fprintf(out, "on = %s\nagainst = \"crank wheel\"\n", quoted(e.member(g.Channel)))
	fmt.Fprintf(out, "# at %s crank deg after the gap, %d times\n", fixed(g.Angle.Degrees(), 2), g.Count)
	if e.Places {
		writePlace(out, g)
	} else {
		e.writeOff(out, g)
	}
	return name
}

// AfterGap ends the name of a mark whose off is an edge's place rather than its
// shift.
const AfterGap = ", after the gap"

// writePlace writes where an edge of a healthy engine is.
func writePlace(out *bytes.Buffer, g wheel.Edge) {
	fmt.Fprintf(out, "off = %s\nin = \"crank degrees\"\n", fixed(g.Angle.Degrees(), 3))
	if told(g.Deviation) {
		fmt.Fprintf(out, "known_to = %s\n", halfWidth(g.Deviation.Degrees()/math.Sqrt(float64(g.Count))))
	}
}

// known says whether an edge's shift is known.
func (e Edges) known(g wheel.Edge) bool {
	return e.Comparison != nil && slices.ContainsFunc(e.Comparison.Shifts, func(s wheel.Shift) bool {
		return s.Edge.Channel == g.Channel && s.Edge.Kind == g.Kind && s.Edge.Angle == g.Angle && told(s.Uncertainty)
	})
}

// writeOff writes what is known about how far an edge is off.
func (e Edges) writeOff(out *bytes.Buffer, g wheel.Edge) {
	if e.Comparison != nil {
		for _, s := range e.Comparison.Shifts {
			if s.Edge.Channel == g.Channel && s.Edge.Kind == g.Kind && s.Edge.Angle == g.Angle && told(s.Uncertainty) {
				fmt.Fprintf(out, "off = %s\nin = \"crank degrees\"\nknown_to = %s\n", fixed(s.Angle.Degrees(), 3), halfWidth(s.Uncertainty.Degrees()))
				fmt.Fprintf(out, "source = %s\n", quoted("against "+e.Against))
				return
			}
		}
	}
	fmt.Fprintf(out, "# off = %s - SHOULD_BE    # work it out, late positive, and take the # away\n", fixed(g.Angle.Degrees(), 2))
	fmt.Fprintf(out, "in = \"crank degrees\"\n")
	if told(g.Deviation) {
		fmt.Fprintf(out, "known_to = %s\n", halfWidth(g.Deviation.Degrees()/math.Sqrt(float64(g.Count))))
	}
}

// finest is the least half-width that is claimed, deg: no sensor wheel is better.
const finest = 0.01

// halfWidth is the half-width of a rectangle of a standard uncertainty, deg.
func halfWidth(uncertainty float64) string {
	return fixed(math.Max(finest, math.Sqrt(3)*uncertainty), 3)
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
func quoted(text string) string { return strconv.Quote(clean(strings.ToValidUTF8(text, "?"))) }
