package chart

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sizeOf is the font size of a word by its classes.
func sizeOf(e element) float64 {
	size := textSize
	for class, is := range map[string]float64{"small": smallSize, "title": titleSize} {
		if strings.Contains(" "+e.class+" ", " "+class+" ") {
			size = is
		}
	}
	if strings.Contains(e.class, "strong") || strings.Contains(e.class, "title") {
		size *= bold
	}
	return size
}

// across is from where to where a word reaches.
func across(t *testing.T, e element) (from, to float64) {
	width := textWidth(e.text, sizeOf(e))
	from = e.at(t).x - map[string]float64{"start": 0, "middle": width / 2, "end": width}[e.attr["text-anchor"]]
	return from, from + width
}

// names are what somebody may call a mark: words of any length.
var names = rapid.StringMatching(`[a-zA-Z0-9 .,%±()-]{0,30}( [a-zA-Z]{1,40}){0,3}`)

// between is a value or a half-width, to a thousandth, as finely as anything is read.
func between(low, high float64) *rapid.Generator[float64] {
	return rapid.Map(rapid.Float64Range(low, high), func(x float64) float64 { return math.Round(x*1e3) / 1e3 })
}

// drawnChart is a chart with any names on it.
func drawnChart(t *rapid.T) Chart {
	c := Chart{Title: names.Draw(t, "title"), X: Axis{Label: "crank deg", Angle: true}, Y: Axis{Label: "mm", Down: rapid.Bool().Draw(t, "down")},
		Wide: rapid.Bool().Draw(t, "wide")}
	for range rapid.IntRange(1, SeriesStyles).Draw(t, "series") {
		s := Series{Name: names.Draw(t, "name"), Line: rapid.Bool().Draw(t, "line")}
		for range rapid.IntRange(1, 5).Draw(t, "points") {
			s.Points = append(s.Points, Point{
				X: between(-360, 360).Draw(t, "x"), Y: between(-1e3, 1e3).Draw(t, "y"), YError: between(0, 50).Draw(t, "±"),
				Doubtful: rapid.Bool().Draw(t, "doubtful"), Label: names.Draw(t, "label"), Above: rapid.Bool().Draw(t, "above"),
			})
		}
		c.Series = append(c.Series, s)
	}
	for range rapid.IntRange(0, 3).Draw(t, "lanes") {
		c.Lanes = append(c.Lanes, Lane{
			Lines: []string{names.Draw(t, "lane"), names.Draw(t, "more")}, Hollow: rapid.Bool().Draw(t, "hollow"),
			From: between(-300, 300).Draw(t, "from"), To: between(-300, 300).Draw(t, "to"), Middle: between(-300, 300).Draw(t, "middle"),
		})
	}
	if rapid.Bool().Draw(t, "named") {
		c.X.Named = []Named{{At: 0, Name: "TDC"}, {At: 180, Name: "BDC"}}
	}
	for range rapid.IntRange(0, 2).Draw(t, "upright") {
		c.Upright = append(c.Upright, Band{between(-300, 300).Draw(t, "from"), between(-300, 300).Draw(t, "to"), names.Draw(t, "band")})
	}
	for range rapid.IntRange(0, 1).Draw(t, "level") {
		c.Level = append(c.Level, Band{between(-300, 300).Draw(t, "from"), between(-300, 300).Draw(t, "to"), names.Draw(t, "limit")})
	}
	return c
}

// No word on a picture runs off its edges, whatever things are called, and no
// coordinate is beyond it but a little.
func TestWordsStayOnThePicture(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		var svg []byte
		var err error
		switch rapid.IntRange(0, 2).Draw(r, "picture") {
		case 0:
			svg, err = drawnChart(r).SVG()
		case 1:
			svg, err = drawnDial(r).SVG()
		default:
			svg, err = Tree{Title: names.Draw(r, "title"), Root: drawnNode(r, 3)}.SVG()
		}
		all := parsed(t, svg, err)
		paper := named(all, "rect", "paper")[0]
		width, height := paper.number(t, "width"), paper.number(t, "height")
		for _, e := range named(all, "text", "") {
			from, to := across(t, e)
			require.GreaterOrEqual(t, from, 0.0, "%q", e.text)
			require.LessOrEqual(t, to, width, "%q", e.text)
			require.Greater(t, e.at(t).y, 0.0, "%q", e.text)
			require.LessOrEqual(t, e.at(t).y, height, "%q", e.text)
		}
	})
}

// drawnDial is a dial with any names on it.
func drawnDial(t *rapid.T) Dial {
	d := Dial{Title: names.Draw(t, "title"), Zero: "TDC"}
	for range rapid.IntRange(1, 8).Draw(t, "marks") {
		at := between(-360, 360).Draw(t, "at")
		half, limit := between(0, 20).Draw(t, "half"), between(0, 20).Draw(t, "limit")
		d.Marks = append(d.Marks, DialMark{
			Name: names.Draw(t, "name") + "x", Detail: names.Draw(t, "detail"), At: at, From: at - half, To: at + half,
			LimitFrom: at - limit, LimitTo: at + limit, Alarm: rapid.Bool().Draw(t, "alarm"),
		})
	}
	return d
}

// drawnNode is a tree of so many levels at most.
func drawnNode(t *rapid.T, levels int) Node {
	n := Node{Name: names.Draw(t, "name") + "x", Word: names.Draw(t, "word")}
	if levels > 1 {
		for range rapid.IntRange(0, 3).Draw(t, "children") {
			n.Children = append(n.Children, drawnNode(t, levels-1))
		}
	}
	return n
}

// Every place of a dial is at its angle: read off the picture as an eye would, from the
// centre that two of its ticks point to.
func TestDialIsToScale(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		d := drawnDial(r)
		f := d.face()
		svg, err := d.SVG()
		all := parsed(t, svg, err)
		var dots []element
		for _, e := range named(all, "circle", "tag") {
			if e.number(t, "r") < tagRadius-1 { // not a number's
				dots = append(dots, e)
			}
		}
		require.Len(t, dots, len(d.Marks))
		for n, e := range dots {
			dx, dy := e.number(t, "cx")-f.centre.x, f.centre.y-e.number(t, "cy")
			angle := math.Atan2(dx, dy) * 180 / math.Pi // clockwise from the top
			want := f.gain * (d.Marks[n].At - f.middle)
			require.InDelta(t, 0, math.Remainder(angle-want, 360), 0.01/math.Hypot(dx, dy)*180/math.Pi+1e-9) // a hundredth of a unit
		}
	})
}

// Words in lines are the words that were given, in their order, but where three dots say
// that some are left out; and no line is wider than it may be.
func TestWrapped(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := names.Draw(r, "text")
		width, most := between(40, 400).Draw(r, "width"), rapid.IntRange(1, 4).Draw(r, "most")
		lines := wrapped(text, width, smallSize, most)
		require.LessOrEqual(t, len(lines), most)
		for _, line := range lines {
			require.LessOrEqual(t, textWidth(line, smallSize), width+1e-9, "%q", line)
		}
		if joined := strings.Join(lines, " "); !strings.Contains(joined, "…") {
			require.Equal(t, strings.Join(strings.Fields(text), " "), joined)
		}
	})
}

// A page that holds several pictures has their style once, and each without it is the
// same picture.
func TestUnstyled(t *testing.T) {
	svg, err := readings(true).SVG()
	styled := parsed(t, svg, err)
	bare := parsed(t, Unstyled(svg), nil)
	require.Empty(t, named(bare, "style", ""))
	require.Equal(t, Style(), named(styled, "style", "")[0].text)
	require.Len(t, bare, len(styled)-1)
	require.Equal(t, Unstyled(svg), Unstyled(Unstyled(svg)))
}

// Every class that a picture uses is one that the style sheet knows, so that nothing is
// drawn in a viewer's black on a dark page.
func TestEveryClassHasAStyle(t *testing.T) {
	known := map[string]bool{}
	for _, rule := range regexp.MustCompile(`\.ed \.([a-z0-9]+)`).FindAllStringSubmatch(Style(), -1) {
		known[rule[1]] = true
	}
	rapid.Check(t, func(r *rapid.T) {
		for _, draw := range []func() ([]byte, error){drawnChart(r).SVG, drawnDial(r).SVG, Tree{Root: drawnNode(r, 3)}.SVG} {
			svg, err := draw()
			for _, e := range parsed(t, svg, err)[1:] {
				for class := range strings.FieldsSeq(e.class) {
					require.True(t, known[class], "%s of %s", class, e.name)
				}
			}
		}
	})
}

// Markers are of one size, so that none looks weightier, and a doubtful one is crossed
// over its whole width.
func TestMarkers(t *testing.T) {
	for n, s := range shapes {
		d := &drawing{}
		d.marker(n, spot{100, 50}, true)
		all := parsed(t, []byte("<svg>"+d.body.String()+"</svg>"), nil)[1:]
		cross := named(all, "line", "alarmed")
		require.Len(t, cross, 2, "shape %d", s)
		for _, l := range cross {
			require.InDelta(t, 100, (l.number(t, "x1")+l.number(t, "x2"))/2, 1e-9)
			require.InDelta(t, 50, (l.number(t, "y1")+l.number(t, "y2"))/2, 1e-9)
			require.Greater(t, math.Abs(l.number(t, "x1")-l.number(t, "x2")), 2*markerRadius)
		}
		for _, at := range all[0].corners(t) {
			require.InDelta(t, markerRadius, math.Hypot(at.x-100, at.y-50), 0.36*markerRadius, "shape %d", s)
		}
	}
}

// corners are what an outline is drawn by: of a circle one place on it.
func (e element) corners(t *testing.T) []spot {
	switch e.name {
	case "circle":
		return []spot{{e.number(t, "cx") + e.number(t, "r"), e.number(t, "cy")}}
	case "rect":
		at := e.at(t)
		return []spot{at, {at.x + e.number(t, "width"), at.y + e.number(t, "height")}}
	}
	var far []spot // the inner corners of a cross are no part of its reach
	for _, s := range e.spots(t) {
		if math.Hypot(s.x-100, s.y-50) > markerRadius*0.7 {
			far = append(far, s)
		}
	}
	return far
}

// A limit's label is cut short at the plot's edge.
func TestLimitLabelStaysInside(t *testing.T) {
	c := readings(true)
	c.Level[0].Label = strings.Repeat("limit by the maker's manual ", 6)
	svg, err := c.SVG()
	all := parsed(t, svg, err)
	right := named(all, "line", "axis")[1].number(t, "x2")
	for _, e := range named(all, "text", "small") {
		if strings.HasPrefix(e.text, "limit") {
			_, to := across(t, e)
			require.LessOrEqual(t, to, right)
			require.Contains(t, e.text, "…")
			return
		}
	}
	t.Fatal("the label is not on the picture")
}
