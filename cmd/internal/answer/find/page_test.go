package find

import (
	"encoding/xml"
	"errors"
	"fmt"
	"html"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/cmd/internal/answer/find/picture"
	"evendrop/cmd/internal/caution"
	"evendrop/cmd/internal/legible"
	"evendrop/cmd/internal/words"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark/joint"
)

// pageOf is the page of a small answer with a name in every place that takes one.
func pageOf(t *testing.T, name string) (Page, string) {
	t.Helper()
	f := answer(t, name)
	f.Job.Setup.Engine.Name, f.Job.File = name, name
	f.Marks[0].Source = name
	f.Lobes = lobesOf(f, name)
	d, err := joint.Explain(f.Job.Setup, f.Job.Drive, f.Marks, nil)
	require.NoError(t, err)
	f.Diagnosis = d
	p := Page{Answer: f, Version: "evendrop test"}
	out, err := p.HTML()
	require.NoError(t, err)
	return p, string(out)
}

// says is require.Contains without the page in the message.
func says(t *testing.T, page, text string) {
	t.Helper()
	require.True(t, strings.Contains(page, text), "the page does not say %q", text)
}

var (
	tags     = regexp.MustCompile(`<[a-zA-Z][a-zA-Z0-9]*`)
	pictures = regexp.MustCompile(`(?s)<svg class="ed.*?</svg>\n?</?fig`)
)

// Whatever a name holds, the page has the same elements, and the name is on it as
// text.
func TestPageTakesNamesAsText(t *testing.T) {
	_, plain := pageOf(t, "pin")
	for _, name := range append(slices.Clone(answertest.Hostile), `" onload="alert(1)`, "</style><img src=x>", "&lt;b&gt;", "{{.}}", "it's") {
		_, page := pageOf(t, name)
		require.Equal(t, tags.FindAllString(lineless(plain), -1), tags.FindAllString(lineless(page), -1), name)
		says(t, html.UnescapeString(page), legible.Undirected(name))
	}
}

// lineless is a page without the lines of its pictures: a long name takes more of
// them, and none.
func lineless(page string) string {
	return regexp.MustCompile(`(?s)<svg.*?</figure>`).ReplaceAllString(page, "")
}

// A name written from right to left, or that turns the writing round, does so to
// itself alone.
func TestPageKeepsDirectionsApart(t *testing.T) {
	_, page := pageOf(t, "\u202eשלום\u2069 x")
	require.False(t, strings.Contains(page, "\u202e"))
	says(t, page, "<li>\u2068שלום x\u2069: 3.1")
	require.Equal(t, strings.Count(page, "\u2068"), strings.Count(page, "\u2069"))
	says(t, page, `<th dir="auto">`)
}

// The page asks for nothing, runs nothing, and says so to the browser.
func TestPageAsksForNothing(t *testing.T) {
	_, page := pageOf(t, "pin")
	says(t, page, `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">`)
	rest := strings.NewReplacer("http://www.w3.org/2000/svg", "", `href="#`, "").Replace(page) // words on an arc of the same picture
	for _, no := range []string{"http:", "https:", "src=", "href=", "url(", "@import", "<script", "javascript:"} {
		require.False(t, strings.Contains(rest, no), no)
	}
	require.Empty(t, regexp.MustCompile(`\son[a-z]+=`).FindString(rest))
}

// Every picture on the page is well formed and says in spoken what it shows; the
// style sheet is there once.
func TestPagePictures(t *testing.T) {
	_, page := pageOf(t, `a <b> & "c"`)
	list := pictures.FindAllString(page, -1)
	require.Len(t, list, 1+7) // the sheet's; of one cylinder without dwells, stops and views
	for _, svg := range list {
		wellFormed(t, svg[:strings.LastIndex(svg, "</svg>")+len("</svg>")])
		require.NotContains(t, svg, "<style>")
	}
	require.Equal(t, 1, strings.Count(page, "<style>"))
	says(t, page, "prefers-color-scheme:dark")
}

// wellFormed reads a picture with a strict XML parser, and finds its title and
// description first in it.
func wellFormed(t *testing.T, svg string) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(svg))
	var names []string
	var spoken [2]string
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			names = append(names, token.Name.Local)
		case xml.CharData:
			if n := len(names); n == 2 || n == 3 {
				spoken[n-2] += strings.TrimSpace(string(token))
			}
		}
	}
	require.Equal(t, []string{"svg", "title", "desc"}, names[:3])
	require.NotEmpty(t, spoken[0])
	require.Greater(t, len(spoken[1]), 40, "a sentence or two")
}

// What the text says, the page says: the sentence, the verdicts, the warnings, the
// methods, the budget, the cautions.
func TestPageSaysWhatTheTextSays(t *testing.T) {
	p, page := pageOf(t, "pin")
	said := html.UnescapeString(strings.NewReplacer("\u2068", "", "\u2069", "").Replace(page))
	says(t, said, p.sentence())
	says(t, said, p.Headline())
	says(t, said, `<tr class="outside"><th dir="auto">pin<td>`)
	says(t, said, `<td><span class="badge">outside</span>`)
	says(t, said, `<td>no limit given`)
	says(t, said, agreement(p.Results[0]))
	for _, c := range p.Results[0].Budget {
		if c.Angle.Degrees() >= 0.0005 {
			says(t, said, words.Source(c.Source))
		}
	}
	for _, c := range caution.List {
		says(t, said, c.Advice)
	}
	says(t, said, "evendrop test")
	says(t, said, "stroke 86 mm")
	says(t, said, "source not stated")
	says(t, said, "All readings were turned one way")

	p.Results[0].Findings = nil
	again, err := p.HTML()
	require.NoError(t, err)
	require.False(t, strings.Contains(string(again), "Warnings"), "nothing to warn of")

	p.Results[0].Findings = []finding.Finding{finding.StrokeUnknown{}}
	again, err = p.HTML()
	require.NoError(t, err)
	says(t, string(again), "Warnings")
	says(t, string(again), `<ul class="warning"><li>The stroke is unknown: how fast the piston drops is taken from the readings alone.</li></ul>`)
}

// A page without marks and lobes has no bars, no drive and no lobe, and is a page.
func TestPageWithoutMarks(t *testing.T) {
	f := answer(t, "")
	f.Marks = nil
	out, err := Page{Answer: f}.HTML()
	require.NoError(t, err)
	require.Len(t, pictures.FindAllString(string(out), -1), 3+1) // the sheet shows the curve
	require.False(t, strings.Contains(string(out), "What the marks point to"))
	for _, name := range []string{picture.Marks, picture.Drive} {
		_, err := Page{Answer: f}.Picture(name, 0)
		require.ErrorContains(t, err, "no marks")
	}
	_, err = Page{Answer: f}.Picture("dial", 0)
	require.ErrorContains(t, err, "curve, residuals, midpoints, observations, cylinders, throws, crowns, marks, drive, lobes, lean")
}

// The drive's picture marks the joints of every explanation and no other, with the
// way each would have moved.
func TestDriveSaysWhatMayHaveMoved(t *testing.T) {
	p, _ := pageOf(t, "pin")
	p.Diagnosis = joint.Diagnosis{Explanations: []joint.Explanation{
		{Slips: []joint.Slip{{Joints: []string{"flywheel on crank", "pin itself"}, Opposite: []string{"pin itself"}, Estimate: p.Marks[0].Estimate}}},
		{Slips: []joint.Slip{{Joints: []string{"flywheel on crank", "TDC of cylinder 1"}, Opposite: []string{"flywheel on crank"}, Estimate: p.Marks[0].Estimate}}},
	}}
	svg, err := p.Picture(picture.Drive, 0)
	require.NoError(t, err)
	late := words.Off(p.Marks[0].Angle, p.Marks[0].Expanded)
	early := words.Off(-p.Marks[0].Angle, p.Marks[0].Expanded)
	require.Contains(t, late, "late")
	require.ElementsMatch(t, []string{"TDC of cylinder 1: moved?", late, "moved?", late, "moved?", early}, split(beside(svg, "text small strong"), late, early))
	require.Empty(t, beside(svg, "warn small strong"))
	for _, says := range []string{" flywheel on crank: moved? " + late + ".", " pin itself: moved? " + early + "."} {
		require.Contains(t, string(svg), says, "who listens hears it too")
	}
}

// beside is the words of a class in a picture.
func beside(svg []byte, class string) (list []string) {
	for _, found := range regexp.MustCompile(`<text class="`+class+`"[^>]*>([^<]*)<`).FindAllStringSubmatch(string(svg), -1) {
		list = append(list, found[1])
	}
	return list
}

// One explanation with one joint to a slip is the answer, and alone has the ink of an alarm;
// what several joints or several explanations tie for has none, nor what is dismissed.
func TestOnlyTheAnswerIsRed(t *testing.T) {
	p, _ := pageOf(t, "pin")
	of := func(chi float64, joints ...string) joint.Explanation {
		return joint.Explanation{ChiSquare: chi, DegreesOfFreedom: 1, Slips: []joint.Slip{{Joints: joints, Estimate: p.Marks[0].Estimate}}}
	}
	two := joint.Explanation{Slips: append(of(0, "pulley on crank").Slips, of(0, "pin itself").Slips...)}
	size := words.Off(p.Marks[0].Angle, p.Marks[0].Expanded)
	moved, dismissed := "moved? "+size, "much less likely: "+size
	for _, c := range []struct {
		why            string
		list           []joint.Explanation
		red, tie, grey []string
	}{
		{"one", []joint.Explanation{of(0.1, "flywheel on crank")}, []string{moved}, nil, nil},
		{"one, and one much less likely", []joint.Explanation{of(0.1, "flywheel on crank"), of(9, "pin itself")}, []string{moved}, nil, []string{dismissed}},
		{"two alike", []joint.Explanation{of(0.1, "flywheel on crank"), of(0.2, "pin itself")}, nil, []string{moved, moved}, nil},
		{"one of two joints", []joint.Explanation{of(0.1, "flywheel on crank", "pin itself")}, nil, []string{moved, moved}, nil},
		{"one that chance speaks against, and two slips", []joint.Explanation{of(9, "flywheel on crank"), two}, nil, []string{moved, moved, moved}, nil},
		{"one that chance allows, and two slips", []joint.Explanation{of(0.1, "flywheel on crank"), two}, []string{moved}, []string{moved, moved}, nil},
	} {
		p.Diagnosis = joint.Diagnosis{Tried: 1, Explanations: c.list}
		svg, err := p.Picture(picture.Drive, 0)
		require.NoError(t, err)
		require.Equal(t, c.red, beside(svg, "warn small strong"), c.why)
		require.Equal(t, c.tie, beside(svg, "text small strong"), c.why)
		require.Equal(t, c.grey, beside(svg, "quiet small"), c.why)
		require.Equal(t, len(c.red) > 0, picture.OneAnswer(p.Diagnosis), c.why)
		caption := driveCaption(p.Diagnosis)
		require.Equal(t, len(c.red) == 0, strings.Contains(caption, "none is picked out"), c.why)
		require.Equal(t, len(c.grey) > 0, strings.Contains(caption, "much less likely is grey"), c.why)
	}
}

// The bars show each mark as far off as it is, with its limit about zero.
func TestMarksPictureSaysEachMark(t *testing.T) {
	p, _ := pageOf(t, "pin")
	svg, err := p.Picture(picture.Marks, 0)
	require.NoError(t, err)
	for _, m := range p.Marks {
		require.Contains(t, string(svg), fmt.Sprintf(">%s, %s", words.Off(m.Angle, m.Expanded), m.Verdict))
	}
}

// split is words, which may stand in two lines, parted before and after ends.
func split(words []string, ends ...string) (list []string) {
	all := strings.Join(words, " ")
	for all != "" {
		at, end := len(all), ""
		for _, e := range ends {
			if i := strings.Index(all, e); i >= 0 && i < at {
				at, end = i, e
			}
		}
		list = append(list, strings.TrimSpace(all[:at]))
		if end != "" {
			list = append(list, end)
		}
		all = strings.TrimSpace(all[min(len(all), at+len(end)):])
	}
	return list
}
