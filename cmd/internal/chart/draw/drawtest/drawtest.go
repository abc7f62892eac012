// Package drawtest reads pictures as an eye would, for the tests of those who draw them.
// Whoever imports it has the same random cases every time, unless flags say otherwise.
package drawtest

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Random cases are the same every time, unless flags say otherwise.
func init() {
	for name, value := range map[string]string{"rapid.seed": "1879", "rapid.nofailfile": "true"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
}

// Element is one element of a picture, with the text directly in it.
type Element struct {
	Name, Class, Text string
	Attr              map[string]string
}

// Number is an attribute that must be one.
func (e Element) Number(t *testing.T, name string) float64 {
	x, err := strconv.ParseFloat(e.Attr[name], 64)
	require.NoError(t, err, "%s of %v", name, e)
	return x
}

// At is where its x and y are.
func (e Element) At(t *testing.T) draw.Spot { return draw.At(e.Number(t, "x"), e.Number(t, "y")) }

// Spots are the corners of a path of straight lines.
func (e Element) Spots(t *testing.T) (out []draw.Spot) {
	for _, part := range strings.FieldsFunc(e.Attr["d"], func(r rune) bool { return r == 'M' || r == 'L' || r == 'Z' }) {
		x, y, ok := strings.Cut(part, " ")
		require.True(t, ok, part)
		px, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		out = append(out, draw.At(px, py))
	}
	return out
}

// Parsed reads a picture with a strict XML parser.
func Parsed(t *testing.T, svg []byte, err error) []Element {
	t.Helper()
	require.NoError(t, err)
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	var all, open []*Element
	var at []draw.Spot // from where places count in what is open
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			e := &Element{Name: token.Name.Local, Attr: map[string]string{}}
			for _, a := range token.Attr {
				e.Attr[a.Name.Local] = a.Value
			}
			e.Class = e.Attr["class"]
			from := draw.Spot{}
			if len(at) > 0 {
				from = at[len(at)-1]
			}
			e.move(from)
			all, open, at = append(all, e), append(open, e), append(at, e.movesFrom(from))
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].Text += string(token)
			}
		case xml.EndElement:
			open, at = open[:len(open)-1], at[:len(at)-1]
		}
	}
	var out []Element
	for _, e := range all {
		out = append(out, *e)
	}
	return out
}

// movesFrom is from where places count in an element that stands in one where they count from
// a spot.
func (e *Element) movesFrom(from draw.Spot) draw.Spot {
	var x, y float64
	if n, _ := fmt.Sscanf(e.Attr["transform"], "translate(%g %g)", &x, &y); n == 2 {
		return draw.At(from.X+x, from.Y+y)
	}
	return from
}

// move has an element's places count from the corner of the paper; they count from a spot.
func (e *Element) move(from draw.Spot) {
	if from == (draw.Spot{}) {
		return
	}
	for name, by := range map[string]float64{"x": from.X, "x1": from.X, "x2": from.X, "cx": from.X, "y": from.Y, "y1": from.Y, "y2": from.Y, "cy": from.Y} {
		if is, ok := e.Attr[name]; ok {
			e.Attr[name] = shifted(is, by)
		}
	}
	if d, ok := e.Attr["d"]; ok {
		e.Attr["d"] = steps.ReplaceAllStringFunc(d, func(s string) string { return movedStep(s, from) })
	}
}

// movedStep is a step of a path whose places count from the corner of the paper.
func movedStep(step string, from draw.Spot) string {
	args, first := strings.Fields(step[1:]), 0
	if step[0] == 'A' {
		first = 5 // after the arc's radii and flags
	}
	for i := first; i+1 < len(args); i += 2 {
		args[i], args[i+1] = shifted(args[i], from.X), shifted(args[i+1], from.Y)
	}
	return step[:1] + strings.Join(args, " ")
}

// steps are those of a path that name places from where its picture counts.
var steps = regexp.MustCompile(`[MLAQ][^MLAQZ]*`)

// shifted is a coordinate so much farther, to a hundredth.
func shifted(coordinate string, by float64) string {
	x, _ := strconv.ParseFloat(coordinate, 64) // of the program's own writing
	return strconv.FormatFloat(math.Round((x+by)*100)/100, 'f', -1, 64)
}

// Named are the elements of a class, or of a name.
func Named(all []Element, name, class string) (out []Element) {
	for _, e := range all {
		if (name == "" || e.Name == name) && (class == "" || strings.Contains(" "+e.Class+" ", " "+class+" ")) {
			out = append(out, e)
		}
	}
	return out
}

// Texts are the words of a picture, in their order.
func Texts(all []Element) (out []string) {
	for _, e := range all {
		if e.Name == "text" {
			out = append(out, e.Text)
		}
	}
	return out
}

// Hostile are names that somebody may type into a job.
var Hostile = []string{
	`<script>alert(1)</script>`, `a & b`, `"quoted" 'too'`, `]]> --> <!--`, "שלום 12°", "مرحبا", "🔧 pin", "日本語の印",
}

// sizeOf is the font size of a word by its classes.
func sizeOf(e Element) float64 {
	size := draw.TextSize
	for class, is := range map[string]float64{"small": draw.SmallSize, "title": draw.TitleSize} {
		if strings.Contains(" "+e.Class+" ", " "+class+" ") {
			size = is
		}
	}
	return size * bold(e)
}

// bold is by how much a word is wider for its weight.
func bold(e Element) float64 {
	if strings.Contains(e.Class, "strong") || strings.Contains(e.Class, "title") {
		return draw.Bold
	}
	return 1
}

// Across is from where to where a word reaches.
func Across(t *testing.T, e Element) (from, to float64) {
	width := draw.TextWidth(e.Text, sizeOf(e))
	from = e.At(t).X - map[string]float64{"start": 0, "middle": width / 2, "end": width}[e.Attr["text-anchor"]]
	return from, from + width
}

// Names is what somebody may call a mark: words of any length.
var Names = rapid.StringMatching(`[a-zA-Z0-9 .,%±()-]{0,30}( [a-zA-Z]{1,40}){0,3}`)

// Between is a value or a half-width, to a thousandth, as finely as anything is read.
func Between(low, high float64) *rapid.Generator[float64] {
	return rapid.Map(rapid.Float64Range(low, high), func(x float64) float64 { return math.Round(x*1e3) / 1e3 })
}

// WordsStay asks that every word is on the paper.
func WordsStay(t *testing.T, all []Element) {
	paper := Named(all, "rect", "paper")[0]
	width, height := paper.Number(t, "width"), paper.Number(t, "height")
	for _, e := range Named(all, "text", "") {
		from, to := Across(t, e)
		require.GreaterOrEqual(t, from, 0.0, "%q", e.Text)
		require.LessOrEqual(t, to, width, "%q", e.Text)
		require.Greater(t, e.At(t).Y, 0.0, "%q", e.Text)
		require.LessOrEqual(t, e.At(t).Y, height, "%q", e.Text)
	}
}

// WordsApart asks that no two words lie upon one another: letters stand a fifth of their
// size below their line and four fifths above it.
func WordsApart(t *testing.T, all []Element) {
	words := Named(all, "text", "")
	var taken []draw.Box
	for _, e := range words {
		from, to := Across(t, e)
		size, y := sizeOf(e)/bold(e), e.At(t).Y
		b := draw.Box{Left: from, Top: y - 0.8*size, Right: to, Bottom: y + 0.2*size}
		for i, other := range taken {
			if b.Left < other.Right && other.Left < b.Right && b.Top < other.Bottom && other.Top < b.Bottom {
				require.Fail(t, "words upon words", "%q lies upon %q", e.Text, words[i].Text)
			}
		}
		taken = append(taken, b)
	}
}

// ShapesStay asks that every line, box, disc and outline of straight lines is on the paper.
func ShapesStay(t *testing.T, all []Element) {
	paper := Named(all, "rect", "paper")[0]
	width, height := paper.Number(t, "width"), paper.Number(t, "height")
	on := func(what Element, x, y float64) {
		if x < 0 || x > width || y < 0 || y > height {
			require.Fail(t, "beyond the paper", "%v at %g, %g", what, x, y)
		}
	}
	for _, e := range all {
		switch {
		case e.Name == "line":
			on(e, e.Number(t, "x1"), e.Number(t, "y1"))
			on(e, e.Number(t, "x2"), e.Number(t, "y2"))
		case e.Name == "rect" && e.Class != "paper":
			at := e.At(t)
			on(e, at.X, at.Y)
			on(e, at.X+e.Number(t, "width"), at.Y+e.Number(t, "height"))
		case e.Name == "circle":
			r := e.Number(t, "r")
			on(e, e.Number(t, "cx")-r, e.Number(t, "cy")-r)
			on(e, e.Number(t, "cx")+r, e.Number(t, "cy")+r)
		case e.Name == "path" && !strings.Contains(e.Attr["d"], "A"):
			for _, s := range e.Spots(t) {
				on(e, s.X, s.Y)
			}
		}
	}
}

// TextAndShapes asks that a picture has shapes and words alone, and the name
// as the text it is.
func TextAndShapes(t *testing.T, all []Element, name string) {
	allowed := "svg title desc style rect line path circle text g"
	require.Equal(t, "svg", all[0].Name)
	require.Regexp(t, `^0 0 (360|390) \d`, all[0].Attr["viewBox"])
	require.Equal(t, []string{"title", "desc"}, []string{all[1].Name, all[2].Name})
	require.Equal(t, name, all[1].Text)
	require.Equal(t, name+name, all[2].Text)
	require.Contains(t, Texts(all), name)
	for _, e := range all {
		require.Contains(t, strings.Fields(allowed), e.Name)
		for attribute := range e.Attr {
			require.False(t, strings.HasPrefix(attribute, "on") || attribute == "href", attribute)
		}
	}
}

// ClassesHaveAStyle asks that the style sheet knows every class of a picture.
func ClassesHaveAStyle(t *testing.T, all []Element) {
	known := map[string]bool{}
	for _, rule := range regexp.MustCompile(`\.ed \.([a-z0-9]+)`).FindAllStringSubmatch(draw.Style(), -1) {
		known[rule[1]] = true
	}
	for _, e := range all[1:] {
		for class := range strings.FieldsSeq(e.Class) {
			require.True(t, known[class], "%s of %s", class, e.Name)
		}
	}
}

// Apart is how far two spots lie from one another.
func Apart(a, b draw.Spot) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
