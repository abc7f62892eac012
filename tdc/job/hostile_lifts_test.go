package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// Whatever stands in a file of lifts, it is refused in one line that names file, line and
// column and what to type, or it is read as it was meant.
func TestHostileLifts(t *testing.T) {
	const text = "[[cylinder]]\nnumber = 1\nstops = [[0, 0]]\n[[lobe]]\nname = \"a\"\non = \"cam\"\nvalve = \"inlet\"\nlift = 1\nreadings = \"hostile.csv\"\n"
	const length = ": expected a length such as 81.4, 81.4 mm or 3.2 in"
	const angle = ": expected an angle such as 12.5, 12 BTDC or 12°30'"
	const lift = ": expected a lift above the heel, growing as the valve opens, 50 mm at the most, such as 1.03"
	for _, c := range []struct{ file, says string }{
		{"angle,lift\n2.5,NaN\n", `hostile.csv:2:5: lift "NaN"` + length},
		{"angle,lift\nnan,1\n", `hostile.csv:2:1: angle "nan"` + angle},
		{"angle,lift\n2.5,-inf\n", `hostile.csv:2:5: lift "-inf"` + length},
		{"angle,lift\n2.5,1e308\n", `hostile.csv:2:5: lift "1e308"` + length},
		{"angle,lift\n1e308,1\n", `hostile.csv:2:1: angle "1e308"` + angle},
		{"angle,lift\n2.5,0x1p4\n", `hostile.csv:2:5: lift "0x1p4"` + length},
		{"angle,lift\n2.5,-1.5\n", `hostile.csv:2:5: lift "-1.5"` + lift},
		{"angle,lift\n2.5,36.2 in\n", `hostile.csv:2:5: lift "36.2 in"` + lift},
		{"angle,lift_in\r\n2.5,0.03\r\n7.5,9.2\r\n", `hostile.csv:3:5: lift "9.2"` + lift}, // millimetres under a heading of inches
		{"angle,lift\n2.5,\n", `hostile.csv:2:5: lift ""` + length},
		{"\ufeffangle,lift\r\n2.5,x\r\n", `hostile.csv:2:5: lift "x"` + length},
		{"angle;lift\n2,5;1,03\n7,5;1.o3\n", `hostile.csv:3:5: lift "1.o3"` + length},
		{"angle,lift\n2.5,1\n" + strings.Repeat("2.5,1\n", 2999), `hostile.csv:302:1: more than 300 readings: expected what somebody read by hand`},
		{"angle\x00lift\n", `hostile.csv:1:6: a control character, code 0: take it out, or save the file as plain text in UTF-8`},
		{"angle,lift\n\"2.5,1\n3,4\n", `hostile.csv:2:1: a quote is opened on this line and never closed: close it, or leave it out`},
	} {
		_, err := job.Parse("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(c.file), nil })
		require.EqualError(t, err, c.says, "%q", c.file)
	}
	for _, file := range []string{
		"\ufeffangle,lift\r\n2.5,0.76\r\n\r\n7.5,1.03\r\n",
		"# up\nAngle (deg);Lift (mm)\n2,5;0,76\n7,5;1,03\n",
		"lift_in,angle\n0.0299212598,2.5\n1.03 mm,7.5\n",
	} {
		j, err := job.Parse("job.toml", []byte(text), func(string) ([]byte, error) { return []byte(file), nil })
		require.NoError(t, err, "%q", file)
		require.Len(t, j.Lobes[0].Readings, 2)
		require.InDelta(t, 2.5, j.Lobes[0].Readings[0].Angle.Degrees(), 1e-9)
		require.InDelta(t, 0.76, float64(j.Lobes[0].Readings[0].Lift), 1e-6) // of the inches' ten digits
		require.InDelta(t, 1.03, float64(j.Lobes[0].Readings[1].Lift), 1e-9)
	}
}
