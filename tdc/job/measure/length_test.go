package measure_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/job/measure"
)

func ExampleParseLength() {
	for _, text := range []string{"3.29", "3,29 mm", `0.1295"`} {
		fmt.Println(measure.ParseLength(text, "mm"))
	}
	// Output:
	// 3.29 mm <nil>
	// 3.29 mm <nil>
	// 3.2893 mm <nil>
}

func TestParseLength(t *testing.T) {
	const in = geometry.Inch
	for text, want := range map[string][2]geometry.Length{ // in a job in mm, and in inches
		"3.29":          {3.29, 3.29 * in},
		"3,29":          {3.29, 3.29 * in},
		"-3.29":         {-3.29, -3.29 * in},
		"\u22123.29":    {-3.29, -3.29 * in},
		"+ .5":          {0.5, 0.5 * in},
		"0":             {0, 0},
		"3.29 mm":       {3.29, 3.29},
		"3.29MM":        {3.29, 3.29},
		"0.1295 in":     {0.1295 * in, 0.1295 * in},
		"0.1295 inch":   {0.1295 * in, 0.1295 * in},
		"2 inches":      {2 * in, 2 * in},
		`0.1295"`:       {0.1295 * in, 0.1295 * in},
		"0.1295 ″":      {0.1295 * in, 0.1295 * in},
		"0.1295''":      {0.1295 * in, 0.1295 * in},
		"-0.1295\u201d": {-0.1295 * in, -0.1295 * in},
	} {
		for i, unit := range []string{"mm", "in"} {
			got, err := measure.ParseLength(text, unit)
			require.NoError(t, err, text)
			require.Equal(t, want[i], got, "%s in %s", text, unit)
		}
	}
}

func TestParseLengthRefuses(t *testing.T) {
	const what = "expected a length such as 81.4, 81.4 mm or 3.2 in"
	const long = "expected a length of less than 100 m"
	for text, want := range map[string]string{
		"": what, "mm": what, "abc": what, "nan": what, "inf": what, "1e3": what, "0x1p-2": what, "3.2 cm": what,
		"3 1/8 in": what, "1.234,5": what, "3.2 mm in": what, "3'": what, "--3": what,
		"100000": long, "-100000": long, "4000 in": long, strings.Repeat("9", 400): long,
	} {
		_, err := measure.ParseLength(text, "mm")
		require.ErrorContains(t, err, `": `+want, text)
	}
	_, err := measure.ParseLength("deep", "mm")
	require.EqualError(t, err, `"deep": `+what)
	_, err = measure.ParseLength("3.2", "cm")
	require.EqualError(t, err, `"3.2": expected the unit "mm" or "in"`)
}
