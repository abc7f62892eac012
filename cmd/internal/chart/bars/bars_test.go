package bars

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// crank is the scale of marks.
var crank = Counted{Unit: "crank degrees", Low: "early", High: "late", Zero: "where it should be"}

// words are what a verdict is said in.
var verdict = map[doc.State]string{doc.Unjudged: "no limit given", doc.Within: "within", doc.Outside: "outside", doc.TooClose: "too close to call"}

// bar is a mark off by so much.
func bar(name string, at, half, limit float64, state doc.State) Bar {
	way := "late"
	if at < 0 {
		way = "early"
	}
	b := Bar{Name: name, Says: fmt.Sprintf("%.1f ± %.1f deg %s, %s", math.Abs(at), half, way, verdict[state]), Measured: Measured{at, at - half, at + half}, State: state}
	if limit > 0 {
		b.LimitFrom, b.LimitTo = -limit, limit
		b.Allowed = fmt.Sprintf("allowed ± %g", limit)
	}
	return b
}

func before(at, half float64) *Was {
	return &Was{Says: fmt.Sprintf("before: %.1f ± %.1f deg", at, half), Measured: Measured{at, at - half, at + half}}
}

// the figures of a set, drawn from a seed.
const seed = 20261126

// drawnBars is any marks: near and far off, with limits and without, before and after.
func drawnBars(n uint64) Picture {
	rng := rand.New(rand.NewPCG(seed, n))
	off := func() float64 { return rng.NormFloat64() * math.Pow(10, 2.5*rng.Float64()-1) }
	p := Picture{Title: drawtest.Names.Example(int(n)), Description: "Marks.", Counted: crank}
	for i := range 1 + rng.IntN(12) {
		name := drawtest.Names.Example(int(n)*20+i) + "x"
		if rng.IntN(4) == 0 {
			name = drawtest.Hostile[rng.IntN(len(drawtest.Hostile))]
		}
		b := bar(name, off(), rng.Float64(), float64(rng.IntN(3)), doc.State(rng.IntN(4)))
		if rng.IntN(4) == 0 {
			b.Was = before(off(), rng.Float64())
		}
		p.Bars = append(p.Bars, b)
	}
	return p
}

// sound asks of a picture what every one has to be: words and shapes on the paper, no
// words upon others, a class for everything, and every bar's words for who listens.
func sound(t *testing.T, svg []byte, err error, spoken ...string) []drawtest.Element {
	all := drawtest.Parsed(t, svg, err)
	drawtest.WordsStay(t, all)
	drawtest.WordsApart(t, all)
	drawtest.ShapesStay(t, all)
	drawtest.ClassesHaveAStyle(t, all)
	require.Equal(t, []string{"title", "desc"}, []string{all[1].Name, all[2].Name})
	for _, says := range spoken {
		require.Contains(t, all[2].Text, draw.Clean(says))
	}
	return all
}

// ruler is a scale read off the numbers of a picture, the n-th row of them: where zero is
// and how far a unit goes.
func ruler(t *testing.T, all []drawtest.Element, n int) (zero, unit float64) {
	var rows [][]drawtest.Element
	for _, e := range drawtest.Named(all, "text", "quiet") {
		if _, err := strconv.ParseFloat(e.Text, 64); err != nil || e.Attr["text-anchor"] != "middle" {
			continue
		}
		if last := len(rows) - 1; last >= 0 && rows[last][0].At(t).Y == e.At(t).Y {
			rows[last] = append(rows[last], e)
		} else {
			rows = append(rows, []drawtest.Element{e})
		}
	}
	row := rows[n]
	first, err := strconv.ParseFloat(row[0].Text, 64)
	require.NoError(t, err)
	middle := row[len(row)/2]
	require.InDelta(t, 0, parsed(t, middle.Text), 1e-12)
	return middle.At(t).X, (middle.At(t).X - row[0].At(t).X) / first
}

func parsed(t *testing.T, text string) float64 {
	x, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return x
}

// Any bars: a picture that is sound, with each bar's words on it, and every sign at its
// value on the one scale, or beyond the scale's end with its number.
func TestBarsAlways(t *testing.T) {
	for n := range uint64(200) {
		p := drawnBars(n)
		var spoken []string
		for _, b := range p.Bars {
			spoken = append(spoken, strings.TrimSpace(b.Name)+": "+b.Says)
		}
		svg, err := p.SVG()
		all := sound(t, svg, err, spoken...)
		zero, unit := ruler(t, all, 0)
		signs, sc := drawtest.Named(all, "circle", "paper"), newScale(p.Bars)
		lanes := drawtest.Named(all, "rect", "zone")
		require.Len(t, signs, len(p.Bars), "seed %d, %d", seed, n)
		for i, b := range p.Bars {
			x, up := signs[i].Number(t, "cx"), signs[i].Number(t, "cy")-lanes[i].At(t).Y
			require.InDelta(t, lanes[i].Number(t, "height")-laneHigh/2, up, 0.02, "on its lane")
			if !sc.far(b.At) {
				require.InDelta(t, zero+b.At*unit, x, 0.02, "seed %d, %d: %v", seed, n, b) // coordinates are rounded to 0.01
				continue
			}
			require.Greater(t, math.Abs(x-zero), (sc.right-sc.left)/2, "seed %d, %d: beyond the end", seed, n)
			require.Equal(t, b.At > 0, x > zero)
			require.Contains(t, drawtest.Texts(all), shortest(math.Abs(b.At)))
		}
	}
}

// The box is what is allowed and the line the interval, to the same scale, early to the
// left and late to the right, and words say so.
func TestBarsAreToScale(t *testing.T) {
	svg, err := Picture{Title: "a", Counted: crank, Bars: []Bar{bar("late", 2.5, 0.5, 1, doc.Outside), bar("early", -1, 0.25, 2, doc.Within)}}.SVG()
	all := sound(t, svg, err)
	zero, unit := ruler(t, all, 0)
	for i, want := range [][2]float64{{-1, 1}, {-2, 2}} {
		box := drawtest.Named(all, "rect", "member")[i]
		require.InDelta(t, zero+want[0]*unit, box.At(t).X, 0.02)
		require.InDelta(t, want[1]*unit-want[0]*unit, box.Number(t, "width"), 0.02)
	}
	for i, want := range [][2]float64{{2, 3}, {-1.25, -0.75}} {
		line := drawtest.Named(all, "line", "reach")[i]
		require.InDelta(t, zero+want[0]*unit, line.Number(t, "x1"), 0.02)
		require.InDelta(t, zero+want[1]*unit, line.Number(t, "x2"), 0.02)
	}
	at := map[string]drawtest.Element{}
	for _, e := range drawtest.Named(all, "text", "") {
		at[e.Text] = e
	}
	require.Equal(t, "start", at["← early"].Attr["text-anchor"])
	require.Equal(t, "end", at["late →"].Attr["text-anchor"])
	require.Less(t, at["← early"].At(t).X, at["late →"].At(t).X)
	require.InDelta(t, zero, at["where it should be"].At(t).X, 0.02)
	require.Contains(t, at, "crank degrees")
	require.Contains(t, at, "allowed ± 1")
	require.InDelta(t, at["late"].At(t).Y, at["allowed ± 1"].At(t).Y, 1e-9, "beside the name")
}

// Where a name leaves no room beside it, what is allowed has a line of its own.
func TestAllowedHasRoom(t *testing.T) {
	for _, name := range []string{"pin", strings.Repeat("pin ", 9)} {
		svg, err := Picture{Counted: crank, Bars: []Bar{bar(name, 1, 0.3, 1, doc.TooClose)}}.SVG()
		require.Contains(t, drawtest.Texts(sound(t, svg, err)), "allowed ± 1")
	}
}

// A verdict is told by its sign's shape and by its word, at the name and on the lane; only
// what is outside has the ink of an alarm.
func TestVerdictsShow(t *testing.T) {
	for state, word := range verdict {
		svg, err := Picture{Counted: crank, Bars: []Bar{bar("pin", 1, 0.3, 1, state)}}.SVG()
		all := sound(t, svg, err)
		class := "text"
		if state == doc.Outside {
			class = "warn"
		}
		var signs []string
		for _, e := range drawtest.Named(all, "path", class) {
			if e.Attr["fill-rule"] != "" {
				signs = append(signs, outline(e))
			}
		}
		require.Len(t, signs, 2, word)
		d := &draw.Canvas{}
		d.Sign(class, state, draw.At(0, 0), signSize)
		want := drawtest.Named(drawtest.Parsed(t, d.Whole(10, 10, "", ""), nil), "path", class)[0]
		require.Equal(t, []string{outline(want), outline(want)}, signs)
		require.Equal(t, state == doc.Outside, len(drawtest.Named(all, "", "warn"))+len(drawtest.Named(all, "", "alarmed")) > 0)
		require.Contains(t, strings.Join(drawtest.Texts(all), " "), word)
	}
}

// outline is a path's shape, wherever it stands.
func outline(e drawtest.Element) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune("0123456789.- ", r) {
			return -1
		}
		return r
	}, e.Attr["d"])
}

// One mark 150 deg off stands beside the scale with an arrow and its number, and words say
// so; the others are as far apart as without it, but for the room that it takes.
func TestFarOff(t *testing.T) {
	near := []Bar{bar("a", 0.1, 0.2, 1, doc.Within), bar("b", 0.9, 0.2, 1, doc.TooClose)}
	for _, far := range []float64{150, -150} {
		svg, err := Picture{Counted: crank, Bars: append([]Bar{bar("far", far, 0.5, 2, doc.Outside)}, near...)}.SVG()
		all := sound(t, svg, err)
		require.Contains(t, drawtest.Texts(all), "150")
		require.Contains(t, strings.Join(drawtest.Texts(all), " "), "An arrow points to what lies beyond the scale")
		signs := drawtest.Named(all, "circle", "paper")
		require.Greater(t, signs[2].Number(t, "cx")-signs[1].Number(t, "cx"), 30.0)
		arrow := drawtest.Named(all, "path", "text")
		tip := arrow[0].Spots(t)
		require.Equal(t, far > 0, tip[0].X > tip[1].X, "it points away from zero")
	}
	svg, err := Picture{Counted: crank, Bars: near}.SVG()
	require.NotContains(t, drawtest.Texts(sound(t, svg, err)), "An arrow points to what lies beyond the scale, its")
}

// A scale takes in ten times what is allowed, or what most are off by, and no more.
func TestFarthest(t *testing.T) {
	for _, c := range []struct {
		why  string
		bars []Bar
		want float64
	}{
		{"alone it is no farther than itself", []Bar{bar("a", 150, 0.5, 0, doc.Unjudged)}, 150.5},
		{"alone beside its limit", []Bar{bar("a", 150, 0.5, 2, doc.Outside)}, 2},
		{"a tooth out", []Bar{bar("a", 17, 0.5, 2, doc.Outside), bar("b", 0, 0.5, 2, doc.Within)}, 17.5},
		{"without limits, by the middle one", []Bar{bar("a", 1, 0, 0, 0), bar("b", 2, 0, 0, 0), bar("c", 21, 0, 0, 0)}, 2},
		{"and no farther off than ten times", []Bar{bar("a", 1, 0, 0, 0), bar("b", 2, 0, 0, 0), bar("c", 20, 0, 0, 0)}, 20},
		{"a limit that nobody can mean", []Bar{bar("a", 1, 0, 1, 0), bar("b", 2, 0, 90, 0)}, 2},
		{"what was before counts", []Bar{{Measured: Measured{At: 1}, LimitFrom: -1, LimitTo: 1, Was: before(5, 1)}}, 6},
		{"nothing off", []Bar{{}}, 0},
	} {
		require.InDelta(t, c.want, farthest(c.bars), 1e-12, c.why)
	}
}

// What was before stands above what is, on the same scale, hollow, and is said.
func TestBeforeAndAfter(t *testing.T) {
	b := bar("pin", 0.2, 0.3, 1, doc.Within)
	b.Was = before(2.8, 0.4)
	svg, err := Picture{Counted: crank, Bars: []Bar{b}}.SVG()
	all := sound(t, svg, err, "pin: "+b.Says+", allowed ± 1; before: 2.8 ± 0.4 deg")
	zero, unit := ruler(t, all, 0)
	was, is := drawtest.Named(all, "circle", "member")[0], drawtest.Named(all, "circle", "paper")[0]
	require.InDelta(t, zero+2.8*unit, was.Number(t, "cx"), 0.02)
	require.Less(t, was.Number(t, "cy")+8, is.Number(t, "cy"), "their heights do not meet")
	hollow := drawtest.Named(all, "rect", "was")[0]
	require.InDelta(t, zero+2.4*unit, hollow.At(t).X, 0.02)
	require.InDelta(t, 0.8*unit, hollow.Number(t, "width"), 0.02)
	require.Regexp(t, `\.was\{[^}]*stroke-dasharray`, draw.Style())
	box := drawtest.Named(all, "rect", "member")[0]
	require.Less(t, box.At(t).Y, hollow.At(t).Y, "one box about both")
}

// Letters are 11 px at least where the picture is shown 340 px wide.
func TestLettersAreLargeEnough(t *testing.T) {
	require.GreaterOrEqual(t, draw.SmallSize*340/width, 11.0)
	svg, err := drawnBars(1).SVG()
	require.NoError(t, err)
	require.Regexp(t, `class="ed narrow" role="img" viewBox="0 0 380 `, string(svg))
	require.NotContains(t, string(svg), "font-size=")
}

// A name is shown as the text it is, and a long one ends in dots after two lines.
func TestNames(t *testing.T) {
	for _, name := range drawtest.Hostile {
		svg, err := Picture{Title: name, Description: name + name, Counted: Counted{Low: "early", High: "late", Zero: name, Unit: name}, Bars: []Bar{{Name: name, Says: name}}}.SVG()
		all := sound(t, svg, err)
		require.Contains(t, drawtest.Texts(all), name)
		require.NotContains(t, string(svg), "url(")
	}
	svg, err := Picture{Counted: crank, Bars: []Bar{bar(strings.Repeat("the hole in the flywheel ", 8), 1, 0.3, 1, doc.Outside)}}.SVG()
	var lines []string
	for _, e := range drawtest.Named(sound(t, svg, err), "text", "strong") {
		if strings.Contains(e.Text, "flywheel") {
			lines = append(lines, e.Text)
		}
	}
	require.Len(t, lines, 2)
	require.True(t, strings.HasSuffix(lines[1], "…"))
}

func TestBarsRefuse(t *testing.T) {
	_, err := Picture{}.SVG()
	require.ErrorContains(t, err, "at least one")
	_, err = Picture{Bars: []Bar{{Name: "pin", Measured: Measured{At: math.NaN()}}}}.SVG()
	require.ErrorContains(t, err, `"pin"`)
	_, err = Picture{Bars: []Bar{{Name: "pin", Was: &Was{Measured: Measured{At: math.Inf(1)}}}}}.SVG()
	require.ErrorContains(t, err, `"pin"`)
}
