package crank

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"

	"github.com/stretchr/testify/require"
)

// texts are the words on a picture.
func texts(all []seen) (out []string) {
	for _, s := range all {
		if s.name == "text" {
			out = append(out, s.text)
		}
	}
	return out
}

// Only what is outside and likely to blame is in an alarm's ink, sign, bar and words; only
// its body is outlined; and never anything that is within, or was.
func TestAlarmOnlyForWhatIsLikely(t *testing.T) {
	everySet(t, func(name string, marks []Mark) {
		f := faceOf(t, marks)
		now, was := f.signs()
		outlines, bodies := 0, map[string]bool{}
		for i, m := range inOrder(t, marks) {
			require.Equal(t, m.Suspect && m.State == doc.Outside, now[i].is("accused"), "%s: %s", name, m.Name)
			if m.Suspect && (m.State == doc.Outside || m.State == doc.TooClose) {
				if m.Body == "" {
					outlines++
				} else {
					bodies[m.Body] = true
				}
			}
			for _, s := range f.all {
				if s.title == now[i].title && (s.is("suspect") || s.is("accused")) {
					require.True(t, now[i].is("accused") || s.name != "text", "%s: %q", name, s.text)
				}
			}
		}
		for _, s := range was {
			require.False(t, s.is("accused"), name)
		}
		drawn := 0
		for _, s := range f.all {
			if s.is("suspect") && s.title == "" {
				drawn++
			}
		}
		require.Equal(t, outlines+len(bodies), drawn, name)
	})
	for _, state := range []doc.State{doc.Within, doc.Unjudged} {
		marks := invented()["flywheel"]
		for i := range marks {
			marks[i].State, marks[i].Suspect = state, true
			marks[i].Was = &Was{Off: 4, State: doc.Outside, Says: "was 4.0°"}
		}
		svg, err := Picture{Marks: marks}.SVG()
		require.NoError(t, err)
		require.NotRegexp(t, `class="[^"]*(suspect|accused|warn|alarmed)`, string(svg))
	}
}

// A state is told apart with no colour at all.
func TestStatesDifferWithoutColour(t *testing.T) {
	drawn := map[string]bool{}
	states := []doc.State{doc.Within, doc.Outside, doc.TooClose, doc.Unjudged}
	for _, state := range states {
		for _, was := range states {
			marks := []Mark{{Name: "pin", Off: 1, Limit: 2, State: state, Says: "1.0° late", Was: &Was{Off: -3, State: was, Says: "was"}}}
			svg, err := Picture{Marks: marks}.SVG()
			require.NoError(t, err)
			bare := regexp.MustCompile(`(?s)class="[^"]*"|<(title|desc|style)>.*?</(title|desc|style)>`).ReplaceAllString(string(svg), "")
			require.NotContains(t, drawn, bare)
			drawn[bare] = true
		}
	}
}

// A mark that belongs elsewhere than at top dead centre is drawn as if it belonged there:
// the picture marks it with a star and the caption says where it belongs.
func TestOwnPlaceIsSaid(t *testing.T) {
	marks := []Mark{{Name: "crank wheel gap", Off: 1, Says: "1.0° late", Nominal: -84, HasPlace: true}, {Name: "pin", Off: 1, Says: "1.0° late"}}
	p := Picture{Marks: marks}
	all, _ := pictured(t, marks)
	require.Subset(t, texts(all), []string{"crank wheel gap*", "pin", "* from its own place"})
	require.Contains(t, p.Caption(), "* Set against its own place, 84° before top dead centre: crank wheel gap.")
	marks[0].Nominal = 12.5
	require.Contains(t, p.Caption(), "its own place, 12.5° after top dead centre: crank wheel gap.")
	for _, at := range []Mark{{Nominal: 12}, {HasPlace: true}} {
		marks[0].Nominal, marks[0].HasPlace = at.Nominal, at.HasPlace
		all, _ = pictured(t, marks)
		require.NotContains(t, texts(all), "* from its own place")
		require.NotContains(t, p.Caption(), "own place")
	}
}

// The picture says which side is which, what the line is and which way the crank turns.
func TestPictureSaysHowItIsRead(t *testing.T) {
	all, _ := pictured(t, invented()["one"])
	at := map[string]float64{}
	for _, s := range all {
		if s.name == "text" {
			at[s.text] = s.middle().X
		}
	}
	require.Contains(t, at, "True top dead centre:")
	require.Contains(t, at, "piston at its highest")
	require.Contains(t, at, "turns this way")
	require.Contains(t, at, "early")
	require.Contains(t, at, "late")
	require.Less(t, at["early"], 60.0)
	require.Greater(t, at["late"], width-60.0)
	for _, words := range []string{"The crank from the front.", "Outlined box: allowed.", "The bar through a shape is its ±."} {
		require.Contains(t, Picture{Marks: invented()["one"]}.Caption(), words)
	}
	require.Contains(t, Picture{Marks: invented()["tooth"]}.Caption(), "A ± too small for a bar hides behind its shape.")
	require.NotContains(t, Picture{Marks: []Mark{{Name: "pin"}}}.Caption(), "Outlined box")
}

// The arrow beside the crank points clockwise, as late lies.
func TestTurningIsClockwise(t *testing.T) {
	f := faceOf(t, invented()["one"])
	found := false
	for _, s := range f.all {
		at := s.middle()
		if s.head() && s.title == "" && at.X > f.centre.X && at.Y > f.centre.Y {
			found = true
			require.Greater(t, f.angle(s.corners[0]), f.angle(s.corners[1]))
		}
	}
	require.True(t, found)
}

// Who listens is told every mark, its whole name, what it says and its state, now and before.
func TestDescribed(t *testing.T) {
	for name, marks := range invented() {
		_, described := pictured(t, marks)
		for _, m := range marks {
			for _, want := range []string{m.Name, m.Body, m.Says, stateWords[m.State]} {
				require.Contains(t, described, want, name)
			}
			if m.Was != nil {
				require.Contains(t, described, m.Was.Says+", "+stateWords[m.Was.State])
			}
		}
	}
	svg, err := Picture{Title: "The crank", Description: "Four marks.", Marks: invented()["tooth"]}.SVG()
	require.NoError(t, err)
	require.Regexp(t, `role="img"[^>]*>\n<title>The crank</title>\n<desc>Four marks\. Inlet cam \(inlet cam\): 17\.1° late, one tooth, outside\.`, string(svg))
}

// A name that does not fit is cut with dots, and whole where a pointer rests on it.
func TestLongNamesAreCut(t *testing.T) {
	all, _ := pictured(t, invented()["long"])
	cut := 0
	for _, s := range all {
		if s.name == "text" && strings.HasSuffix(s.text, "…") && s.title != "" {
			cut++
			require.True(t, strings.HasPrefix(s.title, strings.TrimSuffix(s.text, "…")))
			require.Greater(t, len(s.title), 200)
		}
	}
	require.Equal(t, 4, cut)
}

// Marks of one body stand side by side, where the first of them was given.
func TestBodiesStaySideBySide(t *testing.T) {
	var names []string
	for _, m := range sideBySide([]Mark{{Name: "a", Body: "x"}, {Name: "b"}, {Name: "c", Body: "y"}, {Name: "d", Body: "x"}, {Name: "e"}, {Name: "f", Body: "y"}}) {
		names = append(names, m.Name)
	}
	require.Equal(t, []string{"a", "d", "b", "c", "f", "e"}, names)
	all, _ := pictured(t, invented()["flywheel"])
	var radii []float64
	for _, s := range all {
		if s.is("body") {
			radii = append(radii, s.corners[0].Y)
		}
	}
	require.Len(t, radii, 3, "four marks, three bodies")
	require.Contains(t, texts(all), "flywheel")
	require.NotContains(t, texts(all), "pulley", "a body with one mark needs no name of its own")
}

func TestRefuses(t *testing.T) {
	for want, marks := range map[string][]Mark{
		"needs at least one mark":           nil,
		"holds 6 marks, not 7":              make([]Mark, 7),
		`mark "pin" at NaN deg`:             {{Name: "pin", Off: math.NaN()}},
		`mark "gap" at 1 deg cannot`:        {{Name: "gap", Off: 1, Was: &Was{Off: math.Inf(1)}}},
		"a half-width or a limit is less":   {{Name: "pin", Half: -1}},
		`"lim": a half-width or a limit is`: {{Name: "lim", Limit: -1}},
	} {
		_, err := Picture{Marks: marks}.SVG()
		require.ErrorContains(t, err, want)
		require.Empty(t, Picture{Marks: marks}.Caption())
	}
}

// Nothing in a picture runs or is fetched: its only references are to arcs of its own.
func TestPictureFetchesNothing(t *testing.T) {
	for _, name := range []string{"<script>alert(1)</script>", `" onload="x`, "]]>"} {
		svg, err := Picture{Title: name, Marks: []Mark{{Name: name, Body: name, Says: name}}}.SVG()
		require.NoError(t, err)
		all, _ := read(t, svg)
		require.Contains(t, strings.Join(texts(all), " "), draw.Clean(name)[:3])
		require.NotRegexp(t, `<script|\son\w+="|href="[^#]|url\(`, string(svg))
		ids := regexp.MustCompile(`id="([^"]+)"`).FindAllStringSubmatch(string(svg), -1)
		for _, ref := range regexp.MustCompile(`href="#([^"]+)"`).FindAllStringSubmatch(string(svg), -1) {
			found := false
			for _, id := range ids {
				found = found || id[1] == ref[1]
			}
			require.True(t, found)
		}
	}
}

func TestFigure(t *testing.T) {
	require.Equal(t, "17.1°", figure("17.1° late, one tooth"))
	require.Equal(t, "2.8°", figure("was 2.8°, outside"))
	require.Equal(t, "not read", figure("not read"))
	require.Equal(t, "was 2.8°", toFigure("was 2.8° late"))
	require.Equal(t, "not read", toFigure("not read"))
}
