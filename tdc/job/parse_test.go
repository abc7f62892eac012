package job_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/record"
	"evendrop/tdc/lobe"
	"evendrop/tdc/mark"
)

const deg = geometry.Degree

// parsed is a job file that must be read.
func parsed(t *testing.T, text string) job.Job {
	t.Helper()
	j, err := job.Parse("bench/job.toml", []byte(text), shelf)
	require.NoError(t, err)
	return j
}

// aCylinder makes a job file of the lines that a test is about.
const aCylinder = "\n[[cylinder]]\nnumber = 1\nstops = [[0, 0]]\n"

const everything = `
title = "Bench engine"
date = 2024-05-01
unit  = "mm"
[engine]
name = "1.6 petrol four"
bore = 79.0
stroke = 81.4
rod = 133.0
pin_offset = 0.8
bore_offset = -0.25
known_to = { stroke = 0.2, rod = 0.3, offset = 0.4 }
[protractor]
counts = "against"
wraps = 180
step = 1.0
error = 0.125
off_centre = 0.3
radius = 120.0
[gauge]
kind = "rod"
counts = "up"
step = 0.02
error = 0.03
scale_known_to = 0.04
lash = 0.07
lash_known_to = 0.08
[[cylinder]]
number = 3
throw = "90 BTDC"
readings = "half.csv"
stops = [[-31.5, 24.0], ["30 BTDC", "24°30' ATDC"]]
[[cylinder]]
number = 1
dwell = [{ still = -6.0, moves = 9.0, turn = "backward" }, { still = 5, moves = 8 }]
[drive]
layout = "two cams"
crank_sprocket = 21
crank_wheel = "60-2"
crank_wheel_on = "pulley"
cam_wheel_on = "sprocket"
flywheel_bolts = 8
[[mark]]
name = "locking pin hole"
on = "flywheel"
read = [3.0, "4 ATDC"]
should_be = "50 BTDC"
zero = "throw"
limit = 1.0
source = "maker's manual"
[[mark]]
name = "inlet cam lock flats"
on = "inlet cam"
against = "crank"
off = -4.5
in = "mm chord"
radius = 21.0
known_to = 0.5
certain = true
[[lobe]]
name = "inlet lobe"
on = "inlet cam"
valve = "inlet"
cylinder = 3
set = 2
readings = "inlet.csv"
lift = "0.05 in"
opens = "12 BTDC"
closes = "48 ABDC"
top = 6.1
limit = 2.0
source = "cam card"
ratio = 1.5
lash = 0.25
slack = 0.5
gauge = { step = 0.02, error = 0.03, runout = 0.05, scale_known_to = 0.01 }
[[lobe]]
name = "exhaust lobe"
on = "exhaust cam"
valve = "exhaust"
readings = "inlet.csv"
lift = 1
centre = "110 BTDC"
`

// lifts is inlet.csv on the protractor of everything.
var lifts = []lobe.Reading{
	{Angle: -148.5 * deg, Lift: 0.76, Turn: evidence.Forward, File: "bench/inlet.csv", Line: 2},
	{Angle: -150 * deg, Lift: 1.02, Turn: evidence.Forward, File: "bench/inlet.csv", Line: 3},
}

func TestParseEverything(t *testing.T) {
	require.Equal(t, job.Job{
		File: "bench/job.toml", Title: "Bench engine", Date: "2024-05-01", Unit: "mm",
		Setup: evidence.Setup{
			Engine: evidence.Engine{
				Name: "1.6 petrol four", Bore: 79, Stroke: 81.4, Rod: 133, PinOffset: 0.8, BoreOffset: -0.25,
				KnownTo: evidence.KnownTo{Stroke: 0.2, Rod: 0.3, Offset: 0.4}, OffsetStated: true,
			},
			Protractor: evidence.Protractor{
				Sense: evidence.Against, Scale: evidence.Halves, Step: 1 * deg, Error: 0.125 * deg, OffCentre: 0.3, Radius: 120,
			},
			Gauge: evidence.Gauge{
				Kind: evidence.DepthRod, Counts: evidence.Up, Step: 0.02, Error: 0.03, ScaleKnownTo: 0.04, Lash: 0.07, LashKnownTo: 0.08,
			},
		},
		Cylinders: []evidence.Cylinder{
			{Number: 1, Dwell: []evidence.DwellPair{
				{Still: 6 * deg, Moves: -9 * deg, Turn: evidence.Backward}, {Still: -5 * deg, Moves: -8 * deg, Turn: evidence.Forward},
			}},
			{
				Number: 3, Throw: -90 * deg,
				Readings: []evidence.Reading{{
					Angle: -148.5 * deg, Depth: -3.29, Turn: evidence.Forward, File: "bench/half.csv", Line: 3,
				}},
				Stops: []evidence.Stop{{Rising: 31.5 * deg, Falling: -24 * deg}, {Rising: -30 * deg, Falling: 24.5 * deg}},
			},
		},
		ReadingsFiles: map[int]string{3: "bench/half.csv"},
		LobeFiles:     []string{"bench/inlet.csv", "bench/inlet.csv"},
		Sheet:         record.Sheet{Date: "2024-05-01"},
		Drive: mark.Drive{
			Layout: "two cams", CrankSprocket: 21, CrankWheel: "60-2", CrankPitches: 60, CrankWheelOn: "pulley", CamWheelOn: "sprocket",
			FlywheelBolts: 8,
		},
		Marks: []mark.Mark{
			{
				Name: "locking pin hole", On: "flywheel", Read: []geometry.Angle{-3 * deg, 4 * deg}, ShouldBe: -50 * deg,
				Zero: mark.Throw, Limit: 1 * deg, HasLimit: true, Source: "maker's manual",
			},
			{
				Name: "inlet cam lock flats", On: "inlet cam", Against: "crank", Certain: true,
				Off: &mark.Shift{Value: -4.5, Unit: mark.Chord, Radius: 21, KnownTo: 0.5},
			},
		},
		Lobes: []lobe.Lobe{
			{
				Name: "inlet lobe", On: "inlet cam", Valve: lobe.Inlet, Cylinder: 3, Set: 2, Readings: lifts, Limit: 2 * deg, HasLimit: true, Source: "cam card",
				Card:  lobe.Card{Lift: 1.27, HasEvents: true, Opens: -12 * deg, Closes: 228 * deg, Top: 6.1},
				Ratio: 1.5, Lash: 0.25, Slack: 0.5 * deg, Gauge: lobe.Gauge{Step: 0.02, Error: 0.03, RunOut: 0.05, ScaleKnownTo: 0.01},
			},
			{
				Name: "exhaust lobe", On: "exhaust cam", Valve: lobe.Exhaust, Cylinder: 1, Readings: lifts,
				Card: lobe.Card{Lift: 1, HasCentre: true, Centre: -110 * deg}, Gauge: lobe.DefaultGauge(),
			},
		},
	}, parsed(t, everything).WithoutLines())
}

func TestParseNextToNothing(t *testing.T) {
	require.Equal(t, job.Job{
		File: "bench/job.toml", Unit: "mm",
		Setup: evidence.Setup{
			Engine:     evidence.Engine{KnownTo: evidence.DefaultKnownTo(false)},
			Protractor: evidence.DefaultProtractor(),
			Gauge:      evidence.DefaultGauge(evidence.Dial),
		},
		Cylinders: []evidence.Cylinder{{Number: 1, Stops: []evidence.Stop{{}}}},
	}, parsed(t, aCylinder))
}

// Every bare length is in inches then, a length with its own unit is not, and
// neither is a chord in millimetres.
func TestParseInches(t *testing.T) {
	j := parsed(t, `
unit = "in"
[engine]
bore = 3
stroke = "81.4 mm"
rod = 5.5
pin_offset = 0.125
bore_offset = 0.25
known_to = { stroke = 0.5, rod = 0.25, offset = 0.125 }
[protractor]
off_centre = 0.25
radius = 4
[gauge]
step = 0.001
error = 0.002
lash = 0.003
lash_known_to = 0.004
[[cylinder]]
number = 1
readings = "ok.csv"
[[mark]]
name = "flats"
on = "inlet cam"
off = 2
in = "mm chord"
radius = 0.5
known_to = 0.5`)
	const in = geometry.Inch
	e := j.Setup.Engine
	require.Equal(t, "in", j.Unit)
	require.Equal(t, []geometry.Length{3 * in, 81.4, 5.5 * in, 0.125 * in, 0.25 * in},
		[]geometry.Length{e.Bore, e.Stroke, e.Rod, e.PinOffset, e.BoreOffset})
	require.Equal(t, evidence.KnownTo{Stroke: 0.5 * in, Rod: 0.25 * in, Offset: 0.125 * in}, e.KnownTo)
	p, g := j.Setup.Protractor, j.Setup.Gauge
	require.Equal(t, []geometry.Length{0.25 * in, 4 * in, 0.001 * in, 0.002 * in, 0.003 * in, 0.004 * in},
		[]geometry.Length{p.OffCentre, p.Radius, g.Step, g.Error, g.Lash, g.LashKnownTo})
	require.Equal(t, geometry.Length(3.29)*in, j.Cylinders[0].Readings[0].Depth)
	require.Equal(t, &mark.Shift{Value: 2, Unit: mark.Chord, Radius: 0.5 * in, KnownTo: 0.5}, j.Marks[0].Off)
}

func TestParseDefaultsOfGauges(t *testing.T) {
	for _, kind := range []evidence.GaugeKind{evidence.Dial, evidence.DepthRod, evidence.Borescope} {
		want := evidence.DefaultGauge(kind)
		want.Lash = 0.5
		// The kind counts wherever it stands.
		require.Equal(t, want, parsed(t, "[gauge]\nlash = 0.5\nkind = \""+string(kind)+"\""+aCylinder).Setup.Gauge)
	}
}

func TestParseDefaultsOfOffset(t *testing.T) {
	for text, want := range map[string]evidence.KnownTo{
		"":                                evidence.DefaultKnownTo(false),
		"pin_offset = 0":                  evidence.DefaultKnownTo(true),
		"bore_offset = 0":                 evidence.DefaultKnownTo(true),
		"known_to = { rod = 3 }":          {Stroke: evidence.DefaultKnownTo(false).Stroke, Rod: 3, Offset: evidence.DefaultKnownTo(false).Offset},
		"known_to = { }\npin_offset = -1": evidence.DefaultKnownTo(true),
	} {
		require.Equal(t, want, parsed(t, "[engine]\n"+text+aCylinder).Setup.Engine.KnownTo, text)
	}
}

func TestParseReadOnProtractor(t *testing.T) {
	for _, c := range []struct {
		protractor, read string
		want             geometry.Angle
	}{
		{``, `348.5`, 348.5},
		{``, `"348,5"`, 348.5},
		{``, `-11.5`, -11.5},
		{``, `"11.5 BTDC"`, -11.5},
		{`counts = "with"`, `12`, 12},
		{`counts = "against"`, `12`, -12},
		{`counts = "against"`, `"12 BTDC"`, -12},
		{`counts = "against"`, `"12 ATDC"`, 12},
		{`wraps = 180`, `-170.25`, -170.25},
		{`wraps = 180`, `"170.25 BTDC"`, -170.25},
		{`wraps = 90`, `"80 BTDC"`, -80},
		{`wraps = 90`, `"80 ATDC"`, 80},
		{`wraps = 90`, `0`, 0},
		{`wraps = 360.0`, `1e2`, 100},
	} {
		// The marks stand above the protractor that they were read on.
		text := "[[mark]]\nname = \"pin\"\non = \"crank\"\nread = " + c.read + "\n[protractor]\n" + c.protractor + aCylinder
		require.Equal(t, []geometry.Angle{c.want * deg}, parsed(t, text).Marks[0].Read, text)
	}
}

func TestParseJoints(t *testing.T) {
	j := parsed(t, `
[[joint]]
carried = "crank sprocket"
carrier = "crank"
[[joint]]
carried = "cam sprocket"
carrier = "crank sprocket"
kind = "drive"
teeth = 19
[[joint]]
carried = "cam"
carrier = "cam sprocket"
kind = "joint"`+aCylinder)
	require.Equal(t, mark.Drive{Joints: []mark.Joint{
		{Carried: "crank sprocket", Carrier: "crank"},
		{Carried: "cam sprocket", Carrier: "crank sprocket", Drive: true, Teeth: 19},
		{Carried: "cam", Carrier: "cam sprocket"},
	}}, j.Drive)
}

func TestParseShifts(t *testing.T) {
	for text, want := range map[string]mark.Shift{
		`off = 1.5` + "\n" + `in = "crank degrees"`:                  {Value: 1.5, Unit: mark.CrankDegrees},
		`off = -2` + "\n" + `in = "cam degrees"`:                     {Value: -2, Unit: mark.CamDegrees},
		`off = 1` + "\n" + `in = "teeth"` + "\npitches = 42":         {Value: 1, Unit: mark.Teeth, Pitches: 42},
		`off = 0.5` + "\n" + `in = "mm arc"` + "\nradius = \"2 in\"": {Value: 0.5, Unit: mark.Arc, Radius: 2 * geometry.Inch},
		`off = 42` + "\n" + `in = "mm chord"` + "\nradius = 21":      {Value: 42, Unit: mark.Chord, Radius: 21},
	} {
		j := parsed(t, "[[mark]]\nname = \"a\"\non = \"b\"\n"+text+aCylinder)
		require.Equal(t, &want, j.Marks[0].Off, text)
		require.False(t, j.Marks[0].HasLimit)
	}
}

// What lies just within its limits is taken.
func TestParseLimits(t *testing.T) {
	j := parsed(t, `
[engine]
stroke = 81.4
rod = 45
bore_offset = 4.25
[protractor]
step = 360
error = 0
wraps = 720
off_centre = 99.9
[gauge]
step = 0
error = 1e-5
scale_known_to = 0.999
[drive]
crank_sprocket = 1000
crank_wheel = "1000-998"
flywheel_bolts = 1
[[mark]]
name = "pin"
on = "crank"
read = 720
should_be = -720
limit = 0
[[cylinder]]
number = 99
throw = 720
stops = [[0, 0]]`)
	require.Equal(t, geometry.Length(4.25), j.Setup.Engine.Offset())
	require.Equal(t, 360*deg, j.Setup.Protractor.Step)
	require.Equal(t, geometry.Length(1e-5), j.Setup.Gauge.Error)
	require.Equal(t, mark.Drive{CrankSprocket: 1000, CrankWheel: "1000-998", CrankPitches: 1000, FlywheelBolts: 1}, j.Drive)
	require.Equal(t, 99, j.Cylinders[0].Number)
	require.Equal(t, []mark.Mark{{
		Name: "pin", On: "crank", Read: []geometry.Angle{720 * deg}, ShouldBe: -720 * deg, HasLimit: true,
	}}, j.Marks)
}

// The same job may be written in every way that TOML has.
func TestParseTOML(t *testing.T) {
	want := parsed(t, "[engine]\nrod = 133\nknown_to = { rod = 0.25 }\n[[cylinder]]\nnumber = 1\nstops = [[0, 0]]\n")
	for _, text := range []string{
		"engine.rod = 133\nengine.known_to.rod = 0.25\ncylinder = [{ number = 1, stops = [[0, 0]] }]",
		"engine = { rod = 133, known_to = { rod = 0.25 } }" + aCylinder,
		"[engine.known_to]\nrod = 0.25\n[engine]\nrod = 1.33e2" + aCylinder,
		"[ engine ] # with a comment\r\n\"rod\" = 1_33.0\r\n'known_to'.rod = '''0,25'''\r\n" + aCylinder,
		"\ufeff[engine]\nrod = \"133 mm\"\nknown_to.rod = +0.25" + aCylinder,
		"[engine]\nrod = 133\nknown_to = {\n  rod = 0.25, # that well\n}\n[[cylinder]]\nnumber = 1\nstops = [\n  # one\n  [0, 0,],\n]",
	} {
		require.Equal(t, want, parsed(t, text), text)
	}
}

// The crank wheel may be any that edges takes; pitches count its gaps (60-2 and
// 36-2-2-2: 60 and 36, common practice, no source).
func TestCrankWheels(t *testing.T) {
	for text, pitches := range map[string]int{"60-2": 60, "36-2-2-2": 36, "4-1": 4, "57x6,18": 60} {
		j := parsed(t, "[drive]\ncrank_wheel = \""+text+"\"\n"+aCylinder)
		require.Equal(t, text, j.Drive.CrankWheel)
		require.Equal(t, pitches, j.Drive.CrankPitches)
	}
}

// A mark's nominal may be unknown.
func TestUnknownShouldBe(t *testing.T) {
	told := parsed(t, "[[mark]]\nname = \"gap\"\non = \"crank wheel\"\nread = 3\nafter_reading = 0\n"+aCylinder).Marks[0]
	require.Equal(t, 0, *told.After)
	j := parsed(t, "[[mark]]\nname = \"gap\"\non = \"crank wheel\"\nread = 3\nshould_be = \"unknown\"\nlimit = 1\n"+aCylinder)
	require.Nil(t, j.Marks[0].After, "nobody said")
	require.True(t, j.Marks[0].Unknown)
	require.Zero(t, j.Marks[0].ShouldBe)
}
