package words

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// on is a bench with a protractor of a scale and sense.
func on(scale evidence.Scale, sense evidence.Sense, sides bool) Bench {
	p := evidence.DefaultProtractor()
	p.Scale, p.Sense, p.Sides = scale, sense, sides
	return Bench{Protractor: p}
}

func TestNewBench(t *testing.T) {
	setup := evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.DepthRod)}
	for unit, inches := range map[string]bool{"mm": false, "in": true, "": false} {
		b := NewBench(setup, unit)
		require.Equal(t, Bench{setup.Protractor, setup.Gauge, inches}, b)
	}
}

// What the protractor shows is in its own convention, with a side where the number
// alone does not tell it.
func TestReads(t *testing.T) {
	for _, c := range []struct {
		bench  Bench
		crank  float64
		places int
		want   string
		why    string
	}{
		{on(evidence.Full, evidence.With, false), 3.36, 2, "3.36", "0 to 360"},
		{on(evidence.Full, evidence.With, false), -3.36, 2, "356.64", "before zero it is near the end"},
		{on(evidence.Full, evidence.Against, false), 3.36, 2, "356.64", "numbers that fall"},
		{on(evidence.Full, evidence.With, false), 359.97, 1, "0.0", "360 is not on the scale"},
		{on(evidence.Full, evidence.With, false), 359.94, 1, "359.9", "but just short of it is"},
		{on(evidence.Halves, evidence.With, false), -12, 1, "-12.0", "minus before zero"},
		{on(evidence.Halves, evidence.Against, false), -12, 1, "12.0", "numbers that fall"},
		{on(evidence.Halves, evidence.With, true), -12, 1, "12.0 BTDC", "read with sides"},
		{on(evidence.Halves, evidence.With, true), 12, 1, "12.0 ATDC", "read with sides"},
		{on(evidence.Quadrants, evidence.Against, false), -12, 1, "12.0 BTDC", "the side is the engine's, whichever way numbers grow"},
		{on(evidence.Quadrants, evidence.With, false), 168, 1, "12.0 BBDC", "a quadrant ends at 90"},
		{on(evidence.Quadrants, evidence.With, false), -168, 1, "12.0 ABDC", "and so does the other"},
		{on(evidence.Quadrants, evidence.With, false), 90, 1, "90.0 ATDC", "its end is on both"},
		{on(evidence.Halves, evidence.With, false), -0.001, 1, "0.0", "never minus zero"},
	} {
		require.Equal(t, c.want, c.bench.Reads(geometry.Angle(c.crank)*geometry.Degree, c.places), c.why)
	}
}

// On every scale what is written is the angle again.
func TestReadsTellsTheAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		scale := rapid.SampledFrom([]evidence.Scale{evidence.Full, evidence.Halves, evidence.Quadrants}).Draw(t, "scale")
		sense := rapid.SampledFrom([]evidence.Sense{evidence.With, evidence.Against}).Draw(t, "sense")
		b := on(scale, sense, rapid.Bool().Draw(t, "sides"))
		crank := geometry.Angle(rapid.Float64Range(-180, 180).Draw(t, "crank")) * geometry.Degree
		number, side, _ := strings.Cut(b.Reads(crank, 3), " ")
		shown, err := strconv.ParseFloat(number, 64)
		require.NoError(t, err)
		switch side {
		case "BTDC":
			shown = -shown
		case "BBDC":
			shown = 180 - shown
		case "ABDC":
			shown -= 180
		}
		back := b.Protractor.Grows(geometry.Angle(shown) * geometry.Degree) // the same both ways
		require.InDelta(t, 0, (back - crank).Signed().Degrees(), 0.0005001)
	})
}

func TestReadsWithin(t *testing.T) {
	e := gum.Estimate{Angle: 3.364 * geometry.Degree, Expanded: 0.09 * geometry.Degree}
	require.Equal(t, "3.36 ± 0.09 deg", on(evidence.Full, evidence.With, false).ReadsWithin(e))
	e.Expanded = 0.13 * geometry.Degree
	require.Equal(t, "3.36 ATDC ± 0.13 deg", on(evidence.Quadrants, evidence.With, false).ReadsWithin(e))
}

// A length in each unit: 1 in is 25.4 mm exactly (NIST SP 811, appendix B.6).
func TestLengths(t *testing.T) {
	mm, in := Bench{}, Bench{Inches: true}
	require.Equal(t, "mm", mm.Unit())
	require.Equal(t, "in", in.Unit())
	require.Equal(t, 25.4, mm.In(geometry.Inch))
	require.Equal(t, 1.0, in.In(geometry.Inch))
	for _, c := range []struct {
		show     func(Bench) string
		mm, inch string
		why      string
	}{
		{func(b Bench) string { return b.Stated(81.4) }, "81.4 mm", "3.2047 in", "as stated, or to a ten thousandth"},
		{func(b Bench) string { return b.Stated(3.2 * geometry.Inch) }, "81.28 mm", "3.2 in", "without zeros that nobody wrote"},
		{func(b Bench) string { return b.Number(100) }, "100", "3.937", "no zero before the point lost"},
		{func(b Bench) string { return b.Number(-0.0000001) }, "0", "0", "never minus zero"},
		{func(b Bench) string { return b.Length(5.853, 0.08) }, "5.85", "0.2304", "the half-width tells the digits in each unit"},
		{func(b Bench) string { return b.LengthWithin(5.853, 0.08) }, "5.85 ± 0.08 mm", "0.2304 ± 0.0031 in", "and is shown itself"},
		{func(b Bench) string { return b.Depth(5.853) }, "5.85 mm", "0.230 in", "as a gauge shows it"},
		{func(b Bench) string { return b.SignedDepth(5.853) }, "+5.85 mm", "+0.230 in", "with its sign"},
		{func(b Bench) string { return b.SignedDepth(-0.001) }, "0.00 mm", "0.000 in", "zero has none"},
		{func(b Bench) string { return b.Drop(5.853) }, "5.9 mm", "0.230 in", "what a hand can set"},
		{func(b Bench) string { return b.Drop(0.853) }, "0.85 mm", "0.034 in", "finer near the top"},
		{func(b Bench) string { return b.DropNumber(1) }, "1.0", "0.039", "from 1 mm on a tenth"},
		{func(b Bench) string { return b.Slope(geometry.Slope(0.1234 / float64(geometry.Degree))) }, "0.123", "0.0049", "an inch is 25 mm: one digit more"},
	} {
		require.Equal(t, c.mm, c.show(mm), c.why)
		require.Equal(t, c.inch, c.show(in), c.why)
	}
}

// A length says the same in either unit, to what is shown.
func TestUnitsAgree(t *testing.T) {
	mm, in := Bench{}, Bench{Inches: true}
	rapid.Check(t, func(t *rapid.T) {
		l := geometry.Length(rapid.Float64Range(-200, 200).Draw(t, "mm"))
		a, err := strconv.ParseFloat(strings.TrimSuffix(mm.Depth(l), " mm"), 64)
		require.NoError(t, err)
		b, err := strconv.ParseFloat(strings.TrimSuffix(in.Depth(l), " in"), 64)
		require.NoError(t, err)
		require.InDelta(t, a, b*25.4, 0.005+0.0005*25.4+1e-9)
		require.InDelta(t, float64(l), mm.In(l), 0)
		require.InEpsilon(t, 1+math.Abs(float64(l)), 1+math.Abs(25.4*in.In(l)), 1e-12)
	})
}

// A reading is shown with the decimals that the gauge's step has: half a thousandth of an inch,
// five thousandths of a mm.
func TestReadAsTheGaugeShows(t *testing.T) {
	for _, c := range []struct {
		unit string
		step geometry.Length
		want string
	}{
		{"in", 0.0005 * geometry.Inch, "0.2855 in"}, {"in", 0.001 * geometry.Inch, "0.286 in"}, {"in", 0.02 * geometry.Inch, "0.286 in"},
		{"in", 0.00005 * geometry.Inch, "0.2855 in"}, {"in", 0, "0.286 in"},
		{"mm", 0.01, "7.25 mm"}, {"mm", 0.005, "7.252 mm"}, {"mm", 0.5, "7.25 mm"},
	} {
		b := Bench{Gauge: evidence.Gauge{Step: c.step}, Inches: c.unit == "in"}
		require.Equal(t, c.want, b.Read(0.28551*geometry.Inch), c)
	}
}
