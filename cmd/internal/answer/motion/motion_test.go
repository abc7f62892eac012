package motion

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/chart/plain"
	"evendrop/cmd/internal/form"
	"evendrop/geometry"
)

// moving is the motion of an invented engine of 86 mm stroke and 86 mm bore, with a rod
// of each length, mm, from 30 deg before TDC to 30 deg after.
func moving(t *testing.T, inches bool, rods ...float64) Motion {
	t.Helper()
	m := Motion{from: -30 * geometry.Degree, to: 30 * geometry.Degree, within: []geometry.Length{0.1, 1}, rpm: 3000, inches: inches}
	for u := -30.0; u <= 30; u += 10 {
		m.angles = append(m.angles, geometry.Angle(u)*geometry.Degree)
	}
	for _, rod := range rods {
		crank, err := geometry.NewSliderCrank(86, geometry.Length(rod), 0)
		require.NoError(t, err)
		cylinder, err := geometry.NewCylinder(crank, 86, 10)
		require.NoError(t, err)
		m.engines = append(m.engines, engine{SliderCrank: crank, bore: 86, compression: 10, cylinder: &cylinder})
	}
	return m
}

// said is the motion's text on one line.
func said(t *testing.T, m Motion) string {
	t.Helper()
	text, err := m.Text(form.Widest)
	require.NoError(t, err)
	return strings.Join(strings.Fields(string(text)), " ")
}

// numbers are those of a table's row, without its first cell.
func numbers(t *testing.T, row []string) (list []float64) {
	t.Helper()
	for _, cell := range row[1:] {
		x, err := strconv.ParseFloat(cell, 64)
		require.NoError(t, err)
		list = append(list, x)
	}
	return list
}

// The table in inches is that in millimetres over 25.4, speed in feet a minute and
// volume in cubic inches (NIST SP 811, B.8: 1 ft is 0.3048 m, 1 in3 is 16.387 064 cm3),
// each to the last digit shown.
func TestTableInInches(t *testing.T) {
	mm, in := moving(t, false, 146).motionTable(), moving(t, true, 146).motionTable()
	require.Equal(t, []string{"Angle, deg", "drop, mm", "mm/deg", "m/s", "volume, cm3", "cosine, mm", "off BDC, mm"}, mm.Header)
	require.Equal(t, []string{"Angle, deg", "drop, in", "in/deg", "ft/min", "volume, in3", "cosine, in", "off BDC, in"}, in.Header)
	size := []float64{25.4, 25.4, 0.3048 / 60, 16.387064, 25.4, 25.4}
	for i, row := range mm.Rows {
		require.Equal(t, row[0], in.Rows[i][0])
		a, b := numbers(t, row), numbers(t, in.Rows[i])
		for k := range a {
			half := math.Pow10(-decimals(row[k+1]))/2 + size[k]*math.Pow10(-decimals(in.Rows[i][k+1]))/2
			require.InDelta(t, a[k], b[k]*size[k], half*(1+1e-9), "%s at %s", mm.Header[k+1], row[0])
		}
	}
}

func decimals(text string) int {
	_, after, _ := strings.Cut(text, ".")
	return len(after)
}

// In inches no length that is read is in millimetres, in any part of the answer, of one
// engine or several, with a picture.
func TestNoMillimetresWhereInchesAreRead(t *testing.T) {
	millimetres := regexp.MustCompile(`\bmm\b|millimetre|m/s|\bcm3\b`)
	for _, rods := range [][]float64{{146}, {133, 146}} {
		m := moving(t, true, rods...)
		m.engines[0].offsetStated = true
		require.NotRegexp(t, millimetres, said(t, m))
		md, err := m.Markdown()
		require.NoError(t, err)
		require.NotRegexp(t, millimetres, string(md))
		picture, err := m.Picture()
		require.NoError(t, err)
		require.NotRegexp(t, millimetres, string(picture))
		require.Contains(t, string(picture), "drop, in")
		require.Contains(t, string(picture), "Drop in inches")
		m.inches = false
		require.NotRegexp(t, `\din\b|\d in\b|inches|ft/min`, said(t, m))
	}
}

// The sentences in inches: 86 mm are 3.3858 in, 146 mm 5.748; the mean speed is twice
// the stroke times the turns, 2 * 0.086 * 3000 m/min = 1693 ft/min.
func TestSentencesInInches(t *testing.T) {
	text := said(t, moving(t, true, 146))
	require.Contains(t, text, "Stroke 3.3858 in, rod 5.748 in (1.70 times the stroke), offset taken as zero")
	require.Contains(t, text, "At 3000 rpm the piston's mean speed is 1693 ft/min.")
	require.Contains(t, text, "On the flank, at a drop of 0.04 in, 0.1 deg is 0.0007 in: read there")
	text = said(t, moving(t, false, 146))
	require.Contains(t, text, "Stroke 86 mm, rod 146 mm")
	require.Contains(t, text, "the piston's mean speed is 8.60 m/s")
	require.Contains(t, text, "On the flank, at a drop of 1 mm, 0.1 deg is 0.018 mm: read there")
	m := moving(t, true, 146)
	m.engines[0] = offset(t)
	require.Regexp(t, `pin offset -0\.315 in, bore offset 0 in; .* TDC comes 2\.43 deg after the throw lies along the bore; the piston travels 3\.391 in, 182\.03 deg down and 177\.97 deg up`, said(t, m))
}

// offset is an engine with a pin offset of 8 mm: asin(8/(146+43)) is 2.4259 deg and the
// travel 86.1418 mm (by arithmetic, Soylemez 7.2).
func offset(t *testing.T) engine {
	t.Helper()
	crank, err := geometry.NewSliderCrank(86, 146, 8)
	require.NoError(t, err)
	return engine{SliderCrank: crank, pinOffset: -8, offsetStated: true}
}

// Dwell is asked and answered in the unit that was typed.
func TestDwellInInches(t *testing.T) {
	m := moving(t, true, 146)
	m.within = []geometry.Length{0.005 * geometry.Inch, 0.00025 * geometry.Inch}
	table, err := m.dwellTable()
	require.NoError(t, err)
	require.Equal(t, "0.005 in", table.Rows[0][0])
	require.Equal(t, "0.00025 in", table.Rows[1][0], "no digit of what was asked is lost")
	picture, err := m.Picture()
	require.NoError(t, err)
	require.Contains(t, string(picture), "within 0.005 in: 7.7 deg")
	m.inches = false
	millimetres, err := m.dwellTable()
	require.NoError(t, err)
	require.Equal(t, "0.127 mm", millimetres.Rows[0][0])
	require.Equal(t, table.Rows[0][1:], millimetres.Rows[0][1:], "degrees are degrees")
}

// Small drops: a piston is within h of TDC over 2 sqrt(2h/(r(1+r/l))), and of BDC over
// the same with 1-r/l (series of the closed form; the next term is h/r of it).
func TestDwellNearBothEnds(t *testing.T) {
	e := moving(t, false, 146).engines[0]
	const h, r, l = 0.001, 43.0, 146.0
	d, err := e.dwell(h)
	require.NoError(t, err)
	for _, c := range []struct {
		got  geometry.Angle
		lean float64
	}{{d.total(), 1 + r/l}, {d.atBDC, 1 - r/l}, {d.cosine, 1}} {
		require.InEpsilon(t, 2*math.Sqrt(2*h/(r*c.lean)), float64(c.got), 1e-4)
	}
	require.InDelta(t, float64(d.after), -float64(d.before), 1e-9, "without offset as long before as after")
}

// JSON and CSV are the same whatever is read, in millimetres.
func TestDataIsInMillimetres(t *testing.T) {
	for _, form := range []func(Motion) ([]byte, error){Motion.JSON, Motion.CSV} {
		mm, err := form(moving(t, false, 133, 146))
		require.NoError(t, err)
		in, err := form(moving(t, true, 133, 146))
		require.NoError(t, err)
		require.Equal(t, string(mm), string(in))
	}
	data, err := moving(t, true, 146).JSON()
	require.NoError(t, err)
	var out motionJSON
	require.NoError(t, json.Unmarshal(data, &out))
	require.Equal(t, 86.0, out.Engine.Stroke)
	require.Len(t, out.Engines, 1)
	require.Equal(t, out.motionEngineJSON, out.Engines[0])
	require.Nil(t, out.Engine.PinOffset, "not stated is null")
	require.NotEmpty(t, out.Cautions)
	data, err = moving(t, true, 146).CSV()
	require.NoError(t, err)
	rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+7+2)
}

// Liquid is in the millilitres that it was asked in, and what it does in the unit that is
// read. The space is 499.6/9 = 55.5 cm3 at TDC and 555.1 at BDC.
func TestLiquid(t *testing.T) {
	for _, c := range []struct {
		ml      float64
		inches  bool
		says    string
		outcome string
	}{
		{60, false, `60 ml of trapped liquid fills the space above the piston 9\.\d deg before TDC, where the piston is still 0\.\d+ mm down`, fillsBefore},
		{60, true, `where the piston is still 0\.03\d in down`, fillsBefore},
		{20, true, `does not fill the 55\.5 cm3 left at TDC, but makes a compression of 10 into 15\.1`, neverFull},
		{600, false, `more than the cylinder holds at BDC, 555\.1 cm3: the piston cannot rise at all`, alwaysFull},
	} {
		m := moving(t, c.inches, 146)
		m.liquid = geometry.Volume(c.ml) * geometry.CubicCentimetre
		text := said(t, m)
		require.Regexp(t, c.says, text)
		require.Contains(t, text, "Liquid does not give")
		got, err := m.trapped(m.engines[0])
		require.NoError(t, err)
		require.Equal(t, c.outcome, got.outcome)
	}
	several := moving(t, false, 133, 146)
	several.liquid = 60 * geometry.CubicCentimetre
	require.Regexp(t, `Engine A: 60 ml.*Engine B: 60 ml`, said(t, several))
}

// Engines side by side have a letter, and in the picture what tells them apart.
func TestSideBySide(t *testing.T) {
	m := moving(t, true, 133, 146)
	text := said(t, m)
	require.Contains(t, text, "Engine stroke, in rod, in offset, in travel, in")
	require.Contains(t, text, "A 3.3858 5.2362 0 3.386")
	require.Contains(t, text, "Drop, in at deg A B")
	require.Contains(t, text, "Slope, in/deg at deg A B")
	require.Contains(t, text, "Speed, ft/min at deg A B")
	require.Contains(t, text, "Volume, in3 at deg A B")
	require.Contains(t, text, "0.003937 in, A")
	require.Equal(t, "rod 5.2362 in", m.name(0))
	require.Equal(t, "engine B", moving(t, true, 146, 146).name(1), "nothing tells them apart")
	require.Equal(t, "drop", moving(t, true, 146).name(0))
}

// Late is positive, and zero has no sign.
func TestLate(t *testing.T) {
	for degrees, want := range map[float64]string{5: "+5", -5: "-5", 0: "0", 2.5: "+2.5"} {
		require.Equal(t, want, late(geometry.Angle(degrees)*geometry.Degree))
	}
}

// The picture and the plot count in the unit that they name: 7.35 mm at 30 deg are
// 0.289 in.
func TestPictureIsInItsUnit(t *testing.T) {
	for inches, deepest := range map[bool]float64{false: 7.3526, true: 7.3526 / 25.4} {
		m := moving(t, inches, 146)
		points := m.drops().Series[0].Points
		require.InDelta(t, deepest, points[0].Y, 1e-4)
		require.InDelta(t, deepest, points[len(points)-1].Y, 1e-4)
		require.InDelta(t, 0, points[len(points)/2].Y, 1e-12)
		plot, err := plain.Plot(m.drops(), form.Widest, PlotRows)
		require.NoError(t, err)
		most := 0.0
		for _, found := range regexp.MustCompile(`(?m)^ *([0-9.]+) \+`).FindAllStringSubmatch(plot, -1) {
			tick, err := strconv.ParseFloat(found[1], 64)
			require.NoError(t, err)
			most = math.Max(most, tick)
		}
		require.InDelta(t, deepest, most, 0.2*deepest, "the last tick is near the last point")
	}
}
