package main

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// conversion is what convert --as json says.
type conversion struct {
	Crank float64  `json:"crank_deg"`
	Cam   float64  `json:"cam_deg"`
	Teeth *float64 `json:"teeth"`
	Mm    *float64 `json:"mm"`
}

func converted(t *testing.T, args ...string) conversion {
	t.Helper()
	code, out, errs := ev(append([]string{"convert", "--as", "json"}, args...)...)
	require.Equal(t, answered, code, errs)
	require.Empty(t, errs)
	var got conversion
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	return got
}

// Two teeth of a wheel of 60 pitches are 12 crank degrees, and a tooth of a cam's
// sprocket is the angle of a tooth of the crank's, which has half as many
// (arithmetic; 360/21 = 17.142857).
func TestConvertTeeth(t *testing.T) {
	two := converted(t, "2", "teeth", "--pitches", "60")
	require.InDelta(t, 12, two.Crank, 1e-12)
	require.InDelta(t, 6, two.Cam, 1e-12)
	require.InDelta(t, 2, *two.Teeth, 1e-12)
	require.Nil(t, two.Mm)
	onCam, onCrank := converted(t, "-1", "teeth", "--pitches", "42", "--on", "cam"), converted(t, "-1", "teeth", "--pitches", "21")
	require.InDelta(t, -17.142857, onCam.Crank, 1e-6)
	require.InDelta(t, onCrank.Crank, onCam.Crank, 1e-12)
	require.InDelta(t, -1, *onCam.Teeth, 1e-12)
}

// A gear tooth is 23, 35 or 37 mm on the rim of dampers 203, 310 and 327 mm
// across (TM5-3895), which is the 360/28 = 12.857 deg of a gear
// of 28 teeth: millimetres rounded to one are good to 0.5/101.5 rad = 0.28 deg
// on the smallest.
func TestConvertPublishedRims(t *testing.T) {
	for _, c := range [][2]string{{"23", "101.5"}, {"35", "155"}, {"37", "163.5"}} {
		got := converted(t, c[0], "mm", "--radius", c[1], "--pitches", "28")
		require.InDelta(t, 360.0/28, got.Crank, 0.28)
		require.InDelta(t, 1, *got.Teeth, 0.28/(360.0/28))
	}
	// The same manual's C*P/360: 2.5 deg on a damper 203 mm across.
	require.InDelta(t, math.Pi*203*2.5/360, *converted(t, "2.5", "crank", "--radius", "101.5").Mm, 1e-9)
}

// Across a chord: 50 mm at radius 80 is 2 asin(50/160) = 36.4199 deg.
func TestConvertChordAndCam(t *testing.T) {
	got := converted(t, "50", "mm", "--radius", "80", "--chord")
	require.InDelta(t, 36.4199, got.Crank, 5e-5)
	require.InDelta(t, 50, *got.Mm, 1e-9)
	cam := converted(t, "2.5", "cam", "--radius", "40", "--on", "cam")
	require.InDelta(t, 5, cam.Crank, 1e-12)
	require.InDelta(t, 2.5*math.Pi/180*40, *cam.Mm, 1e-12)
	require.Nil(t, converted(t, "200", "crank", "--radius", "40", "--chord").Mm, "no chord spans more than half a turn")
}

func TestConvertSaysWhatToType(t *testing.T) {
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"2", "teeth"}, "--pitches 60"},
		{[]string{"2", "mm"}, "--radius 65"},
		{[]string{"200", "mm", "--radius", "65", "--chord"}, "at most 130 mm"},
		{[]string{"2", "toes"}, "toes is not a unit that convert knows: expected teeth, mm, in, crank or cam"},
		{[]string{"2", "teath"}, "teath is not a unit that convert knows: did you mean teeth?"},
		{[]string{"two", "teeth", "--pitches", "60"}, "such as 2.5"},
		{[]string{"2 ATDC", "cam"}, "such as 2.5"},
		{[]string{"2"}, "a value and its unit"},
		{[]string{"2", "teeth", "--pitches", "0"}, "such as 60"},
		{[]string{"2", "mm", "--radius", "-3"}, "above zero"},
		{[]string{"2", "cam", "--on", "wheel"}, "crank or cam"},
		{[]string{"2", "cam", "--as", "page"}, "text, markdown, json or csv"},
	} {
		code, out, errs := ev(append([]string{"convert"}, c.args...)...)
		require.Equal(t, wrongUse, code, c.args)
		require.Empty(t, out, c.args)
		require.Contains(t, errs, c.says, c.args)
	}
}

func TestConvertInEveryForm(t *testing.T) {
	for as, says := range map[string]string{
		"text": "crank degrees     12", "markdown": "| crank degrees", "csv": "12,6,2,", "json": `"mm": null`,
	} {
		code, out, errs := ev("convert", "2", "teeth", "--pitches", "60", "--as", as)
		require.Equal(t, answered, code, errs)
		require.Contains(t, out, says)
	}
}
