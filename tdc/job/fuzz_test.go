package job_test

import (
	"bytes"
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/job/measure"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
	"evendrop/tdc/lobe"
)

// requireMessage requires that an error is one line of words about a place that
// the file has.
func requireMessage(t *testing.T, err error, data []byte) {
	t.Helper()
	var e *source.Error
	require.ErrorAs(t, err, &e)
	require.NotEmpty(t, e.Problem)
	require.False(t, strings.ContainsAny(err.Error(), "\n\r\x1b"), "%q", err)
	for _, odd := range []string{"%!", "job.", "unstable", "strconv", "reflect", "struct {"} {
		if !bytes.Contains(data, []byte(odd)) {
			require.NotContains(t, e.Problem, odd)
		}
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if e.File != "job.toml" || e.Line == 0 {
		return
	}
	lines := bytes.Split(data, []byte("\n"))
	require.LessOrEqual(t, e.Line, len(lines))
	require.LessOrEqual(t, e.Column, utf8.RuneCount(lines[e.Line-1])+1)
	require.Positive(t, e.Column)
}

// requireFinite requires a number within the largest that a job may hold.
func requireFinite(t *testing.T, xs ...float64) {
	t.Helper()
	for _, x := range xs {
		require.Less(t, math.Abs(x), 1e5)
	}
}

func requireReadings(t *testing.T, readings []evidence.Reading) {
	t.Helper()
	for _, r := range readings {
		requireFinite(t, float64(r.Angle), float64(r.Depth))
		require.True(t, r.Turn == evidence.Forward || r.Turn == evidence.Backward)
		require.Positive(t, r.Line)
	}
}

// Whatever is in a job file, it is read or refused in words; what is read can be
// reckoned with.
func FuzzJob(f *testing.F) {
	f.Add(everything)
	f.Add(aCylinder)
	f.Add("unit = \"in\"\nengine.known_to.rod = 1_0.5e0\n[[joint]]\ncarried = 'a'\ncarrier = \"\"\"b\"\"\"\n" + aCylinder)
	f.Add("cylinder = [{ number = 1, readings = 'ok.csv', stops = [[\"12 BTDC\", 12]] }]")
	f.Add("[[mark]]\nname = \"a\"\non = \"b\"\noff = 1\nin = \"teeth\"\npitches = 42\n" + aCylinder)
	f.Add(aCylinder + aLobe + "name = \"a\"\nset = 2\nopens = \"12 BTDC\"\ncloses = \"48 ABDC\"\ngauge = { step = 0.01, error = 0, runout = 0.02 }\n" + aLobe + "name = \"a\"\nratio = 1.5\nlash = 0.1\n")
	f.Add("\ufeff[[cylinder]]\nnumber = 1\nreadings = \"bad.csv\"\n")
	f.Add("[cylinder]\nx = nan\ny = 0x12\nz = 2026-01-01\n[engine.known_to]\n[engine]\n")
	f.Fuzz(func(t *testing.T, text string) {
		data := []byte(text)
		j, err := job.Parse("job.toml", data, shelf)
		if err != nil {
			requireMessage(t, err, data)
			return
		}
		s := j.Setup
		require.NotEmpty(t, j.Cylinders)
		require.Positive(t, float64(s.Protractor.Uncertainty()))
		require.Positive(t, float64(s.Gauge.Uncertainty()))
		requireFinite(t, float64(s.Protractor.Uncertainty()), float64(s.Gauge.Uncertainty()), float64(s.Engine.Offset())/2)
		if s.Engine.Known() {
			_, err := s.Engine.SliderCrank()
			require.NoError(t, err)
		}
		for _, c := range j.Cylinders {
			require.Positive(t, len(c.Readings)+len(c.Stops)+len(c.Dwell))
			requireReadings(t, c.Readings)
			requireFinite(t, float64(c.Throw))
		}
		for _, m := range j.Marks {
			require.NotEmpty(t, m.Name)
			require.NotEmpty(t, m.On)
			require.Equal(t, m.Off == nil, len(m.Read) > 0)
			requireFinite(t, float64(m.ShouldBe), float64(m.Limit))
		}
		for i, l := range j.Lobes {
			require.NotEmpty(t, l.Name)
			require.NotEmpty(t, l.Readings)
			for _, other := range j.Lobes[:i] {
				require.False(t, other.Name == l.Name && evidence.SetOf(other.Set) == evidence.SetOf(l.Set))
			}
			require.Positive(t, float64(l.Checking()))
			requireFinite(t, float64(l.Card.Opens), float64(l.Card.Centre), float64(l.Limit), l.Ratio)
		}
	})
}

// Whatever is in a readings file, it is read or refused in words.
func FuzzReadings(f *testing.F) {
	f.Add("angle,depth,turn,sweep,note\n348.5,3.25,forward,1,\n# c\n12 BTDC,3.5 in,b,1,\"a \"\"b\"\"\"\n")
	f.Add("\ufeffDepth (in);ANGLE_deg\r\n3,25;12°30'\r\n;\r\n")
	f.Add("angle\tdepth\tnote\n1\t2\t\"a\nb\"\n")
	f.Add("angle,depth\n1,\"2\n")
	f.Add("angle,depth\r1,2\" \r")
	f.Fuzz(func(t *testing.T, text string) {
		readings, err := sheet.ReadReadings("job.toml", []byte(text), bench(), "in")
		if err != nil {
			require.Nil(t, readings)
			text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
			requireMessage(t, err, []byte(text))
			return
		}
		require.NotEmpty(t, readings)
		requireReadings(t, readings)
	})
}

// Whatever is in a file of lifts, it is read or refused in words; what is read is measured
// in finite numbers, or there is a reason why not.
func FuzzLifts(f *testing.F) {
	f.Add("angle,lift\n2.5,0.76\n7.5,1.03\n11.5,1.30\n30.5,3.00\n61,6.03\n127.5,9.20\n194,5.98\n223.5,3.00\n243,1.31\n247.5,1.00\n251.5,0.76\n")
	f.Add("Lift (in);ANGLE;turn;note\r\n0,03;357;f;\r\n0,05;2;b;x\r\n0,05;3\"\r\n")
	f.Add("angle,lift\n1,1\n1,1\n1,2\n1,1\n1,0\n")
	f.Add("angle,lift\n127.5,9.20\n194,5.98\n243,1.31\n247.5,1.00\n251.5,0.76\n2.5,0.76\n7.5,10.3\n11.5,1.30\n61,6.03\n")
	f.Add("angle,lift\n251.5,0.76\n247.5,1\n243,1.31\n194,5.98\n127.5,50\n61,6\n2.5,-0.9\n")
	f.Add("angle,lift\n0,0.5\n10,1\n20,1\n30,2\n90,9\n180,-0.5\n200,1\n210,0.5\n359,0\n")
	from := quietTDC(f)
	f.Fuzz(func(t *testing.T, text string) {
		readings, err := sheet.ReadLifts("job.toml", []byte(text), bench().Protractor, "mm")
		if err != nil {
			require.Nil(t, readings)
			text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
			requireMessage(t, err, []byte(text))
			return
		}
		m := lobe.Measure(bench().Protractor, from, lobe.Lobe{Name: "a", Valve: lobe.Inlet, Cylinder: 1, Readings: readings,
			Card: lobe.Card{Lift: 1, HasEvents: true, Opens: -12 * geometry.Degree, Closes: 228 * geometry.Degree, Top: 9}, Gauge: lobe.DefaultGauge()})
		require.Equal(t, m.Events == nil, m.CannotTell != nil)
		for _, l := range m.Levels {
			requireFinite(t, float64(l.Midpoint.Angle), float64(l.Midpoint.Uncertainty), float64(l.Duration))
		}
		if m.Events != nil {
			e := m.Events
			requireFinite(t, float64(e.Opens.Angle), float64(e.Closes.Expanded), float64(e.Duration.Angle), float64(m.Shift.Angle), m.Shift.Offset.Value)
		}
	})
}

// quietTDC is TDC at 2.4 on the protractor, by four readings.
func quietTDC(f *testing.F) lobe.From {
	f.Helper()
	read, err := sheet.ReadReadings("r.csv", []byte("angle,depth\n342.4,3.29\n352.4,0.82\n12.4,0.82\n22.4,3.29\n"), bench(), "mm")
	require.NoError(f, err)
	r, err := tdc.Find(bench(), evidence.Cylinder{Number: 1, Readings: read})
	require.NoError(f, err)
	return lobe.From{Result: r}
}

// An angle or a length is read or refused, and a plain number is what it says.
func FuzzAngle(f *testing.F) {
	for _, text := range []string{"12.5", "-12,5", "12 BTDC", "12°30'15\" after TDC", "0.1295\"", "3.2 in", "nan", "1e5", "−.5 mm"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		w, err := measure.ParseAngle(text)
		if err == nil {
			require.False(t, math.IsNaN(float64(w.Angle)) || math.IsInf(float64(w.Angle), 0))
		}
		l, lengthErr := measure.ParseLength(text, "mm")
		if lengthErr == nil {
			requireFinite(t, float64(l))
		}
		for _, err := range []error{err, lengthErr} {
			if err != nil {
				require.False(t, strings.ContainsAny(err.Error(), "\n\r\x1b"))
			}
		}
		x, plainErr := strconv.ParseFloat(text, 64)
		if plainErr == nil && !strings.ContainsAny(text, "eExXpPnNiI_") && math.Abs(x) < 1e5 {
			require.NoError(t, err)
			require.Equal(t, evidence.Written{Angle: geometry.Angle(x) * deg}, w)
			require.Equal(t, geometry.Length(x), l)
		}
	})
}

// Whatever is in a known-good file, it is read or refused in words; what is read is
// written so that it reads the same.
func FuzzKnownGood(f *testing.F) {
	f.Add("[[from]]\ntitle = \"a\"\ndate = \"2024-01-02\"\nreadings = 24\ntdc_standard_uncertainty = 0.04\n" +
		"[[mark]]\nname = \"pin\"\non = \"flywheel\"\nshould_be = \"84 BTDC\"\nstandard_uncertainty = 0.1\nof_tdc = 0.05\nengines = 2\nscatter = 0.2\ndegrees_of_freedom = 3.5\nlimit = 1\n")
	f.Add("[[mark]]\nname = \"a\"\non = \"b\"\nagainst = \"c\"\noff = 400\nin = \"crank degrees\"\ncounts_two_turns = true\nstandard_uncertainty = 1e-3\n")
	f.Add("[[lobe]]\nname = \"a\"\non = \"b\"\nvalve = \"inlet\"\ntop_mm = 9.2\nopening = [[-12, 1.0, 0.2]]\nclosing = [[228, 1.0, 0.2], [230, 0.9, 1]]\nof_tdc = 0.1\nlimit = 2\n")
	f.Add("[[mark]]\nname = \"\\u202e\"\non = ''\noff = nan\nshould_be = 1\n")
	f.Add("[[cylinder]]\n")
	f.Fuzz(func(t *testing.T, text string) {
		known, err := knowngood.Parse("job.toml", []byte(text))
		if err != nil {
			requireMessage(t, err, []byte(text))
			return
		}
		require.Positive(t, len(known.Marks)+len(known.Lobes))
		for _, h := range known.Marks {
			require.NotEmpty(t, h.Name)
			require.Positive(t, float64(h.Uncertainty))
			require.LessOrEqual(t, h.OfTDC, h.Uncertainty)
			require.GreaterOrEqual(t, h.Engines, 1)
			requireFinite(t, float64(h.Angle), float64(h.Uncertainty), float64(h.Scatter), float64(h.Limit))
			require.Positive(t, float64(h.Estimate().Expanded))
		}
		again, err := knowngood.Parse("job.toml", known.Text(""))
		require.NoError(t, err, "%s", known.Text(""))
		require.Len(t, again.Marks, len(known.Marks))
		require.Len(t, again.Lobes, len(known.Lobes))
		require.Equal(t, known.Text(""), again.Text(""))
	})
}

// Whatever is in a stops file, it is read or refused in words.
func FuzzStops(f *testing.F) {
	f.Add("rising,falling\n-31.5,24.0\n# c\n31 BTDC,24 ATDC\n")
	f.Add("\ufeffFalling;Rising;note\r\n24,5;31°30' BTDC;x\r\n;\r\n")
	f.Add("rising\tfalling\n1\t\"2\n")
	f.Fuzz(func(t *testing.T, text string) {
		open := func(string) ([]byte, error) { return []byte(text), nil }
		j, err := job.Parse("job.toml", []byte("[[cylinder]]\nnumber = 1\nstops = \"job.toml\"\n"), open)
		if err != nil {
			text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
			if e, ok := errors.AsType[*source.Error](err); ok && e.Line == 3 && strings.HasPrefix(e.Problem, "stops = ") {
				return // said of the job file
			}
			requireMessage(t, err, []byte(text))
			return
		}
		require.NotEmpty(t, j.Cylinders[0].Stops)
		for _, s := range j.Cylinders[0].Stops {
			requireFinite(t, float64(s.Rising), float64(s.Falling))
		}
	})
}
