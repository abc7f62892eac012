package motion

import (
	"encoding/csv"
	"encoding/json"
	"flag"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"evendrop/cmd/internal/form"
	"evendrop/geometry"
)

// Random cases are the same every time, unless flags say otherwise.
func init() {
	for name, value := range map[string]string{"rapid.seed": "1903", "rapid.nofailfile": "true", "rapid.checks": "60"} {
		if err := flag.Set(name, value); err != nil {
			panic(err)
		}
	}
}

// drawn is any motion that can be asked for, of engines from a model's to a ship's.
func drawn(t *rapid.T) Motion {
	between := func(what string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, what) }
	m := Motion{from: -30 * geometry.Degree, to: 30 * geometry.Degree, inches: rapid.Bool().Draw(t, "inches"),
		rpm: between("rpm", 1, 20000)}
	for u := -30.0; u <= 30; u += 15 {
		m.angles = append(m.angles, geometry.Angle(u)*geometry.Degree)
	}
	stroke := between("stroke", 10, 2000)
	m.within = []geometry.Length{geometry.Length(stroke / 100)}
	for range rapid.IntRange(1, mostEngines).Draw(t, "engines") {
		e := engine{offsetStated: true, bore: geometry.Length(stroke * between("bore", 0.5, 1.5)), compression: between("compression", 2, 25)}
		e.pinOffset = geometry.Length(stroke * between("offset", -0.1, 0.1))
		var err error
		e.SliderCrank, err = geometry.NewSliderCrank(geometry.Length(stroke), geometry.Length(stroke*between("rod", 1, 3)), -e.pinOffset)
		require.NoError(t, err)
		cylinder, err := geometry.NewCylinder(e.SliderCrank, e.bore, e.compression)
		require.NoError(t, err)
		e.cylinder = &cylinder
		m.engines = append(m.engines, e)
	}
	least := m.engines[0].cylinder.Clearance()
	m.liquid = geometry.Volume(between("liquid", 0.5, 3)) * least
	return m
}

// height is how high the pin stands over the crank, mm, the crank so far from the throw
// along the bore: from Pythagoras, written here by itself.
func (e engine) height(phi float64) float64 {
	r, l, off := e.Throw().Millimetres(), e.Rod().Millimetres(), e.Offset().Millimetres()
	sin, cos := math.Sincos(phi)
	return r*cos + math.Sqrt(l*l-(r*sin-off)*(r*sin-off))
}

// Of any engine the figures are those of crank and rod: drops from the height of the pin,
// volumes from the drop, speed from the slope, the drop at both ends of a dwell what was
// asked, and the liquid as much as the space where it fills it.
func TestFiguresAreThoseOfCrankAndRod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		data, err := m.JSON()
		require.NoError(t, err)
		var out motionJSON
		require.NoError(t, json.Unmarshal(data, &out))
		for n, j := range out.Engines {
			e := m.engines[n]
			stroke := 2 * e.Throw().Millimetres()
			top := float64(e.TDC())
			require.Less(t, math.Abs(e.height(top+1e-4)-e.height(top-1e-4)), 1e-9*stroke, "the highest point is level")
			area, clearance := math.Pi/400*e.bore.Millimetres()*e.bore.Millimetres(), *j.Engine.Clearance // cm2, cm3
			require.InEpsilon(t, e.compression, (clearance+*j.Engine.Swept)/clearance, 1e-9)
			for _, row := range j.Rows {
				drop := e.height(top) - e.height(top+row.Angle*math.Pi/180)
				require.InDelta(t, drop, row.Drop, 1e-9*stroke)
				require.InDelta(t, area*drop/10, *row.Swept, 1e-8*(1+*j.Engine.Swept))
				require.InDelta(t, clearance+*row.Swept, *row.Volume, 1e-8*(1+*j.Engine.Swept))
				require.InDelta(t, row.Slope*6*m.rpm/1000, *row.Speed, 1e-9*(1+m.rpm*stroke)) // 6 deg a second a turn a minute
			}
			for _, d := range j.Dwell {
				for _, end := range []float64{d.Before, d.After} {
					require.InDelta(t, d.Within, e.height(top)-e.height(top+end*math.Pi/180), 1e-7*stroke)
				}
				require.InDelta(t, d.Total, d.After-d.Before, 1e-9)
			}
			if at := j.Liquid.FullAt; at != nil {
				full := clearance + area*(e.height(top)-e.height(top+*at*math.Pi/180))/10
				require.InEpsilon(t, j.Liquid.Volume, full, 1e-6)
				require.LessOrEqual(t, *at, 0.0, "before TDC, where the space shrinks")
			}
		}
	})
}

// CSV has the numbers of JSON, cell by cell.
func TestCSVIsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		data, err := m.JSON()
		require.NoError(t, err)
		var out motionJSON
		require.NoError(t, json.Unmarshal(data, &out))
		data, err = m.CSV()
		require.NoError(t, err)
		rows, err := csv.NewReader(strings.NewReader(string(data))).ReadAll()
		require.NoError(t, err)
		column := map[string]int{}
		for i, name := range rows[0] {
			column[name] = i
		}
		n := 1
		has := func(name string, want float64) {
			got, err := strconv.ParseFloat(rows[n][column[name]], 64)
			require.NoError(t, err, name)
			require.Equal(t, want, got, name)
		}
		for _, j := range out.Engines {
			for _, r := range j.Rows {
				for name, want := range map[string]float64{
					"stroke_mm": j.Engine.Stroke, "rod_mm": j.Engine.Rod, "angle_deg": r.Angle, "drop_mm": r.Drop, "slope_mm_per_deg": r.Slope,
					"speed_m_per_s": *r.Speed, "volume_cm3": *r.Volume, "swept_since_tdc_cm3": *r.Swept,
					"pure_cosine_drop_mm": r.Cosine, "rise_from_bdc_mm": r.AtBDC,
				} {
					has(name, want)
				}
				n++
			}
			for _, d := range j.Dwell {
				for name, want := range map[string]float64{
					"within_mm": d.Within, "before_deg": d.Before, "after_deg": d.After, "total_deg": d.Total,
					"pure_cosine_total_deg": d.Cosine, "bdc_total_deg": d.AtBDC,
				} {
					has(name, want)
				}
				n++
			}
			has("liquid_ml", j.Liquid.Volume)
			n++
		}
		require.Len(t, rows, n)
	})
}

// Whatever the engines and the unit, text fits a terminal of 80 columns, every engine
// has its letter, and the cautions are there.
func TestTextFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawn(t)
		text, err := m.Text(form.Widest)
		require.NoError(t, err)
		for line := range strings.Lines(string(text)) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(line, "\n")), 79, "%q", line)
		}
		flat := strings.Join(strings.Fields(string(text)), " ")
		require.Contains(t, flat, "Caution: turn by hand only")
		require.Contains(t, flat, liquidCaution)
		for n := range m.engines {
			if len(m.engines) > 1 {
				require.Contains(t, flat, "Engine "+m.letter(n)+": ")
			}
		}
		_, err = m.Picture()
		require.NoError(t, err)
	})
}
