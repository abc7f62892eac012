package find

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/answertest"
	"evendrop/geometry"
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
			f := Answer{}
			f.Job.Setup = answertest.Setup()
			f.Job.Setup.Protractor = p
			tdc := answertest.Result(t, f.Job.Setup, at).TDC.Angle
			require.Equal(t, want, f.reads(tdc, 0), "wraps %d counts %d", p.Scale, p.Sense)
			require.InDelta(t, at, f.Shown(tdc).Degrees(), 0.2, "wraps %d counts %d", p.Scale, p.Sense) // lash that is expected and not there moves it by 0.1
		}
	}
}

// An interval that reaches farther one way than the other does so on every scale,
// wherever TDC stands.
func TestIntervalsAreNotMirrored(t *testing.T) {
	deg := geometry.Degree
	for _, p := range answertest.Scales() {
		for _, at := range answertest.NearWrap() {
			name := fmt.Sprintf("wraps %d counts %d TDC at %v", p.Scale, p.Sense, at)
			f := Answer{}
			f.Job.Setup.Protractor = p
			estimate := (geometry.Angle(at) * deg).Signed()
			ends := [2]geometry.Angle{estimate - 0.1*deg, estimate + 0.3*deg}
			trials := adjust.Trials{Estimate: estimate, Uncertainty: 0.1 * deg, Symmetric: ends, Shortest: ends}
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
