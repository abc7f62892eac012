package class

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/practice"
	"evendrop/geometry"
	"evendrop/tdc/job/source"
)

// made is a class of three in a folder.
func made(t *testing.T) Class {
	t.Helper()
	c, err := Make(7, 3, filepath.Join(t.TempDir(), "monday"), "")
	require.NoError(t, err)
	require.NoError(t, c.Write(false, func() error { return nil }))
	return c
}

// wrote is a file of answers.
func wrote(t *testing.T, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "a.csv")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	return file
}

// What is wrong with a file of answers is said with its place and with what to type.
func TestWrongAnswers(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "a.csv:1:1: no header row: expected a header row such as name,engine,tdc,within,pin"},
		{"name,engine\nAnn,1\n", "a.csv:1:1: the header row has no column tdc"},
		{"name,engine,tcd\nAnn,1,3\n", `a.csv:1:13: "tcd": unknown column; did you mean "tdc"?`},
		{"name,engine,tdc,name\n", "a.csv:1:17: a second column name: expected one"},
		{"name,engine,tdc\n", "a.csv:2:1: no answers below the header row"},
		{"name,engine,tdc\nAnn,1\n", "a.csv:2:1: 2 fields under a header of 3: leave a field empty"},
		{"name,engine,tdc\nAnn,1,3,4\n", "a.csv:2:1: 4 fields under a header of 3: write decimals with a point, or separate the columns with semicolons"},
		{"name,engine,tdc\n,1,3.4\n", `a.csv:2:1: name "": expected who answered`},
		{"name,engine,tdc\n" + strings.Repeat("n", 201) + ",1,3.4\n", "expected who answered, 200 characters at the most"},
		{"name,engine,tdc\nAnn,4,3.4\n", `a.csv:2:5: engine "4": expected a whole number from 1 to 3, as it stands on the sheet`},
		{"name,engine,tdc\nAnn,0,3.4\n", `engine "0": expected a whole number from 1 to 3`},
		{"name,engine,tdc\nAnn,one,3.4\n", `engine "one": expected a whole number`},
		{"name,engine,tdc\nAnn,1,\n", `a.csv:2:7: tdc "": expected degrees on the protractor such as 3.4 or 356.2; leave the row out where there is no answer`},
		{"name,engine,tdc\nAnn,1,about 3\n", `tdc "about 3": expected degrees`},
		{"name,engine,tdc\nAnn,1,400\n", `tdc "400": `},
		{"name,engine,tdc,within\nAnn,1,3.4,-1\n", `a.csv:2:11: within "-1": expected degrees above zero such as 0.3, or nothing`},
		{"name,engine,tdc,within\nAnn,1,3.4,0\n", `within "0": expected degrees above zero`},
		{"name,engine,tdc,within\nAnn,1,3.4,181\n", `within "181": expected degrees above zero`},
		{"name,engine,tdc,pin\nAnn,1,3.4,late\n", `a.csv:2:11: pin "late": expected within or outside, or nothing`},
		{"name,engine,tdc\nAnn,1,3.4\nBen,1,3.5\nann,1,3.6\n", "a.csv:4:5: engine \"1\": ann has an answer to engine 1 on line 2 already: leave one of the two"},
		{"name;engine;tdc\nAnn;1;\"3\n", "a.csv:2:"},
		{"name,engine,tdc\nAnn\xff,1,3\n", "a.csv:2:4: is not text in UTF-8"},
		{"name,engine,tdc\n" + strings.Repeat("Ann,1,3\n", 1) + many(1000), "more than 1,000 answers in one file: make two of it"},
	} {
		_, err := readAnswers(wrote(t, c.text), 3)
		var at *source.Error
		require.ErrorAs(t, err, &at, c.text)
		require.Contains(t, err.Error(), c.says)
	}
	_, err := readAnswers(filepath.Join(t.TempDir(), "none.csv"), 3)
	require.ErrorContains(t, err, "not found: write one with the header row name,engine,tdc,within,pin")
}

// many is so many answers of different learners.
func many(n int) string {
	var text strings.Builder
	for i := range n {
		text.WriteString(strings.Repeat("x", 1+i%100) + strings.Repeat("y", i/100) + ",1,3\n")
	}
	return text.String()
}

// Answers are read as people write them.
func TestAnswersAsWritten(t *testing.T) {
	list, err := readAnswers(wrote(t, "# Monday\nEngine;Name;TDC;Pin;Within\n 2 ; Zoë Müller ; 3,4 ;Outside; ±0,3\n\n03;Ben;356.2;;\n"), 3)
	require.NoError(t, err)
	require.Len(t, list, 2)
	require.Equal(t, "Zoë Müller", list[0].Name)
	require.Equal(t, 3, list[0].Line)
	require.Equal(t, 2, list[0].Engine)
	require.InDelta(t, 3.4, list[0].TDC.Degrees(), 1e-9)
	require.InDelta(t, 0.3, list[0].Within.Degrees(), 1e-9)
	require.Equal(t, outside, list[0].Pin)
	require.Equal(t, 3, list[1].Engine)
	require.Nil(t, list[1].Within)
	require.Empty(t, list[1].Pin)
}

// A promise holds where the truth lies in it, its end among it; one three times as wide as
// evendrop's and as the answer is off tells little.
func TestPromises(t *testing.T) {
	half := func(degrees float64) *geometry.Angle { return new(geometry.Angle(degrees) * geometry.Degree) }
	for _, c := range []struct {
		off    float64
		within *geometry.Angle
		untold string
		want   promise
	}{
		{0.5, nil, "", noPromise}, {0.5, half(0.5), "", heldIt}, {-0.5, half(0.5), "", heldIt}, {0.51, half(0.5), "", brokeIt}, {-0.51, half(0.5), "", brokeIt},
		{0.1, half(0.9), "", heldIt}, {0.1, half(0.91), "", tooWide}, {0.4, half(1.2), "", heldIt}, {0.4, half(1.21), "", tooWide},
		{0.404, half(0.4), "", heldIt}, {-0.406, half(0.4), "", brokeIt}, {5, half(4), "", brokeIt}, {0.1, half(90), "nothing fits", heldIt},
	} {
		r := row{answered: answered{Within: c.within}, Marked: practice.Marked{Off: c.off}, Own: own{Within: 0.3, Untold: c.untold}}
		require.Equal(t, c.want, r.promise(), "off by %g", c.off)
	}
}

// Every answer is marked by its own engine's truth, and counted.
func TestMarks(t *testing.T) {
	c := made(t)
	truth := func(n int) float64 { return c.engines[n-1].Job.Answer.TDC }
	at := func(degrees float64) string { return formatted(math.Mod(degrees+360, 360)) }
	text := "name,engine,tdc,within,pin\n" +
		"Ann,1," + at(truth(1)) + ",0.3," + pinTruth(c.engines[0].Job.Answer) + "\n" +
		"Ben,2," + at(truth(2)+2) + ",1,\n" +
		"Ben,3," + at(truth(3)-0.2) + ",,\n" +
		"Cem,3," + at(360-truth(3)) + ",20," + other(pinTruth(c.engines[2].Job.Answer)) + "\n"
	m, err := Check(c.folder, "", wrote(t, text))
	require.NoError(t, err)
	for i, off := range []float64{0, 2, -0.2} {
		require.InDelta(t, off, m.rows[i].Off, 1e-6)
		require.Less(t, math.Abs(m.rows[i].Own.Off), m.rows[i].Limit, "evendrop's own answer is right")
		require.Greater(t, m.rows[i].Own.Within, 0.2, "and no surer than the protractor")
	}
	require.Equal(t, []bool{true, false, true, false}, []bool{m.rows[0].right(), m.rows[1].right(), m.rows[2].right(), m.rows[3].right()})
	require.Contains(t, m.rows[3].Near.Name, "wrong way round")
	s := m.summary()
	mirrored := math.Abs(m.rows[3].Off)
	require.InDelta(t, (2.2+mirrored)/4, s.MeanOff, 1e-6)
	require.InDelta(t, 0.2, s.HalfWithin, 1e-6, "of 0, 0.2, 2 and what is mirrored")
	s.MeanOff, s.HalfWithin = 0, 0
	held := 1
	if mirrored <= 20 {
		held = 2
	}
	require.Equal(t, summary{Answers: 4, Learners: 3, Right: 2, Promised: 3, Held: held, Pins: 2, PinsRight: 1, Wide: s.Wide,
		Traps: []fallen{{m.rows[3].Near.Name, 1, []int{3}, []string{"Cem (engine 3)"}}}}, s)
}

// What is off by no more than is shown as right is right; what is off by half a turn has a name,
// and with it who fell for it. A mean would hear of nothing else.
func TestHalfATurnOut(t *testing.T) {
	c := made(t)
	text := "name,engine,tdc,within,pin\n"
	for n, by := range []float64{180, 179.8} {
		text += fmt.Sprintf("%s,Engine %d,%s,,%s\n", []string{"Ann", "Ben"}[n], n+1, formatted(math.Mod(c.engines[n].Job.Answer.TDC+by, 360)), []string{"in", "OUT"}[n])
	}
	a := c.engines[2].Job.Answer
	text += "Cem,3," + formatted(math.Mod(a.TDC+a.Limit+0.004+360, 360)) + ",,\n"
	m, err := Check(c.folder, "", wrote(t, text))
	require.NoError(t, err)
	s := m.summary()
	require.Equal(t, []string{"Half-way across the protractor's zero, of plain numbers: Ann (engine 1) and Ben (engine 2)"}, s.fallen())
	require.Equal(t, 1, s.Right, "Cem, whose answer is shown as off by the limit")
	require.Equal(t, 2, s.Pins)
	require.Equal(t, []string{within, outside}, []string{m.rows[0].pin(), m.rows[1].pin()})
	require.Contains(t, s.sentence(), "Right: 1 of 3, by 3 learners; half of the answers are off by no more than 179.80 deg")
}

func other(verdict string) string {
	if verdict == within {
		return outside
	}
	return within
}

// formatted is degrees as somebody writes them.
func formatted(degrees float64) string {
	return strings.TrimRight(strings.TrimRight(sprint(degrees), "0"), ".")
}

// The half-way of the key is what a learner gets who reads every protractor to its line.
func TestKeyHalfWay(t *testing.T) {
	for _, e := range made(t).engines {
		sum := 0.0
		for n := 0; n < len(e.Held); n += 2 {
			rising, falling := e.Held[n].Pointer, e.Held[n+1].Pointer
			if math.Abs(rising-falling) > 180 { // one of them beyond the wheel's zero
				rising, falling = math.Max(rising, falling)-360, math.Min(rising, falling)
			}
			sum += (rising + falling) / 2
		}
		want := math.Mod(sum/4+360, 360)
		require.InDelta(t, want, e.halfWay().Degrees(), 1e-6)
	}
}

// The sheets tell the answer to nobody: no TDC, no seed, no key; an engine is a section of
// eight protractors and its blanks.
func TestSheetsKeepTheAnswer(t *testing.T) {
	c := made(t)
	page, err := os.ReadFile(c.worksheet())
	require.NoError(t, err)
	require.Equal(t, 3, strings.Count(string(page), "<section "))
	require.Equal(t, 3*8+1, strings.Count(string(page), "<figure>"))
	require.Equal(t, 3, strings.Count(string(page), "<dt>Name</dt>"))
	key, err := os.ReadFile(c.keyPage())
	require.NoError(t, err)
	require.Equal(t, TeacherOnly, filepath.Base(filepath.Dir(c.keyPage())))
	for _, e := range c.engines {
		for _, secret := range []string{sprint2(e.Job.Answer.TDC), sprint2(e.halfWay().Degrees())} {
			require.NotContains(t, string(page), "<td>"+secret)
			require.Contains(t, string(key), "<td>"+secret)
		}
		for n, h := range e.Held {
			require.Contains(t, string(key), "<td>"+sprint2(h.Pointer))
			require.NotContains(t, string(page), sprint2(h.Pointer)+" deg", "protractor %d", n+1)
		}
		require.NoFileExists(t, filepath.Join(e.Folder, "answer.toml"))
	}
	require.NotContains(t, string(page), "Seed")
}

func sprint(x float64) string { return fmt.Sprintf("%.4f", x) }

// sprint2 is a figure as the key has it.
func sprint2(x float64) string { return fmt.Sprintf("%.2f", x) }

// A pin is within on its limit too, early and late alike.
func TestPinTruth(t *testing.T) {
	for late, want := range map[float64]string{0: within, 1: within, -1: within, 1.1: outside, -1.1: outside, -3: outside} {
		require.Equal(t, want, pinTruth(practice.Answer{Pin: &late}), "%g deg late", late)
	}
}
