package find

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// Readings typed with their side are answered with it, whichever way the protractor
// counts: 3 deg after TDC is 3 ATDC, and no number that could be taken for 3 before.
func TestSidesAreAnsweredWithSides(t *testing.T) {
	for _, p := range answertest.Scales() {
		if p.Scale == evidence.Full { // its numbers need no side
			continue
		}
		p = p.WrittenAs([]evidence.Reading{{}, {Side: evidence.ATDC}})
		for at, want := range map[float64]string{3: "3 ATDC", -3: "3 BTDC"} {
			f := answerAt(t, p, at)
			require.Equal(t, want, f.Reads(f.Results[0].TDC.Angle, 0), "wraps %d counts %d", p.Scale, p.Sense)
			require.InDelta(t, at, f.tdcJSON(f.Results[0].TDC).Protractor, 0.2, // lash that is expected and not there moves it by 0.1
				"wraps %d counts %d", p.Scale, p.Sense)
		}
	}
}

// nearWrap is crank angles about the protractor's zero and about half a turn from
// it, where one scale or another comes round, deg.
func nearWrap() (list []float64) {
	for _, about := range []float64{0, 180} {
		for _, off := range []float64{-0.01, -0.0009, -0.0004, -1e-9, 0, 1e-9, 0.0004, 0.0009, 0.01} {
			list = append(list, about+off)
		}
	}
	return list
}

// An interval that reaches farther one way than the other does so on every scale,
// wherever TDC stands, in numbers and in words.
func TestIntervalsAreNotMirrored(t *testing.T) {
	deg := geometry.Degree
	for _, p := range answertest.Scales() {
		for _, at := range nearWrap() {
			name := fmt.Sprintf("wraps %d counts %d TDC at %v", p.Scale, p.Sense, at)
			f := Answer{}
			f.Job.Setup.Protractor = p
			estimate := (geometry.Angle(at) * deg).Signed()
			ends := [2]geometry.Angle{estimate - 0.1*deg, estimate + 0.3*deg}
			trials := adjust.Trials{Estimate: estimate, Uncertainty: 0.1 * deg, Symmetric: ends, Shortest: ends}
			below, above := 0.1, 0.3
			if answertest.Falls(p) {
				below, above = above, below
			}
			out := f.trialsJSON(trials)
			for _, interval := range [][2]float64{out.Symmetric, out.Shortest} {
				require.InDelta(t, below, out.Protractor-interval[0], 1e-9, name)
				require.InDelta(t, above, interval[1]-out.Protractor, 1e-9, name)
			}
			_, words, _ := strings.Cut(f.trials(trials), "95 % from ")
			from, rest, _ := strings.Cut(words, " to ")
			to, _, _ := strings.Cut(rest, ",")
			// on from the one number to the other, past the scale's end or not
			require.InDelta(t, 0.4, math.Mod(read(t, to)-read(t, from)+720, 360), 0.0021, "%s: %s to %s", name, from, to)
		}
	}
}

// read is an angle as it was written, with or without its side.
func read(t *testing.T, text string) float64 {
	t.Helper()
	number, side, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(number, 64)
	require.NoError(t, err)
	switch side {
	case "BTDC":
		return -x
	case "BBDC":
		return 180 - x
	case "ABDC":
		return x - 180
	}
	return x
}

// The curve fit of a job read about the end of a scale: TDC lies within its interval and
// the trials', whose ends agree with it. Of 2,000 draws an end strays by 0.06 standard
// uncertainties; four times that are allowed, and 4 % of the interval for its shape.
func TestFindAndTrialsAgreeAtTheWrap(t *testing.T) {
	for _, p := range answertest.Scales() {
		for _, at := range nearWrap() {
			name := fmt.Sprintf("wraps %d counts %d TDC at %v", p.Scale, p.Sense, at)
			f := answerAt(t, p, at)
			r := f.Results[0]
			alone := r.Methods[slices.IndexFunc(r.Methods, func(m tdc.Method) bool { return m.Name == tdc.CurveFit })]
			first, drawn := f.tdcJSON(alone.Estimate), f.trialsJSON(r.Trials(2_000, 5, nil))
			require.Less(t, first.Interval[0], first.Protractor, name)
			require.Greater(t, first.Interval[1], first.Protractor, name)
			allowed := 4*0.06*first.Uncertainty + 0.04*(first.Interval[1]-first.Interval[0])
			turns := 360 * math.Round((first.Protractor-drawn.Protractor)/360)
			for i := range 2 {
				require.InDelta(t, first.Interval[i], drawn.Symmetric[i]+turns, allowed, name)
			}
			require.Less(t, drawn.Shortest[0], drawn.Shortest[1], name)
		}
	}
}

// answerAt is an answer with TDC at a crank angle, deg.
func answerAt(t *testing.T, p evidence.Protractor, at float64) Answer {
	t.Helper()
	f := answer(t, "wrap")
	f.Job.Setup.Protractor = p
	var shifted []evidence.Reading
	for _, j := range f.Results[0].Readings {
		j.Angle += geometry.Angle(at) * geometry.Degree
		shifted = append(shifted, j.Reading)
	}
	result, err := tdc.Find(f.Job.Setup, evidence.Cylinder{Number: 1, Readings: shifted})
	require.NoError(t, err)
	f.Results[0] = result
	return f
}
