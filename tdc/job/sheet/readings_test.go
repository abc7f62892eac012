package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// bench is a common setup.
const deg = geometry.Degree

func bench() evidence.Setup {
	return evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
}

// Four readings written in many ways, all alike but for their lines.
func TestReadReadings(t *testing.T) {
	for what, c := range map[string]struct {
		text  string
		lines [4]int
	}{
		"plain":      {"angle,depth,turn,sweep,note\n348.5,3.25,forward,1,\n12,3.5,,1,\"back, and \"\"firm\"\"\"\n-9,0.5,backward,2,\n9,0.25,b,2,\n", [4]int{2, 3, 4, 5}},
		"no newline": {"angle,depth,turn,sweep,note\n348.5,3.25,f,1,\n12,3.5,,1,\"back, and \"\"firm\"\"\"\n-9,0.5,B,2,\n9,0.25,Backward,2,", [4]int{2, 3, 4, 5}},
		"order and case": {"Note,DEPTH,Sweep,Turn,Angle\n,3.25,1,F,348.5\n\"back, and \"\"firm\"\"\",3.5,1,FORWARD,12\n,.5,2,b,-9\n,.25,2,b,9\n",
			[4]int{2, 3, 4, 5}},
		"semicolons": {"angle;depth;turn;sweep;note\n348,5;3,25;;1;\n12;3,5;;1;\"back, and \"\"firm\"\"\"\n-9;0.5;b;2;\n9;0.25;b;2;\n",
			[4]int{2, 3, 4, 5}},
		"tabs": {"angle\tdepth\tturn\tsweep\tnote\n348,5\t3,25\t\t1\t\n12\t3,5\t\t1\t\"back, and \"\"firm\"\"\"\n-9\t0,5\tb\t2\t\n9\t0,25\tb\t2\t\n",
			[4]int{2, 3, 4, 5}},
		"mark, comments and blanks": {"\ufeff# at the bench\n\n \t \n  # header next\nangle, depth, turn, sweep, note\n348.5, 3.25, , 1,\n# between\n,,,,\n12, 3.5, f, 1, \"back, and  \"\"firm\"\"\"\n\n-9, .5, b, 2,\n9, .25, b, 2,\n\n# end",
			[4]int{6, 9, 11, 12}},
		"carriage returns": {"angle,depth,turn,sweep,note\r\n348.5,3.25,,1,\r\n12,3.5,,1,\"back, and \"\"firm\"\"\"\r\n-9,0.5,b,2,\r\n9,0.25,b,2,\r\n",
			[4]int{2, 3, 4, 5}},
		"nothing but carriage returns": {"angle,depth,turn,sweep,note\r348.5,3.25,,1,\r12,3.5,,1,\"back, and \"\"firm\"\"\"\r-9,0.5,b,2,\r9,0.25,b,2,\r",
			[4]int{2, 3, 4, 5}},
		"a note on two lines": {"angle,depth,turn,sweep,note\n348.5,3.25,,1,\n12,3.5,,1,\"back, and\n\"\"firm\"\"\"\n-9,0.5,b,2,\n9,0.25,b,2,\n",
			[4]int{2, 3, 5, 6}},
		"units and sides": {"angle_deg,depth (mm),turn,sweep,note\n11.5 BTDC,3.25,,1,\n12°0',3.5 mm,,1,\"back, and \"\"firm\"\"\"\n9 BTDC,0.5,b,2,\n9 ATDC,0.25,b,2,\n",
			[4]int{2, 3, 4, 5}},
	} {
		first := geometry.Angle(348.5)
		if strings.Contains(c.text, "BTDC") {
			first = -11.5
		}
		want := []evidence.Reading{
			{Angle: first * deg, Depth: 3.25, Turn: evidence.Forward, Sweep: "1"},
			{Angle: 12 * deg, Depth: 3.5, Turn: evidence.Forward, Sweep: "1", Note: `back, and "firm"`},
			{Angle: -9 * deg, Depth: 0.5, Turn: evidence.Backward, Sweep: "2"},
			{Angle: 9 * deg, Depth: 0.25, Turn: evidence.Backward, Sweep: "2"},
		}
		if strings.Contains(c.text, "BTDC") {
			want[0].Side, want[2].Side, want[3].Side = evidence.BTDC, evidence.BTDC, evidence.ATDC
		}
		for i := range want {
			want[i].File, want[i].Line = "c.csv", c.lines[i]
		}
		if first < 0 {
			want[0].Side, want[2].Side, want[3].Side = evidence.BTDC, evidence.BTDC, evidence.ATDC
		}
		got, err := sheet.ReadReadings("c.csv", []byte(c.text), bench(), "mm")
		require.NoError(t, err, what)
		require.Equal(t, want, got, what)
	}
}

func TestReadReadingsUnits(t *testing.T) {
	for _, c := range []struct {
		header, depth, unit string
		want                geometry.Length
	}{
		{"depth", "0.5", "mm", 0.5},
		{"depth", "0.5", "in", 0.5 * geometry.Inch},
		{"depth_mm", "0.5", "in", 0.5},
		{"Depth [mm]", "0.5", "in", 0.5},
		{"depth_in", "0.5", "mm", 0.5 * geometry.Inch},
		{"depth (in)", "0.5", "mm", 0.5 * geometry.Inch},
		{"depth/inch", "0.5", "mm", 0.5 * geometry.Inch},
		{"depth inches", "0.5", "mm", 0.5 * geometry.Inch},
		{`"depth ("")"`, "0.5", "mm", 0.5 * geometry.Inch},
		{"depth_in", "0.5 mm", "mm", 0.5},
		{"depth", "0.5 in", "mm", 0.5 * geometry.Inch},
	} {
		for _, angle := range []string{"angle", "angle_deg", "Angle (°)", "angle degrees", "angle [degree]"} {
			text := angle + "," + c.header + "\n12," + c.depth + "\n"
			got, err := sheet.ReadReadings("c.csv", []byte(text), bench(), c.unit)
			require.NoError(t, err, text)
			require.Equal(t, []evidence.Reading{{Angle: 12 * deg, Depth: c.want, Turn: evidence.Forward, File: "c.csv", Line: 2}}, got, text)
		}
	}
}

func TestReadReadingsConventions(t *testing.T) {
	setup := bench()
	setup.Protractor.Sense = evidence.Against
	setup.Protractor.Scale = evidence.Quadrants
	setup.Gauge.Counts = evidence.Up
	got, err := sheet.ReadReadings("c.csv", []byte("angle,depth\n12 BTDC,3\n12 ATDC,-2\n0,1\n"), setup, "mm")
	require.NoError(t, err)
	require.Equal(t, []evidence.Reading{
		{Angle: -12 * deg, Side: evidence.BTDC, Depth: -3, Turn: evidence.Forward, File: "c.csv", Line: 2},
		{Angle: 12 * deg, Side: evidence.ATDC, Depth: 2, Turn: evidence.Forward, File: "c.csv", Line: 3},
		{Angle: 0, Depth: -1, Turn: evidence.Forward, File: "c.csv", Line: 4},
	}, got)
}

func TestReadReadingsRefuses(t *testing.T) {
	const (
		noHeader = `no header row: expected one such as angle,depth and below it a reading a row`
		angle    = `expected an angle such as 12.5, 12 BTDC or 12°30'`
		length   = `expected a length such as 81.4, 81.4 mm or 3.2 in`
		set      = `expected a whole number from 1 to 20: how often the protractor was set on the crank so far, or nothing for 1`
		place    = `a quote out of place: write "in" for inches, and put a field with quotes in quotes, with its own doubled`
	)
	for _, c := range []struct{ text, want string }{
		{"", "1:1: " + noHeader},
		{"\ufeff# nothing\n\n", "1:1: " + noHeader},
		{"angle,depth", "1:1: no readings below the header row: expected rows such as 348.6,3.29"},
		{"note;depth;angle\n# none yet\n", "3:1: no readings below the header row: expected rows such as ;3.29;348.6"},
		{"348.6,3.29\n", `1:1: "348.6": expected a header row such as angle,depth above the readings`},
		{"angle\n12\n", `1:1: "angle": expected a header row such as angle,depth`},
		{"angle depth\n12 3\n", `1:1: "angle depth": expected a header row such as angle,depth`},
		{"angle,turn\n12,f\n", `1:1: the header row has no column depth: expected for example angle,depth`},
		{"depth,turn\n12,f\n", `1:1: the header row has no column angle: expected for example angle,depth`},
		{"angle,depht\n12,3\n", `1:7: "depht": unknown column; did you mean "depth"?`},
		{"angle,depth,temperature\n12,3,4\n", `1:13: "temperature": unknown column; expected angle, depth, turn, sweep, set or note`},
		{"angle,depth,\n12,3,4\n", `1:13: "": unknown column; expected angle, depth, turn, sweep, set or note`},
		{"angle,depth,\"°°\"\n", `1:13: "°°": unknown column; expected angle, depth, turn, sweep, set or note`},
		{"angle,depth,Angle\n12,3,4\n", `1:13: "Angle": a second column angle: expected one`},
		{"angle,depth_cm\n12,3\n", `1:7: "depth_cm": unknown unit: expected angle_deg, depth_mm or depth_in, or no unit`},
		{"angle_rad,depth\n12,3\n", `1:1: "angle_rad": unknown unit: expected angle_deg, depth_mm or depth_in, or no unit`},
		{"angle,depth,turn_mm\n12,3,f\n", `1:13: "turn_mm": unknown unit: expected angle_deg, depth_mm or depth_in, or no unit`},
		{"angle,depth\n12,5,3,29\n", `2:1: 4 fields under a header of 2: write decimals with a point, or separate the columns with semicolons`},
		{"angle;depth\n12;5;3;29\n", `2:1: 4 fields under a header of 2: leave a field empty, but keep what separates it`},
		{"angle,depth,turn\n12,3\n", `2:1: 2 fields under a header of 3: leave a field empty, but keep what separates it`},
		{"angle,depth,note\n12,3,x\n13,4\n", `3:1: 2 fields under a header of 3: leave a field empty, but keep what separates it`},
		{"angle,depth,sweep\n12,3\n", `2:1: 2 fields under a header of 3: leave a field empty, but keep what separates it`},
		{"note,angle,depth\n12\n", `2:1: 1 fields under a header of 3: leave a field empty, but keep what separates it`},
		{"angle,depth\n12 XTDC,3\n", `2:1: angle "12 XTDC": ` + angle},
		{"angle,depth\n,3\n", `2:1: angle "": ` + angle},
		{"angle,depth\nnan,3\n", `2:1: angle "nan": ` + angle},
		{"depth,angle\n3,900\n", `2:3: angle "900": 900 is not on a protractor that wraps at 360: expected 0 to 360, or -180 to 180 (wraps 720 is for one that counts both turns of a cycle)`},
		{"note,angle,depth\n°°°,12,deep\n", `2:8: depth "deep": ` + length},
		{"angle,depth\n12,inf\n", `2:4: depth "inf": ` + length},
		{"angle,depth\n12,\n", `2:4: depth "": ` + length},
		{"angle,depth\n12,1e9\n", `2:4: depth "1e9": ` + length},
		{"angle,depth\n12,1000000\n", `2:4: depth "1000000": expected a length of less than 100 m`},
		{"angle,depth,turn\n12,3,left\n", `2:6: turn "left": expected forward or backward, f or b, or nothing for forward`},
		{"angle,depth,set\n12,3,0\n", `2:6: set "0": ` + set},
		{"angle,depth,set\n12,3,21\n", `2:6: set "21": ` + set},
		{"angle,set,depth\n12,-1,3\n", `2:4: set "-1": ` + set},
		{"angle,depth,set\n12,3,1.5\n", `2:6: set "1.5": ` + set},
		{"angle,depth,set\n12,3,99999999999999999999\n", `2:6: set "99999999999999999999": ` + set},
		{"angle,depth,set\n12,3,second\n", `2:6: set "second": ` + set},
		{"angle,depth,set,set\n12,3,1,1\n", `1:17: "set": a second column set: expected one`},
		{"angle,depth,set\n12,3,1\n13,3,3\n", `3:6: set "3": the reading above is of set 1: expected 1, or 2 from where the protractor was moved`},
		{"angle,depth,set\n12,3,2\n13,3,1\n", `3:6: set "1": the reading above is of set 2: expected 2, or 3 from where the protractor was moved`},
		{"angle,depth,set\n12,3,2\n13,3,\n", `3:6: set "": the reading above is of set 2: expected 2, or 3 from where the protractor was moved`},
		{"angle,depth\n12,0.1\"\n", `2:7: ` + place},
		{"angle,depth\n12,\"0.1\"x\n", `2:8: ` + place},
		{"angle,depth,note\n12,3,\"never\nclosed\n", `2:1: a quote is opened on this line and never closed: close it, or leave it out`},
		{"angle,depth\n12,\xb03\n", `2:4: is not text in UTF-8 from here on: save the file as UTF-8`},
		{"angle,depth\n12,\x003\n", `2:4: a control character, code 0: take it out, or save the file as plain text in UTF-8`},
		{"\xff\xfea\x00n\x00", `1:1: is not text in UTF-8 from here on: save the file as UTF-8`},
		{"angle,depth\n" + strings.Repeat("1,2\n", 3_001), `3002:1: more than 3,000 readings: expected what somebody read by hand`},
		{"angle,depth\n" + strings.Repeat("#", 1<<20), ` is larger than 1 MB: expected a text file somebody typed`},
	} {
		readings, err := sheet.ReadReadings("c.csv", []byte(c.text), bench(), "mm")
		require.EqualError(t, err, "c.csv:"+c.want, "%.40q", c.text)
		require.Nil(t, readings)
		require.IsType(t, &source.Error{}, err)
	}
}

func TestReadReadingsTakesTenThousand(t *testing.T) {
	text := "angle,depth\n" + strings.Repeat("1,2\n", 3_000)
	readings, err := sheet.ReadReadings("c.csv", []byte(text), bench(), "mm")
	require.NoError(t, err)
	require.Len(t, readings, 3_000)
}

func TestReadReadingsThatCannotBeRead(t *testing.T) {
	_, err := sheet.ReadReadings("c.csv", []byte("angle,depth\n1,2\n"), bench(), "cm")
	require.EqualError(t, err, `c.csv:2:3: depth "2": expected the unit "mm" or "in"`)
}

// Decimal commas that happen to fill a header's columns are no readings.
func TestDecimalCommasThatFillTheColumns(t *testing.T) {
	read := func(text string) error {
		_, err := sheet.ReadReadings("r.csv", []byte(text), bench(), "mm")
		return err
	}
	const wrong = "angle,depth,sweep,note\n348,5,3,25\n350,0,1,75\n352,5,0,90\n"
	require.EqualError(t, read(wrong), "r.csv:2:1: decimal commas where commas stand between the columns: "+
		"write points, as in 348.5, or put semicolons between the columns")
	for _, right := range []string{
		"angle,depth,sweep,note\n348,5,3,25\n350,0,1,75\n",                // two rows may be chance
		"angle,depth,sweep,note\n348,5,3,25\n350,0,1,\n352,5,0,90\n",      // a note that is empty
		"angle,depth,sweep,note\n348,5,3,25\n350,0,1,first\n352,5,0,90\n", // or words
		"angle,depth,sweep,note\n348.5,5,3,25\n350,0,1,7\n352,5,0,90\n",   // points are used
		"angle;depth;sweep;note\n348;5;3;25\n350;0;1;75\n352;5;0;90\n",
		"angle,depth\n348,5\n350,3\n352,1\n",
	} {
		require.NoError(t, read(right), right)
	}
}

// A column says which set a reading belongs to; nothing is the first, and a file may
// begin in a later one: of another cylinder, say.
func TestSetColumn(t *testing.T) {
	sets := func(text string) (list []int) {
		readings, err := sheet.ReadReadings("c.csv", []byte(text), bench(), "mm")
		require.NoError(t, err, text)
		for _, r := range readings {
			list = append(list, r.Set)
		}
		return list
	}
	require.Equal(t, []int{0, 1, 2, 2, 3}, sets("angle,depth,set\n1,2,\n2,3,1\n3,4,2\n4,5, 2\n5,6,3\n"))
	require.Equal(t, []int{2, 3}, sets("Set;angle;depth\n2;1;2\n3;1;2\n"))
	require.Equal(t, []int{0, 0}, sets("angle,depth\n1,2\n2,3\n"))
}
