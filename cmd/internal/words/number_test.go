package words

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/geometry"
)

// JCGM 100:2008, 7.2.6: an uncertainty is quoted to at most two significant digits,
// and the estimate is rounded to be consistent with it. Two digits up to 354 of the three
// highest, one above (Particle Data Group, Review of Particle Physics, introduction, from
// memory): rounding 0.14 to 0.1 would change it by a third.
func TestDecimals(t *testing.T) {
	for _, c := range []struct {
		uncertainty float64
		want        int
		why         string
	}{
		{0.1, 2, "0.10: the first digit is a 1"},
		{0.14, 2, "0.14"},
		{0.19, 2, "0.19"},
		{0.2, 2, "0.20"},
		{0.354, 2, "0.35: the last with two"},
		{0.356, 1, "0.4: the first with one"},
		{0.96, 1, "1.0: rounded up it begins with a 1"},
		{0.02, 3, "0.020"},
		{0.05, 2, "0.05"},
		{0.00002, 6, "0.000020"},
		{0.027, 3, "0.027"},
		{1, 1, "1.0"},
		{1.5, 1, "1.5"},
		{2, 1, "2.0"},
		{4, 0, "4"},
		{15, 0, "15"},
		{400, 0, "never a decimal less than none"},
		{1e-9, 6, "a millionth is finer than any instrument here"},
		{0, 2, "unknown"},
		{-1, 2, "unknown"},
		{math.Inf(1), 2, "unknown"},
		{math.NaN(), 2, "unknown"},
	} {
		require.Equal(t, c.want, Decimals(c.uncertainty), "%v: %s", c.uncertainty, c.why)
	}
}

// significant is how many significant digits a written number has.
func significant(text string) int {
	return len(strings.TrimLeft(strings.ReplaceAll(text, ".", ""), "-0"))
}

// Of any uncertainty from a thousandth to ten at most two digits are shown, and one of
// them at least; what is shown is within a quarter of it.
func TestUncertaintyHasOneOrTwoDigits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := math.Pow(10, rapid.Float64Range(-3, 1.3).Draw(t, "log10 u"))
		text := Fixed(u, Decimals(u))
		shown, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		require.Contains(t, []int{1, 2}, significant(text), text)
		require.InEpsilon(t, u, shown, 0.127, text) // 3.55 to 4 is the most that one digit loses
	})
}

// The example of JCGM 100:2008, 7.2.6 (from memory): y = 10.057 62 ohm with u = 27
// milliohm is rounded to 10.058.
func TestWithin(t *testing.T) {
	for _, c := range []struct {
		value, half float64
		want        string
	}{
		{10.05762, 0.027, "10.058 ± 0.027"},
		{10.05762, 0.0127, "10.058 ± 0.013"},
		{2.84, 0.31, "2.84 ± 0.31"},
		{-0.004, 0.31, "0.00 ± 0.31"}, // never minus zero
		{3, 0, "3.00 ± 0.00"},
	} {
		require.Equal(t, c.want, Within(c.value, c.half))
	}
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-1e3, 1e3).Draw(t, "value")
		half := rapid.Float64Range(1e-3, 1e2).Draw(t, "half")
		a, b, ok := strings.Cut(Within(value, half), " ± ")
		require.True(t, ok)
		_, first, _ := strings.Cut(a, ".")
		_, second, _ := strings.Cut(b, ".")
		require.Len(t, first, len(second), "%s and %s to the same place", a, b)
	})
}

func TestFixedAndSigned(t *testing.T) {
	for _, c := range []struct {
		value         float64
		places        int
		fixed, signed string
		why           string
	}{
		{3.14159, 2, "3.14", "+3.14", "rounded"},
		{-3.14159, 2, "-3.14", "-3.14", "its own sign"},
		{0.004, 2, "0.00", "0.00", "what is shown as zero has no sign"},
		{-0.004, 2, "0.00", "0.00", "never minus zero"},
		{math.Copysign(0, -1), 1, "0.0", "0.0", "nor where it is one"},
		{-10, 0, "-10", "-10", "zeros that count"},
		{10, 0, "10", "+10", "zeros that count"},
		{0, 0, "0", "0", "zero"},
		{2.5, 0, "2", "+2", "the half goes to the even digit (IEEE 754 as strconv has it)"},
	} {
		require.Equal(t, c.fixed, Fixed(c.value, c.places), c.why)
		require.Equal(t, c.signed, Signed(c.value, c.places), c.why)
	}
}

func TestPlainAndTrimmed(t *testing.T) {
	for _, c := range []struct {
		value  float64
		places int
		want   string
		why    string
	}{
		{81.4, 6, "81.4", "as it was stated"},
		{100, 6, "100", "zeros before the point stay"},
		{3.2, 4, "3.2", "no zeros after it"},
		{81.4 / 25.4, 4, "3.2047", "cut to what is asked for"},
		{0.1 + 0.2, 6, "0.3", "without what binary adds"},
		{-1e-9, 6, "0", "never minus zero"},
		{math.Copysign(0, -1), 6, "0", "nor where it is one"},
		{-0.5, 6, "-0.5", "a sign that counts"},
		{1200, 0, "1200", "no decimals, and no zero lost"},
	} {
		require.Equal(t, c.want, Trimmed(c.value, c.places), c.why)
		if c.places == 6 {
			require.Equal(t, c.want, Plain(c.value), c.why)
		}
	}
}

func TestAsRead(t *testing.T) {
	for _, c := range []struct {
		readings []float64
		step     float64
		want     int
		why      string
	}{
		{[]float64{1, 2, 3}, 0.5, 0, "whole numbers"},
		{[]float64{1, 2.25, 3}, 0.5, 2, "one more than the step is somebody reading between lines"},
		{[]float64{1.2345678}, 0.5, 1, "more than that came from another unit"},
		{[]float64{0.393701 * 25.4}, 0.01, 2, "an inch in millimetres"},
		{[]float64{0.25}, 0, 2, "no step known: two"},
		{[]float64{0.12345}, 0, 2, "no step known: two"},
		{nil, 0.01, 0, "none"},
		{[]float64{0.001}, 0.001, 3, "a step that no binary number is"},
	} {
		require.Equal(t, c.want, AsRead(c.readings, c.step), c.why)
	}
}

func TestStated(t *testing.T) {
	for _, degrees := range []float64{0.1, 348.6, 11.8, -30, 359.95, 1.0 / 3} {
		require.InDelta(t, degrees, Stated(geometry.Angle(degrees)*geometry.Degree), 5e-10)
	}
	require.Equal(t, 348.6, Stated(348.6*geometry.Degree), "there and back through radians")
	require.False(t, math.Signbit(Stated(geometry.Angle(math.Copysign(0, -1)))), "never minus zero")
}

func TestChance(t *testing.T) {
	for _, c := range []struct {
		p    float64
		want string
	}{
		{0.9, "no more than chance makes"},
		{0.51, "no more than chance makes"},
		{0.5, "1 chance in 2"},
		{0.1, "1 chance in 10"},
		{1.0 / 11, "1 chance in 11"},
		{0.0049, "1 chance in 200"}, // 204: two digits say enough
		{0.000811, "1 chance in 1,200"},
		{1e-6, "1 chance in 1,000,000"},
		{9e-7, "less than 1 chance in 1,000,000"},
		{0, "less than 1 chance in 1,000,000"},
		{math.NaN(), "less than 1 chance in 1,000,000"},
	} {
		require.Equal(t, c.want, chance(c.p), "%v", c.p)
	}
}

func TestThousands(t *testing.T) {
	for n, want := range map[int]string{0: "0", 999: "999", 1000: "1,000", 20000: "20,000", 123456: "123,456", 1234567: "1,234,567"} {
		require.Equal(t, want, thousands(n))
	}
}
