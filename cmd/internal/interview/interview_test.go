package interview_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/interview"
	"evendrop/cmd/internal/legible"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/mark"
)

func asking() *interview.Interview {
	return interview.New(interview.Facts{Unit: "mm"}, func(string) bool { return false })
}

// reaching answers Enter until a question begins so.
func reaching(t *testing.T, i *interview.Interview, begins string) {
	t.Helper()
	for {
		q, more := i.Question()
		require.True(t, more, "no question begins with %s", begins)
		if strings.HasPrefix(q.Text, begins) {
			return
		}
		require.True(t, i.Answer("").Taken, q.Text)
	}
}

// answered gives lines one after the other, each of which must be taken.
func answered(t *testing.T, i *interview.Interview, lines ...string) {
	t.Helper()
	for _, line := range lines {
		q, more := i.Question()
		require.True(t, more, line)
		reply := i.Answer(line)
		require.True(t, reply.Taken, "%s: %s: %s", q.Text, line, reply.Says)
	}
}

// Enter all the way is a job of which nothing is known, and the usual of all the rest.
func TestNothingKnown(t *testing.T) {
	i := asking()
	var topics []string
	for q, more := i.Question(); more; q, more = i.Question() {
		topics = append(topics, q.Topic)
		require.NotEmpty(t, q.Usual, q.Text)
		answered(t, i, "")
	}
	require.Equal(t, []string{"name", "stroke", "bore", "rod", "offset", "counts", "wraps", "wraps", "gauge", "gauge-counts", "marks", "sheet"}, topics)
	require.Equal(t, interview.Facts{Unit: "mm", Scale: evidence.Full, Gauge: evidence.Dial}, i.Facts())
	require.Equal(t, "stroke", topics[1], "the stroke matters, the bore hardly")
}

// What the flags say is not asked.
func TestKnownIsNotAsked(t *testing.T) {
	i := interview.New(interview.Facts{Unit: "mm", Engine: evidence.Engine{Stroke: 81.4}}, func(topic string) bool { return topic != "rod" })
	q, _ := i.Question()
	require.Equal(t, "rod", q.Topic)
	require.Contains(t, i.Answer("30").Says, "too short", "for the stroke of the flags")
	answered(t, i, "133")
	_, more := i.Question()
	require.False(t, more)
	require.EqualValues(t, 81.4, i.Facts().Engine.Stroke)
	require.EqualValues(t, 133, i.Facts().Engine.Rod)
}

// Lengths as people type them, each with its unit or in the job's.
func TestLengths(t *testing.T) {
	for typed, want := range map[string]float64{
		"81.4": 81.4, "81,4": 81.4, "81.4mm": 81.4, "81.4 MM": 81.4, "3.2 in": 81.28, `3.2"`: 81.28, "3.2in": 81.28, "3 1/8 in": 79.375, "3-1/8 in": 79.375,
		"13/4 inches": 82.55, "12 mm": 12, "1000 mm": 1000, "": 0, "unknown": 0, "don't know": 0, "none": 0, "  81.4  ": 81.4,
	} {
		i := asking()
		reaching(t, i, "Stroke")
		answered(t, i, typed)
		require.InDelta(t, want, i.Facts().Engine.Stroke.Millimetres(), 1e-9, typed)
		q, _ := i.Question()
		inches := strings.Contains(typed, "in") || strings.HasSuffix(typed, `"`)
		require.Equal(t, inches, q.Topic == "unit", typed)
	}
}

// An inch with a number asks whether the job is in inches: then a bare number is.
func TestUnit(t *testing.T) {
	for answer, unit := range map[string]string{"": "in", "y": "in", "inches": "in", "n": "mm", "mm": "mm"} {
		i := asking()
		reaching(t, i, "Stroke")
		answered(t, i, "3.2 in", answer)
		require.Equal(t, unit, i.Facts().Unit, answer)
		q, _ := i.Question()
		require.Equal(t, "Bore, "+unit, q.Text)
		bare, want := "79", 79.0
		if unit == "in" {
			bare, want = "3", 76.2
		}
		answered(t, i, bare)
		require.InDelta(t, want, i.Facts().Engine.Bore.Millimetres(), 1e-9)
	}
}

// Offsets: none, the pin's, the bore's, and not known.
func TestOffsets(t *testing.T) {
	for typed, want := range map[string]evidence.Engine{
		"": {}, "unknown": {}, "no": {OffsetStated: true}, "n": {OffsetStated: true}, "none": {OffsetStated: true}, "0": {OffsetStated: true},
		"pin 0.8": {OffsetStated: true, PinOffset: 0.8}, "0.8 mm pin": {OffsetStated: true, PinOffset: 0.8}, "pin -0.8": {OffsetStated: true, PinOffset: -0.8},
		"bore 8": {OffsetStated: true, BoreOffset: 8}, "Bore 0.5 in": {OffsetStated: true, BoreOffset: 12.7},
	} {
		i := asking()
		reaching(t, i, "Piston pin or bore")
		answered(t, i, typed)
		require.Equal(t, want, i.Facts().Engine, typed)
	}
}

// An inch job's example is in inches too.
func TestOffsetExample(t *testing.T) {
	for unit, says := range map[string]string{"mm": "pin 0.8 or bore 8", "in": "pin 0.03 or bore 0.3"} {
		i := interview.New(interview.Facts{Unit: unit}, func(string) bool { return false })
		reaching(t, i, "Piston pin or bore")
		q, _ := i.Question()
		require.True(t, strings.HasSuffix(q.Text, says), q.Text)
		require.Contains(t, i.Answer("8").Says, says)
	}
}

// Piston read by, one or several, in the words that people have.
func TestMeans(t *testing.T) {
	type read struct {
		gauge  evidence.GaugeKind
		beside interview.Beside
	}
	for typed, want := range map[string]read{
		"": {evidence.Dial, interview.Beside{}}, "d": {evidence.Dial, interview.Beside{}}, "Dial gauge": {evidence.Dial, interview.Beside{}},
		"depth rod": {evidence.DepthRod, interview.Beside{}}, "scope": {evidence.Borescope, interview.Beside{Dwell: true}},
		"positive stop": {"", interview.Beside{Stop: true}}, "dwell": {"", interview.Beside{Dwell: true}},
		"dial and stop": {evidence.Dial, interview.Beside{Stop: true}}, "stop, dial, dwell": {evidence.Dial, interview.Beside{Stop: true, Dwell: true}},
		"borescope & dial": {evidence.Dial, interview.Beside{Views: true}}, "rod/scope": {evidence.DepthRod, interview.Beside{Views: true}},
		"b+dwell": {evidence.Borescope, interview.Beside{Dwell: true}},
	} {
		i := asking()
		reaching(t, i, "Piston read by?")
		answered(t, i, typed)
		reaching(t, i, "What is to be judged?")
		require.Equal(t, want, read{i.Facts().Gauge, i.Facts().Beside}, typed)
	}
	// who looks through a borescope is asked for dwell, and may do without
	i := asking()
	reaching(t, i, "Piston read by?")
	answered(t, i, "borescope")
	q, _ := i.Question()
	require.Equal(t, "dwell", q.Topic)
	answered(t, i, "n")
	require.Equal(t, interview.Beside{}, i.Facts().Beside)
	q, _ = i.Question()
	require.Contains(t, q.Text, "the depth you judge")
}

// Which way a gauge counts, in every word for it.
func TestGaugeCounts(t *testing.T) {
	for typed, up := range map[string]bool{"": false, "y": false, "rose": false, "rises": false, "it rose": false, "n": true, "fell": true, "Falls.": true, "f": true} {
		i := asking()
		reaching(t, i, "As the piston goes down")
		answered(t, i, typed)
		require.Equal(t, up, i.Facts().GaugeUp, typed)
	}
}

// Marks by number, by name, by a word of it, or of one's own, each once.
func TestMarks(t *testing.T) {
	pin, notch := interview.Mark{Name: "locking pin hole", On: mark.Flywheel}, interview.Mark{Name: "pulley notch", On: mark.Pulley}
	flats := interview.Mark{Name: "cam lock flats", On: "cam", In: mark.Chord}
	for typed, want := range map[string][]interview.Mark{
		"": nil, "none": nil, "n": nil, "1": {pin}, "1 2": {pin, notch}, "2, 1": {notch, pin}, "1 2 and flats": {pin, notch, flats}, "pin and notch": {pin, notch}, "Pin, 1, locking pin hole": {pin},
		"flats; 2": {flats, notch}, "Damper mark": {{Name: "Damper mark", On: mark.Pulley}}, "dowel": {{Name: "dowel", On: mark.Flywheel}}, "the bolts": {{Name: "sprocket bolt holes", On: "cam sprocket", In: mark.Arc}}, "inlet cam lobe dot": {{Name: "inlet cam lobe dot", On: "inlet cam"}},
		"1,,": {pin}, "paint on the pulley": {{Name: "paint on the pulley", On: mark.Pulley}},
	} {
		i := asking()
		reaching(t, i, "What is to be judged?")
		answered(t, i, typed)
		require.Equal(t, want, i.Facts().Marks, typed)
	}
	i := asking()
	reaching(t, i, "What is to be judged?")
	q, _ := i.Question()
	answered(t, i, "all")
	require.Len(t, i.Facts().Marks, len(q.Choices))
	for n, m := range i.Facts().Marks {
		require.Equal(t, q.Choices[n], m.Name)
	}
}

// back takes an answer back and puts its question again, from any question; and nothing
// of it is left.
func TestBack(t *testing.T) {
	lines := []string{"Old four", "3.2 in", "y", "3.1", "5.25", "no", "", "356 and 4", "n", "y", "180", "borescope and dial", "n", "1 2", "y", "Mill Lane Garage", "J. Smith", "", "84,200", "", "K"}
	i := asking()
	require.Contains(t, i.Answer("back").Says, "first question")
	for _, line := range lines {
		was, _ := i.Question()
		facts := i.Facts()
		answered(t, i, line)
		if _, more := i.Question(); !more {
			break
		}
		reply := i.Answer("back")
		require.False(t, reply.Taken)
		again, _ := i.Question()
		require.Equal(t, was, again, line)
		require.Equal(t, facts, i.Facts(), line)
		answered(t, i, line)
	}
	_, more := i.Question()
	require.False(t, more)
	f := i.Facts()
	require.Equal(t, evidence.Halves, f.Scale)
	require.InDelta(t, 3.1, float64(f.Engine.Bore/geometry.Inch), 1e-9)

	// all the way back, and another way forward
	i = asking()
	answered(t, i, lines[:9]...)
	for range 9 {
		i.Answer("back")
	}
	q, _ := i.Question()
	require.Equal(t, "name", q.Topic)
	require.Equal(t, interview.Facts{Unit: "mm"}, i.Facts())
}

// ? says what every question means and takes nothing; its pictures fit a narrow terminal
// and are plain characters.
func TestHelp(t *testing.T) {
	asked := map[string]bool{}
	pictures := 0
	for _, lines := range [][]string{
		{"x", "3.2 in", "", "", "", "", "", "4 BTDC 4 ATDC", "", "", "borescope", "", "", "1"},
		{"x", "", "", "", "", "", "356 4", "n", "", "", "", "", ""},
	} {
		i := asking()
		for _, line := range lines {
			q, more := i.Question()
			require.True(t, more, line)
			asked[q.Text] = true
			for _, ask := range []string{"?", "help", "?."} {
				reply := i.Answer(ask)
				require.False(t, reply.Taken)
				require.Greater(t, len(reply.Says), 40, q.Text)
				pictures += strings.Count(reply.Picture, "\n") / 5
				for l := range strings.Lines(reply.Picture) {
					l = strings.TrimSuffix(l, "\n")
					require.LessOrEqual(t, len(l), 58)
					require.Equal(t, strings.TrimRight(l, " \t"), l)
					require.Equal(t, legible.Line(l), l)
				}
			}
			after, _ := i.Question()
			require.Equal(t, q, after)
			answered(t, i, line)
		}
	}
	require.Len(t, asked, 20, "every question, four of them in two units or for two gauges")
	require.Greater(t, pictures, 20)
}

// quit leaves, from any question, and takes nothing.
func TestQuit(t *testing.T) {
	i := asking()
	for range 5 {
		for _, line := range []string{"quit", "exit", "q", "Quit."} {
			reply := i.Answer(line)
			require.True(t, reply.Left)
			require.False(t, reply.Taken)
		}
		answered(t, i, "")
	}
}

// What a question says is one short line: with its bracket and room for an answer it
// stands on a line of 80, but for what is to be done first.
func TestQuestionsAreShort(t *testing.T) {
	for _, first := range []string{"", "3.2 in"} {
		i := asking()
		answered(t, i, "x", first)
		for q, more := i.Question(); more; q, more = i.Question() {
			for l := range strings.SplitSeq(q.Text+" ["+q.Usual+"]: ", "\n") {
				require.LessOrEqual(t, len(l), 74, l)
			}
			answered(t, i, map[string]string{"gauge": "borescope"}[q.Topic])
		}
	}
}

// In a job in inches the first length is asked for in inches.
func TestStrokeInInches(t *testing.T) {
	f := interview.Facts{}
	f.Unit = "in"
	i := interview.New(f, func(string) bool { return false })
	i.Answer("Invented V8")
	q, _ := i.Question()
	require.Contains(t, q.Text, "Stroke in inches, or with its unit, as in 81.4 mm")
}
