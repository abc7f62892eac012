package crank

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// seed is of the random sets.
const seed = 20261126

var someNames = []string{
	"Gap", "Locking pin hole", "Pulley notch", "Cam lock flats, inlet side", "שן גלגל הארכובה", "علامة عمود الكامات", "クランク軸の固定穴",
	"Timing line of the crankshaft pulley against its pointer", strings.Repeat("nameless", 25), "<b>&", "W", strings.Repeat("long name ", 20), "🔧 pin",
}

// drawnMarks is a random set of one to six marks, near and far, with and without limits,
// intervals, bodies, a past and a place of their own.
func drawnMarks(r *rand.Rand) (marks []Mark) {
	size := math.Exp(r.Float64()*6 - 1) // 0.4 to 150 degrees
	off := func() float64 { return math.Round((2*r.Float64()-1)*size*10) / 10 }
	says := func(off float64) string {
		if off < 0 {
			return fmt.Sprintf("%.1f° early", -off)
		}
		return fmt.Sprintf("%.1f° late", off)
	}
	for range 1 + r.IntN(mostMarks) {
		m := Mark{
			Name: someNames[r.IntN(len(someNames))], Body: []string{"", "flywheel", "pulley", "inlet cam in its bearings"}[r.IntN(4)],
			Off: off(), Half: r.Float64() * size / 3, State: doc.State(r.IntN(4)), Suspect: r.IntN(2) == 0,
			Nominal: off(), HasPlace: r.IntN(4) == 0,
		}
		m.Says = says(m.Off)
		if r.IntN(5) == 0 {
			m.Says += ", one tooth"
		}
		if r.IntN(4) > 0 {
			m.Limit = math.Round(r.Float64()*size*10)/10 + 0.1
		}
		if r.IntN(3) == 0 {
			was := off()
			m.Was = &Was{Off: was, Half: m.Half, State: doc.State(r.IntN(4)), Says: fmt.Sprintf("was %.1f°", math.Abs(was))}
		}
		marks = append(marks, m)
	}
	return marks
}

// everySet calls with invented sets and 200 random ones.
func everySet(t *testing.T, with func(name string, marks []Mark)) {
	for name, marks := range invented() {
		with(name, marks)
	}
	t.Logf("seed %d", seed)
	r := rand.New(rand.NewPCG(seed, 0))
	for i := range 200 {
		with(fmt.Sprintf("set %d", i), drawnMarks(r))
	}
}

func pictured(t *testing.T, marks []Mark) (all []seen, described string) {
	t.Helper()
	svg, err := Picture{Title: "crank", Marks: marks}.SVG()
	require.NoError(t, err)
	return read(t, svg)
}

// inOrder is the marks as their arcs follow, the outermost first; where they stand is read
// off the picture.
func inOrder(t *testing.T, marks []Mark) (out []Mark) {
	for _, l := range (Picture{Marks: marks}).fan().lanes {
		out = append(out, l.Mark)
	}
	require.ElementsMatch(t, marks, out)
	return out
}

// What the tests take for meeting is that.
func TestMeet(t *testing.T) {
	unit := quad{draw.At(0, 0), draw.At(1, 0), draw.At(1, 1), draw.At(0, 1)}
	by := func(x, y float64) (q quad) {
		for i, s := range unit {
			q[i] = draw.At(s.X+x, s.Y+y)
		}
		return q
	}
	tilted := quad{draw.At(1.6, 0.5), draw.At(2.1, 0), draw.At(2.6, 0.5), draw.At(2.1, 1)}
	require.True(t, meet(unit, by(0.9, 0.9)))
	require.True(t, meet(unit, by(0, 0)))
	require.True(t, meet(by(0.7, 0), tilted))
	require.False(t, meet(unit, by(1.1, 0)))
	require.False(t, meet(by(0.55, 0), tilted))
	require.False(t, meet(by(0.8, 0.9), tilted), "their bounds meet, they do not")
	require.True(t, crossed([]quad{unit}, []draw.Spot{draw.At(-1, 0.5), draw.At(2, 0.5)}))
	require.False(t, crossed([]quad{unit}, []draw.Spot{draw.At(-1, 1.5), draw.At(2, 1.5)}))
}

// No words and no sign lie upon another, upon the line of top dead centre or an edge of the
// allowed band, or off the paper; and letters are 11 px high where the picture is shown 340
// wide.
func TestNothingOverlaps(t *testing.T) {
	everySet(t, func(name string, marks []Mark) {
		all, _ := pictured(t, marks)
		paper := all[0].quads[0]
		var apart, lines []seen
		for _, s := range all[1:] {
			switch {
			case s.name == "text":
				high, _ := size(s.class)
				require.GreaterOrEqual(t, high*340/width, 11.0, "%s: %q", name, s.text)
				apart = append(apart, s)
			case s.name == "sign", s.is("ghost"), s.head():
				apart = append(apart, s)
			case s.name == "line" && s.is("axis"), s.is("member") && s.name == "path", s.is("axis") && s.is("heavy"), s.is("suspect"):
				lines = append(lines, s)
			}
		}
		for i, a := range apart {
			for _, q := range a.quads {
				for _, c := range q {
					require.True(t, c.X >= 0 && c.Y >= 0 && c.X <= paper[2].X && c.Y <= paper[2].Y, "%s: %q at %v is off the paper", name, a.text, c)
				}
			}
			for _, b := range apart[:i] {
				require.False(t, meetAny(a.quads, b.quads), "%s: %q %s upon %q %s", name, a.text, a.class, b.text, b.class)
			}
			for _, line := range lines {
				if a.name == "text" || a.name == "path" && line.is("heavy") && line.title != "" {
					require.False(t, crossed(a.quads, line.corners), "%s: %q upon %s", name, a.text, line.class)
				}
			}
		}
	})
}

// crossed tells whether the line from corner to corner runs through a quad.
func crossed(quads []quad, corners []draw.Spot) bool {
	for i := range corners[1:] {
		a, b := corners[i], corners[i+1]
		long := drawtest.Apart(a, b)
		if long == 0 {
			continue
		}
		x, y := (b.Y-a.Y)/long/10, (a.X-b.X)/long/10 // a tenth of a unit to either side
		if meetAny(quads, []quad{{draw.At(a.X+x, a.Y+y), draw.At(b.X+x, b.Y+y), draw.At(b.X-x, b.Y-y), draw.At(a.X-x, a.Y-y)}}) {
			return true
		}
	}
	return false
}
