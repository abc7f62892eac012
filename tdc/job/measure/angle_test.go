package measure_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/measure"
)

func ExampleParseAngle() {
	for _, text := range []string{"12.5", "12,5", "12 BTDC", "12°30'"} {
		written, err := measure.ParseAngle(text)
		fmt.Println(written.Angle, written.Side == evidence.BTDC, err)
	}
	// Output:
	// 12.5 deg false <nil>
	// 12.5 deg false <nil>
	// 12 deg true <nil>
	// 12.5 deg false <nil>
}

const deg = geometry.Degree

func TestParseAngle(t *testing.T) {
	for text, want := range map[string]evidence.Written{
		"12.5":                {Angle: 12.5 * deg},
		"-12.5":               {Angle: -12.5 * deg},
		"\u221212.5":          {Angle: -12.5 * deg}, // the typographer's minus
		"+3":                  {Angle: 3 * deg},
		"- 3":                 {Angle: -3 * deg},
		"12,5":                {Angle: 12.5 * deg},
		".5":                  {Angle: 0.5 * deg},
		",5":                  {Angle: 0.5 * deg},
		"5.":                  {Angle: 5 * deg},
		"007":                 {Angle: 7 * deg},
		" 348.6 ":             {Angle: 348.6 * deg},
		"12 BTDC":             {Angle: 12 * deg, Side: evidence.BTDC},
		"12.5ATDC":            {Angle: 12.5 * deg, Side: evidence.ATDC},
		"12 budc":             {Angle: 12 * deg, Side: evidence.BTDC},
		"12 AuDC":             {Angle: 12 * deg, Side: evidence.ATDC},
		"48 ABDC":             {Angle: 48 * deg, Side: evidence.ABDC},
		"50bbdc":              {Angle: 50 * deg, Side: evidence.BBDC},
		"50 before BDC":       {Angle: 50 * deg, Side: evidence.BBDC},
		"48 after bdc":        {Angle: 48 * deg, Side: evidence.ABDC},
		"50 bldc":             {Angle: 50 * deg, Side: evidence.BBDC},
		"48 aldc":             {Angle: 48 * deg, Side: evidence.ABDC},
		"50 vUT":              {Angle: 50 * deg, Side: evidence.BBDC},
		"48 nUT":              {Angle: 48 * deg, Side: evidence.ABDC},
		"12 vOT":              {Angle: 12 * deg, Side: evidence.BTDC},
		"12,5 nOT":            {Angle: 12.5 * deg, Side: evidence.ATDC},
		"12 before":           {Angle: 12 * deg, Side: evidence.BTDC},
		"12 deg after":        {Angle: 12 * deg, Side: evidence.ATDC},
		"12 degrees after":    {Angle: 12 * deg, Side: evidence.ATDC},
		"12 before  TDC":      {Angle: 12 * deg, Side: evidence.BTDC},
		"12° after TDC":       {Angle: 12 * deg, Side: evidence.ATDC},
		"12\u00a0°\u00a0BTDC": {Angle: 12 * deg, Side: evidence.BTDC},
		"-12 BTDC":            {Angle: -12 * deg, Side: evidence.BTDC}, // for the protractor to refuse
		"12.5°":               {Angle: 12.5 * deg},
		"12º":                 {Angle: 12 * deg}, // the ordinal sign beside it on a keyboard
		"12°30'":              {Angle: 12.5 * deg},
		"-12°30'":             {Angle: -12.5 * deg},
		"-0°30'":              {Angle: -0.5 * deg},
		"12° 30′":             {Angle: 12.5 * deg},
		"12°30’":              {Angle: 12.5 * deg},
		"12°7,5'":             {Angle: 12.125 * deg},
		`12°30'45"`:           {Angle: 12.5125 * deg},
		"12°30'45″ BTDC":      {Angle: 12.5125 * deg, Side: evidence.BTDC},
		"12°30'45''":          {Angle: 12.5125 * deg},
		"12 deg 30' 0.36\"":   {Angle: 12.5001 * deg},
		"12°59'59\"":          {Angle: (12 + 59.0/60 + 59.0/3600) * deg},
	} {
		got, err := measure.ParseAngle(text)
		require.NoError(t, err, text)
		require.Equal(t, want.Side, got.Side, text)
		requireNear(t, float64(want.Angle), float64(got.Angle), 1e-15*math.Pi, text)
	}
}

func TestParseAngleRefuses(t *testing.T) {
	const what = `expected an angle such as 12.5, 12 BTDC or 12°30'`
	const sixty = `60 or more minutes or seconds: expected an angle such as 12°30'`
	const decimals = `decimals before minutes or seconds: expected an angle such as 12°30' or 12.5`
	for text, want := range map[string]string{
		"": what, " ": what, "-": what, ".": what, "°": what, "abc": what, "nan": what, "inf": what, "-Inf": what,
		"0x1p3": what, "0x10": what, "1e2": what, "1E-3": what, "1_000": what, "1.2.3": what, "1,234.5": what,
		"--3": what, "12 TDC": what, "12 BDC": what, "BTDC 12": what, "12 BTDC ATDC": what, "12 rad": what,
		"b12": what, "12 b": what, "12'": what, "12°30": what, `12°30"`: what, "12d30m": what, "12 30": what,
		"12°-30'": what, "١٢": what, "12\x00": what, strings.Repeat("9", 400): what,
		"12°60'": sixty, "12°99.5'": sixty, `12°30'60"`: sixty,
		"12.5°30'": decimals, `12°30.5'30"`: decimals,
	} {
		_, err := measure.ParseAngle(text)
		require.ErrorContains(t, err, `": `+want, text)
		require.True(t, strings.HasSuffix(err.Error(), `": `+want), text)
	}
	_, err := measure.ParseAngle("12 XTDC")
	require.EqualError(t, err, `"12 XTDC": `+what)
}

// requireNear compares numbers; NaN is near nothing.
func requireNear(t *testing.T, want, got, within float64, what string) {
	t.Helper()
	require.True(t, math.Abs(want-got) <= within, "%s: want %v, got %v", what, want, got)
}
