package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/lobe"
)

// A file of lifts has its columns in any order, its units, its turns and its notes.
func TestReadLifts(t *testing.T) {
	got, err := sheet.ReadLifts("i.csv", []byte("note,lift_in,angle,turn\n# up\nfirst,0.05,2.5,\n,\"0.508 mm\",7.5,b\n"), evidence.DefaultProtractor(), "mm")
	require.NoError(t, err)
	require.Len(t, got, 2)
	require.Equal(t, lobe.Reading{Angle: 2.5 * geometry.Degree, Lift: 1.27, Turn: evidence.Forward, Note: "first", File: "i.csv", Line: 3}, got[0])
	require.InDelta(t, 0.508, float64(got[1].Lift), 1e-12)
	require.Equal(t, evidence.Backward, got[1].Turn)
	quadrants := evidence.Protractor{Scale: evidence.Quadrants}
	got, err = sheet.ReadLifts("i.csv", []byte("angle,lift\n12 BBDC,1\n"), quadrants, "mm")
	require.NoError(t, err)
	require.InDelta(t, 168, got[0].Angle.Degrees(), 1e-9)
	require.Equal(t, evidence.BBDC, got[0].Side)
}

func TestReadLiftsRefuses(t *testing.T) {
	for text, want := range map[string]string{
		"":                                     "i.csv:1:1: no header row: expected one such as angle,lift and below it a reading a row",
		"angle\n":                              `i.csv:1:1: "angle": expected a header row such as angle,lift`,
		"angle,depth\n1,2\n":                   `i.csv:1:7: "depth": unknown column; expected angle, lift, turn or note`,
		"angle,note\n1,2\n":                    "i.csv:1:1: the header row has no column lift: expected for example angle,lift",
		"2.5,0.76\n":                           `i.csv:1:1: "2.5": expected a header row such as angle,lift above the readings`,
		"angle,lift_cm\n1,2\n":                 `i.csv:1:7: "lift_cm": unknown unit: expected angle_deg, lift_mm or lift_in, or no unit`,
		"angle,lift\n":                         "i.csv:2:1: no readings below the header row: expected rows such as 7.5,1.03",
		"angle,lift,note\n1,2\n":               "i.csv:2:1: 2 fields under a header of 3: leave a field empty, but keep what separates it",
		"angle,lift\n1\n":                      "i.csv:2:1: 1 fields under a header of 2: leave a field empty, but keep what separates it",
		"angle,lift\n400,1\n":                  "i.csv:2:1: angle \"400\": 400 is not on a protractor that wraps at 360: expected 0 to 360, or -180 to 180 (wraps 720 is for one that counts both turns of a cycle)",
		"angle,lift\n1,-2\n":                   `i.csv:2:3: lift "-2": expected a lift above the heel, growing as the valve opens, 50 mm at the most, such as 1.03`,
		"angle,lift\n1,920\n":                  `i.csv:2:3: lift "920": expected a lift above the heel, growing as the valve opens, 50 mm at the most, such as 1.03`,
		"angle,lift,turn\n1,2,left\n":          `i.csv:2:5: turn "left": expected forward or backward, f or b, or nothing for forward`,
		"angle,lift,note\n1,2,3\n4,5,6\n7,8,9": "i.csv:2:1: decimal commas where commas stand between the columns: write points, as in 348.5, or put semicolons between the columns",
	} {
		_, err := sheet.ReadLifts("i.csv", []byte(text), evidence.DefaultProtractor(), "mm")
		require.EqualError(t, err, want, "%q", text)
	}
	const most = 300
	many := "angle,lift\n" + strings.Repeat("1,2\n", most)
	read, err := sheet.ReadLifts("i.csv", []byte(many), evidence.DefaultProtractor(), "mm")
	require.NoError(t, err)
	require.Len(t, read, most)
	_, err = sheet.ReadLifts("i.csv", []byte(many+"1,2\n"), evidence.DefaultProtractor(), "mm")
	require.EqualError(t, err, fmt.Sprintf("i.csv:%d:1: more than 300 readings: expected what somebody read by hand", most+2))
}
