package names_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/tdc/evidence"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
)

// The words of the job file and of the command.
var (
	layouts = mark.Layouts
	gauges  = wordsOf(evidence.Dial, evidence.DepthRod, evidence.Borescope)
	shifts  = wordsOf(mark.CrankDegrees, mark.CamDegrees, mark.Teeth, mark.Arc, mark.Chord)
	valves  = wordsOf(lobe.Inlet, lobe.Exhaust)
	units   = []string{"mm", "in"}
	turns   = []string{"forward", "backward", "both"}
	counts  = []string{"with", "against"}
	ways    = []string{"down", "up"}
	zeros   = []string{"piston", "throw"}
	joints  = []string{"joint", "drive"}
	under   = []string{"flywheel", "pulley", "crank"}
	forms   = []string{"text", "markdown", "json", "csv"}
	scales  = []string{"720", "360", "180", "90"}
	times   = []string{"s", "ms", "us", "ns", "samples"}
	amounts = []string{"teeth", "mm", "in", "crank", "cam"}
	oneCam  = mark.Drive{Layout: "one cam"}.Members()
	twoCams = mark.Drive{Layout: "two cams"}.Members()
)

var all = [][]string{layouts, gauges, shifts, valves, units, turns, counts, ways, zeros, joints, under, forms, scales, times, amounts, oneCam, twoCams, mark.Drive{}.Members()}

func wordsOf[S ~string](words ...S) (out []string) {
	for _, w := range words {
		out = append(out, string(w))
	}
	return out
}

// What is forgiven, and the field's word.
func TestForgiven(t *testing.T) {
	for _, c := range []struct {
		words []string
		typed string // several ways, with slashes between them
		want  string
	}{
		{layouts, "DOHC/dohc/D.O.H.C/twin cam/Twin Cams/2 cams/two cam/two-cams/double overhead cam/dual overhead cams/double camshafts", "two cams"},
		{layouts, "SOHC/single cam/1 cam/single overhead camshaft/One Cam/one_cam/onecam/one", "one cam"},
		{layouts, "OHV/pushrod/pushrods/push-rod/cam-in-block/Cam In Block", "cam in block"},
		{layouts, "two cams inlet first/2 cams, intake first/inlet first, two cams/two cams, in/twin cam, intake first/two cams, intake 1st", "two cams, inlet first"},
		{layouts, "dual cam, exh first/two cams, exh", "two cams, exhaust first"},
		{twoCams, "intake cam/Inlet Cam/inlet-cam/inlet camshaft/intake camshaft/INLET CAMS/in cam/cam, inlet/intake c", "inlet cam"},
		{twoCams, "exh cam/EX CAM/exhaust_cam/exhaustcam/exhaust c", "exhaust cam"},
		{twoCams, "intake sprocket/intake cam sprocket/intake gear/inlet cam pulley/in sprocket/inlet s", "inlet sprocket"},
		{twoCams, "crankshaft/Crank", "crank"},
		{twoCams, "fly wheel/Flywheel/fly/flex plate/flexplate", "flywheel"},
		{twoCams, "harmonic balancer/damper/Pulley/pulleys/pul", "pulley"},
		{twoCams, "crankshaft sprocket/crank gear/crank s", "crank sprocket"},
		{twoCams, "crank trigger wheel/crankshaft wheel/crank reluctor", "crank wheel"},
		{twoCams, "intake cam wheel/intake sensor wheel", "inlet wheel"},
		{twoCams, "timing belt/chain/Belt/timing chain/cambelt/cam belt/cam-chain", "drive"},
		{oneCam, "camshaft/Cam/cams", "cam"},
		{oneCam, "cam gear/camshaft sprocket/cam s", "cam sprocket"},
		{gauges, "dial gauge/dial gage/Dial Indicator/DTI/dia/dial-gauge", "dial"},
		{gauges, "depth rod/ROD/rods", "rod"},
		{gauges, "boroscope/bore scope/endoscope/bores", "borescope"},
		{shifts, "cam/cam deg/degrees cam/Cam-Degrees/camshaft degrees/cam degree/cam°", "cam degrees"},
		{shifts, "crank/crank deg/crankshaft degrees/deg crank/crank angle", "crank degrees"},
		{shifts, "tooth/Teeth/tee", "teeth"},
		{shifts, "mm-arc/arc mm/millimeters arc/MM ARC/mm a", "mm arc"},
		{shifts, "chord mm/millimetre chord", "mm chord"},
		{valves, "intake/Intake/in/IN/INLET/inl/inlets", "inlet"},
		{valves, "exh/ex/Exh./EX/outlet/exhausts", "exhaust"},
		{units, "inch/inches/IN/\"/Inch", "in"},
		{units, "MM/millimetres/millimeter/Millimeters", "mm"},
		{turns, "f/F/fwd/forwards/Forward/for", "forward"},
		{turns, "b/B/backwards/back/reverse/rev", "backward"},
		{turns, "both ways/BOTH", "both"},
		{counts, "WITH/wit", "with"},
		{counts, "aga/Against", "against"},
		{ways, "downwards/Down/dow", "down"},
		{ways, "Up/upward/upwards", "up"},
		{zeros, "crank throw/Throw/thr", "throw"},
		{joints, "chain/belt/timing belt/DRIVE/drives", "drive"},
		{under, "crankshaft/CRANK", "crank"},
		{forms, "md/Markdown/mark", "markdown"},
		{forms, "JSON/jso", "json"},
		{forms, "txt/plain text/TEXT", "text"},
		{times, "seconds/sec", "s"},
		{times, "µs/μs/microseconds", "us"},
		{times, "sample/Samples", "samples"},
		{amounts, "inches", "in"},
		{amounts, "tooth", "teeth"},
		{amounts, "crank deg/crank degrees/crankshaft", "crank"},
	} {
		for typed := range strings.SplitSeq(c.typed, "/") {
			got, err := names.Read(typed, c.words)
			require.NoError(t, err, typed)
			require.Equal(t, c.want, got, typed)
		}
	}
}

// What is not: it could be several, or is a slip of the fingers, or something else.
func TestUnforgiven(t *testing.T) {
	for _, c := range []struct {
		words []string
		typed string // several, with slashes between them
		says  string
	}{
		{layouts, "cam/cams/camshaft", `it could be "one cam", "two cams", "two cams, inlet first", "two cams, exhaust first" or "cam in block": write which`},
		{layouts, "two/twin/2", `it could be "two cams", "two cams, inlet first" or "two cams, exhaust first": write which`},
		{layouts, "inlet first/inlet/intake", `did you mean "two cams, inlet first"?`},
		{layouts, "overhead cam", `it could be "one cam" or "two cams": write which`},
		{layouts, "two cmas", `did you mean "two cams"?`},
		{layouts, "three cams/flat plane/desmo/V8//-/,", `expected "one cam", "two cams", "two cams, inlet first", "two cams, exhaust first" or "cam in block"`},
		{twoCams, "cam/camshaft", `it could be "inlet sprocket", "inlet cam", "inlet wheel", "exhaust sprocket", "exhaust cam" or "exhaust wheel": write which`},
		{twoCams, "inlet/intake", `it could be "inlet sprocket", "inlet cam" or "inlet wheel": write which`},
		{twoCams, "cam sprocket/cam gear", `it could be "inlet sprocket" or "exhaust sprocket": write which`},
		{twoCams, "crank pulley/crankshaft pulley", `it could be "pulley" or "crank sprocket": write which`},
		{twoCams, "inlet cma/intake cma/inlte cam/inlet can", `did you mean "inlet cam"?`},
		{twoCams, "flywheeel/flywhel/flywhele", `did you mean "flywheel"?`},
		{twoCams, "exhuast cam", `did you mean "exhaust cam"?`},
		{twoCams, "gearbox/starter/the cam", `expected "crank", "flywheel", "pulley", "crank wheel", "crank sprocket", "drive", "inlet sprocket", "inlet cam", "inlet wheel", "exhaust sprocket", "exhaust cam" or "exhaust wheel"`},
		{gauges, "calliper/c/d/gauge gauge x/depth gauge", `expected "dial", "rod" or "borescope"`},
		{gauges, "depth", `did you mean "rod"?`},
		{gauges, "dail", `did you mean "dial"?`},
		{shifts, "deg/degrees/°", `it could be "crank degrees" or "cam degrees": write which`},
		{shifts, "mm/millimetres", `it could be "mm arc" or "mm chord": write which`},
		{shifts, "chord/arc/t/radians", ""},
		{units, "m/cm/metre/i/ft/inn/µm", `expected "mm" or "in"`},
		{valves, "i/e/valve", `expected "inlet" or "exhaust"`},
		{valves, "inlt/intlet", `did you mean "inlet"?`},
		{turns, "clockwise/cw/ccw/fo/x/anticlockwise", `expected "forward", "backward" or "both"`},
		{turns, "froward/forwrd", `did you mean "forward"?`},
		{counts, "w/clockwise/up/wiht ", ""},
		{forms, "j/pdf/html/xml/te", `expected "text", "markdown", "json" or "csv"`},
		{scales, "36/7/72/361/1/9/0/270/360.5", `expected "720", "360", "180" or "90"`},
		{times, "m/h/minute/ps", `expected "s", "ms", "us", "ns" or "samples"`},
		{wordsOf("Cam A", "cam a", "cam b"), "CAM A/cam-a", `it could be "Cam A" or "cam a": write which`},
		{wordsOf("alone"), "x" + strings.Repeat("alone", 20), `expected "alone"`},
	} {
		for typed := range strings.SplitSeq(c.typed, "/") {
			word, err := names.Read(typed, c.words)
			require.Error(t, err, typed)
			require.Empty(t, word)
			if c.says != "" {
				require.EqualError(t, err, c.says, typed)
			}
			require.Equal(t, typed, names.Settled(typed, c.words))
		}
	}
	_, err := names.Read("dail", gauges)
	unknown, ok := errors.AsType[*names.Unknown](err)
	require.True(t, ok)
	require.Equal(t, "did you mean dial?", unknown.Bare())
}

// No word is forgiven for another: each is taken for itself, in any case and with hyphens,
// and a single change in a word is taken for no other word.
func TestEachWordIsItself(t *testing.T) {
	for _, words := range all {
		for _, word := range words {
			for _, typed := range []string{word, strings.ToUpper(word), strings.ReplaceAll(word, " ", "-"), " " + word + " ", strings.ReplaceAll(word, " ", "")} {
				got, err := names.Read(typed, words)
				require.NoError(t, err, "%q of %q", typed, words)
				require.Equal(t, word, got)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SampledFrom(all).Draw(t, "words")
		word := rapid.SampledFrom(words).Draw(t, "word")
		at := rapid.IntRange(0, len(word)-1).Draw(t, "at")
		typed := word[:at] + rapid.StringMatching(`[a-z]?`).Draw(t, "letter") + word[at+1:]
		got, err := names.Read(typed, words)
		if slices.Contains(words, typed) {
			word = typed
		}
		if err == nil && got != word {
			t.Fatalf("%q, one letter from %q, is taken for %q", typed, word, got)
		}
	})
}

// Words with commas in them stand apart where they stand bare.
func TestWordsWithCommas(t *testing.T) {
	_, err := names.Read("bananas", []string{"one cam", "two cams", "two cams, inlet first"})
	var unknown *names.Unknown
	require.ErrorAs(t, err, &unknown)
	require.Equal(t, "expected one cam; two cams; or two cams, inlet first", unknown.Bare())
	require.EqualError(t, err, `expected "one cam", "two cams" or "two cams, inlet first"`)
}
