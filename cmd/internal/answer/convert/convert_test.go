package convert

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/geometry"
)

// said is the conversion's text on one line.
func said(t *testing.T, c Conversion) string {
	t.Helper()
	text, err := form.Of(c).Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// By arithmetic: a turn of 60 teeth is 6 deg a tooth; an arc is angle times radius; a
// chord twice the radius times the sine of half the angle (Euclid III.3); a cam's wheel
// turns half as far as the crank. 1 in is 25.4 mm (NIST SP 811, B.6).
func TestRows(t *testing.T) {
	for _, c := range []struct {
		name string
		Conversion
		says []string
		not  string
	}{
		{"angles alone", Conversion{Crank: 12 * geometry.Degree}, []string{"crank degrees 12", "cam degrees 6"}, "teeth|radius"},
		{"teeth", Conversion{Crank: 12 * geometry.Degree, Pitches: 60}, []string{"teeth of 60 2"}, "radius"},
		{"teeth on a cam's wheel", Conversion{Crank: 24 * geometry.Degree, Pitches: 60, OnCam: true}, []string{"teeth of 60 2", "cam degrees 12"}, ""},
		{"arc", Conversion{Crank: 12 * geometry.Degree, Radius: 65}, []string{"mm along the arc at radius 65 mm 13.6136"}, "teeth|chord|across"},
		{"chord", Conversion{Crank: 12 * geometry.Degree, Radius: 65, Chord: true}, []string{"mm straight across at radius 65 mm 13.5887"}, "arc"},
		{"arc in inches", Conversion{Crank: 12 * geometry.Degree, Radius: 2.5 * geometry.Inch, Inches: true}, []string{"in along the arc at radius 2.5 in 0.5236"}, "mm"},
		{"minus", Conversion{Crank: -12 * geometry.Degree, Pitches: 60}, []string{"crank degrees -12", "teeth of 60 -2"}, ""},
		{"no shift", Conversion{Crank: geometry.Angle(math.Copysign(0, -1)), Pitches: 60}, []string{"crank degrees 0", "teeth of 60 0"}, "-0"},
	} {
		text := said(t, c.Conversion)
		for _, says := range c.says {
			require.Contains(t, text, says, c.name)
		}
		if c.not != "" {
			require.NotRegexp(t, c.not, strings.ReplaceAll(text, "---", ""), c.name)
		}
	}
}

// JSON and CSV are in millimetres whoever reads, null or empty where the wheel does not
// say enough, and have no crumbs of radians.
func TestDataIsInMillimetres(t *testing.T) {
	for _, inches := range []bool{false, true} {
		c := Conversion{Crank: 12 * geometry.Degree, Radius: 2.5 * geometry.Inch, Inches: inches}
		data, err := c.JSON()
		require.NoError(t, err)
		var out conversionJSON
		require.NoError(t, json.Unmarshal(data, &out))
		require.Equal(t, 12.0, out.Crank)
		require.Equal(t, 6.0, out.Cam)
		require.Nil(t, out.Teeth)
		require.InDelta(t, 63.5*math.Pi/15, *out.Mm, 1e-12)
		data, err = c.CSV()
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		require.NoError(t, err)
		require.Equal(t, []string{"crank_deg", "cam_deg", "teeth", "mm"}, rows[0])
		require.Equal(t, []string{"12", "6", ""}, rows[1][:3])
	}
	half := Conversion{Crank: 200 * geometry.Degree, Radius: 40, Chord: true}
	data, err := half.JSON()
	require.NoError(t, err)
	require.Contains(t, string(data), `"mm": null`, "no chord spans more than half a turn")
	md, err := form.Of(Conversion{Crank: 12 * geometry.Degree}).Markdown()
	require.NoError(t, err)
	require.Contains(t, string(md), "| crank degrees")
}

// A number that went through radians has the digits that were typed.
func TestTidy(t *testing.T) {
	for _, x := range []float64{0, 12, 57.3, 111.1, 1e-7, 123456789.125, -0.7} {
		there := geometry.Angle(x) * geometry.Degree
		require.Equal(t, x, tidy(there.Degrees()))
	}
	require.False(t, math.Signbit(tidy(math.Copysign(0, -1))), "never minus zero")
}
