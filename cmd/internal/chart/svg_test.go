package chart

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// element is one element of a picture, with the text directly in it.
type element struct {
	name, class, text string
	attr              map[string]string
}

func (e element) number(t *testing.T, name string) float64 {
	x, err := strconv.ParseFloat(e.attr[name], 64)
	require.NoError(t, err, "%s of %v", name, e)
	return x
}

func (e element) at(t *testing.T) spot { return spot{e.number(t, "x"), e.number(t, "y")} }

// spots are the corners of a path of straight lines.
func (e element) spots(t *testing.T) (out []spot) {
	for _, part := range strings.FieldsFunc(e.attr["d"], func(r rune) bool { return r == 'M' || r == 'L' || r == 'Z' }) {
		x, y, ok := strings.Cut(part, " ")
		require.True(t, ok, part)
		px, err := strconv.ParseFloat(x, 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(y, 64)
		require.NoError(t, err)
		out = append(out, spot{px, py})
	}
	return out
}

// parsed reads a picture with a strict XML parser.
func parsed(t *testing.T, svg []byte, err error) []element {
	t.Helper()
	require.NoError(t, err)
	decoder := xml.NewDecoder(bytes.NewReader(svg))
	var all, open []*element
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{name: token.Name.Local, attr: map[string]string{}}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			e.class = e.attr["class"]
			all, open = append(all, e), append(open, e)
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(token)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
	var out []element
	for _, e := range all {
		out = append(out, *e)
	}
	return out
}

// named are the elements of a class, or of a name.
func named(all []element, name, class string) (out []element) {
	for _, e := range all {
		if (name == "" || e.name == name) && (class == "" || strings.Contains(" "+e.class+" ", " "+class+" ")) {
			out = append(out, e)
		}
	}
	return out
}

func texts(all []element) (out []string) {
	for _, e := range all {
		if e.name == "text" {
			out = append(out, e.text)
		}
	}
	return out
}

// hostile are names that somebody may type into a job.
var hostile = []string{
	`<script>alert(1)</script>`, `a & b`, `"quoted" 'too'`, `]]> --> <!--`, "שלום 12°", "مرحبا", "🔧 pin", "日本語の印",
}

// Every picture: well-formed XML, the title and the description first, no
// element but shapes and words, nothing that runs or is fetched, and a hostile
// name as the text it is.
func TestPicturesAreTextAndShapes(t *testing.T) {
	allowed := "svg title desc style rect line path circle text g"
	for _, name := range hostile {
		line := Series{Name: name, Line: true, Points: []Point{{X: 0, Y: 1, Label: name}, {X: 5, Y: 2}}}
		chart := Chart{Title: name, Description: name + name, X: Axis{Label: name}, Y: Axis{Label: name}, Series: []Series{line},
			Upright: []Band{{1, 2, name}}, Level: []Band{{1, 2, name}}}
		dial := Dial{Title: name, Description: name + name, Zero: name, Marks: []DialMark{{Name: name, Detail: name, At: 1}}}
		tree := Tree{Title: name, Description: name + name, Root: Node{Name: name, Children: []Node{{Name: name, Word: name}}}}
		for _, draw := range []func() ([]byte, error){chart.SVG, dial.SVG, tree.SVG} {
			svg, err := draw()
			all := parsed(t, svg, err)
			require.Equal(t, "svg", all[0].name)
			require.Regexp(t, `^0 0 500 \d`, all[0].attr["viewBox"])
			require.Equal(t, []string{"title", "desc"}, []string{all[1].name, all[2].name})
			require.Equal(t, name, all[1].text)
			require.Equal(t, name+name, all[2].text)
			require.Contains(t, texts(all), name)
			for _, e := range all {
				require.Contains(t, strings.Fields(allowed), e.name)
				for attribute := range e.attr {
					require.False(t, strings.HasPrefix(attribute, "on") || attribute == "href", attribute)
				}
			}
			require.NotContains(t, string(svg), "url(")
		}
	}
}

// Control characters, and those that turn the writing round, would break the XML
// or shuffle the words after them.
func TestControlCharactersAreDropped(t *testing.T) {
	svg, err := Tree{Title: "a\x00b\x1b[31m\u202ec\nd\u2066", Root: Node{Name: "x"}}.SVG()
	all := parsed(t, svg, err)
	require.Equal(t, "ab[31mc d", all[1].text)
}

// A page that sets its own quiet words smaller leaves those of a picture at their size,
// and small ones small.
func TestPicturesKeepTheirLetters(t *testing.T) {
	require.Regexp(t, `\.ed \.quiet\{font-size:14px\}.*\.ed \.small\{font-size:12\.5px\}`, Style())
}

// Contrast as WCAG22 defines it (relative luminance of sRGB): 4.5 to 1 for words
// (1.4.3), 3 to 1 for what must be seen to understand a picture (1.4.11). The
// names of series are words in the series' ink.
func TestContrast(t *testing.T) {
	require.InDelta(t, 21, contrast("#000000", "#ffffff"), 1e-9) // by definition
	for _, side := range []func(ink) string{func(i ink) string { return i.light }, func(i ink) string { return i.dark }} {
		for _, i := range append([]ink{text, quiet, alarm}, seriesInks...) {
			require.GreaterOrEqual(t, contrast(side(i), side(paper)), 4.5, "%v", i)
		}
		for _, ground := range []ink{paper, zone} {
			require.GreaterOrEqual(t, contrast(side(edge), side(ground)), 3.0)
			for _, i := range append([]ink{text}, seriesInks...) {
				require.GreaterOrEqual(t, contrast(side(i), side(ground)), 4.5, "%v on %v", i, ground)
			}
		}
		require.GreaterOrEqual(t, contrast(side(text), side(band)), 4.5)
	}
	require.Len(t, seriesInks, SeriesStyles)
	require.Len(t, dashes, SeriesStyles)
	require.Len(t, shapes, SeriesStyles)
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (math.Max(x, y) + 0.05) / (math.Min(x, y) + 0.05)
}

func luminance(colour string) (sum float64) {
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		c, _ := strconv.ParseUint(colour[1+2*i:3+2*i], 16, 8)
		v := float64(c) / 255
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}
