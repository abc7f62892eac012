package mark_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/adjust/position"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/marktest"
)

// What two marks share is what they do share when the readings of TDC scatter
// and the marks themselves are read without error.
func TestSharedIsTheCovariance(t *testing.T) {
	const seed, draws = 20240301, 400
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	s := marktest.Bench()
	places := [][]geometry.Angle{{marktest.Deg(4)}, {marktest.Deg(100)}}
	var sum, square float64
	var sums [2]float64
	for range draws {
		r := marktest.Found(t, s, marktest.Readings(s, 3, 0, rng.NormFloat64))
		a, b := r.After(places[0]).Angle, r.After(places[1]).Angle
		sums[0] += a.Radians() - marktest.Deg(1).Radians()
		sums[1] += b.Radians() - marktest.Deg(97).Radians()
		sum += (a.Radians() - marktest.Deg(1).Radians()) * (b.Radians() - marktest.Deg(97).Radians())
		square += math.Pow(a.Radians()-marktest.Deg(1).Radians(), 2)
	}
	sum = (sum - sums[0]*sums[1]/draws) / (draws - 1)
	r := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	near, far := r.After(places[0]), r.After(places[1])
	// beside the readings' scatter, drawn above, a smooth error of the protractor: 1 deg
	// and 97 deg from TDC it differs, and at places 96 deg apart it is less alike
	own := math.Pow(float64(s.Protractor.Error), 2) / 3
	smooth := own * (1 - math.Exp(-1./90) - math.Exp(-97./90) + math.Exp(-96./90))
	// a variance from 400 draws is known to sqrt(2/400) = 7 %: three of them
	require.InEpsilon(t, near.Covariance(far)-smooth, sum, 0.21)
	require.InEpsilon(t, near.Covariance(far), far.Covariance(near), 1e-12)
	require.Greater(t, smooth, 0.001*sum)
}

// Two marks at one line of the protractor share its error there, and all but their own
// rounding: then as much as either is unsure by, less that.
func TestMarksAtOneLineShareItsError(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	at := func(deg float64) position.Seen { return r.After([]geometry.Angle{marktest.Deg(deg)}) }
	variance := math.Pow(at(80).Spread().Standard(), 2)
	rounding := math.Pow(float64(s.Protractor.Step), 2) / 12
	require.InEpsilon(t, variance-rounding, at(80).Covariance(at(80.1)), 1e-3) // of 0.1 deg they still differ
	error := math.Pow(float64(s.Protractor.Error), 2) / 3
	apart := at(80).Covariance(at(80.1)) - at(80).Covariance(at(80.6))
	require.InEpsilon(t, error, apart, 0.02) // and of half a degree
	// at a line where the piston was read, the readings share it: 31 deg after TDC one was
	// read, and the mark answers to it as TDC does, found by reading it a little otherwise
	const by = 0.001
	moved := marktest.Readings(s, 3, 0, marktest.Quiet)
	moved[len(moved)-1].Angle += marktest.Deg(by)
	answer := (marktest.Found(t, s, moved).After([]geometry.Angle{marktest.Deg(34)}).Angle - at(34).Angle).Degrees() / by
	square := func(deg float64) float64 { return math.Pow(at(deg).Spread().Standard(), 2) }
	require.Greater(t, math.Abs(answer), 0.02)
	require.InDelta(t, 2*answer*error, square(34)-(square(33.4)+square(34.6))/2, 0.1*math.Abs(2*answer*error)) // half a degree either way none was read
}

// few is as many of the readings as are too few to tell worn bearings from the lash
// stated: with more, the answer averages both.
func few(read []evidence.Reading) []evidence.Reading { return read[2:9] }

// Lash that is more than expected makes every mark early by the same, as its
// shared part tells: the half-width, so sqrt(3) standard uncertainties.
func TestSharedTellsOfLash(t *testing.T) {
	s := marktest.Bench()
	s.Gauge.Lash, s.Gauge.LashKnownTo, s.Protractor.OffCentre = 0.06, 0.03, 0
	at := []geometry.Angle{marktest.Deg(3)}
	expected := marktest.Found(t, s, few(marktest.Readings(s, 3, 0.06, marktest.Quiet))).After(at)
	after := marktest.Found(t, s, few(marktest.Readings(s, 3, 0.09, marktest.Quiet))).After(at)
	require.Less(t, float64(after.Angle), float64(expected.Angle))
	require.InEpsilon(t, float64(expected.Angle-after.Angle), math.Sqrt(3)*slices.Max(expected.Spread().Rectangular[:2]), 0.02) // to first order
}

// Marks read on one protractor move together when TDC was found wrong by lash: of
// 1.7 standard uncertainties each, five that shared nothing would be 15 of
// chi-square, past the 11.1 of 5 %; as one error they are no finding.
func TestSharedLashCondemnsNoJoint(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.Step, s.Protractor.Error, s.Protractor.OffCentre = marktest.Deg(0.01), marktest.Deg(0.01), 0
	s.Engine.KnownTo.Offset = 0.01
	s.Gauge.Lash, s.Gauge.LashKnownTo = 0.06, 0.06
	result := marktest.Found(t, s, few(marktest.Readings(s, 3, 0.215, marktest.Quiet)))
	var list []mark.Mark
	for _, name := range []string{"first", "second", "third", "fourth", "fifth"} {
		list = append(list, mark.Mark{Name: name, On: "flywheel", Read: []geometry.Angle{marktest.Deg(3)}, Limit: marktest.Deg(0.02), HasLimit: true})
	}
	findings, err := mark.Judge(s, result, mark.Drive{}, list)
	require.NoError(t, err)
	apart := math.Pow(float64(findings[0].Angle/findings[0].Uncertainty), 2)
	require.Greater(t, 5*apart, 11.1)
	require.Equal(t, mark.TooClose, findings[0].Verdict)
	require.InDelta(t, math.Abs(findings[0].Angle.Degrees())-0.02, findings[0].Settles.Degrees(), 1e-12)
	d, err := joint.Explain(s, mark.Drive{}, findings, nil)
	require.NoError(t, err)
	require.Zero(t, d.Tried)
	// off^2 / (shared + (own + built)/5), own being the rounding, and built where within
	// its limit a mark was made; the protractor's error at the one line they share
	own, built := 0.01*0.01/12, 0.02*0.02/3
	u := math.Pow(findings[0].Uncertainty.Degrees(), 2) - own + (own+built)/5
	require.InEpsilon(t, math.Pow(findings[0].Angle.Degrees(), 2)/u, d.Explanations[0].ChiSquare, 1e-6)
}

// A shift as written, in crank degrees: arithmetic, with the sprocket of 42 teeth
// on the cam and 21 on the crank (one tooth 360/21 = 17.142857), and a wheel of
// 60 pitches.
func TestShiftsInCrankDegrees(t *testing.T) {
	drive := mark.Drive{Layout: "two cams", CrankSprocket: 21, CrankWheel: "60-2", CrankPitches: 60}
	for _, c := range []struct {
		name, on, against string
		off               mark.Shift
		want              float64
	}{
		{"crank degrees stay", "inlet cam", "", mark.Shift{Value: -3, Unit: mark.CrankDegrees}, -3},
		{"cam degrees double", "inlet cam", "", mark.Shift{Value: -3, Unit: mark.CamDegrees}, -6},
		{"a tooth of the cam's sprocket", "inlet sprocket", "", mark.Shift{Value: 1, Unit: mark.Teeth, Pitches: 42}, 17.142857},
		{"a tooth of the crank's sprocket", "inlet sprocket", "", mark.Shift{Value: 1, Unit: mark.Teeth, Pitches: 21}, 17.142857},
		{"two teeth of the crank wheel", "crank wheel", "", mark.Shift{Value: 2, Unit: mark.Teeth, Pitches: 60}, 12},
		{"the same seen from the cam", "inlet wheel", "crank wheel", mark.Shift{Value: -2, Unit: mark.Teeth, Pitches: 60}, -12},
		{"a cam wheel's own tooth", "inlet wheel", "crank wheel", mark.Shift{Value: 1, Unit: mark.Teeth, Pitches: 36}, 20},
		{"10 mm of rim at radius 65", "pulley", "", mark.Shift{Value: 10, Unit: mark.Arc, Radius: 65}, 8.8147},
		{"10 mm across at radius 65", "pulley", "", mark.Shift{Value: 10, Unit: mark.Chord, Radius: 65}, 8.8235},
		{"10 mm of rim at radius 140", "flywheel", "", mark.Shift{Value: 10, Unit: mark.Arc, Radius: 140}, 4.0926},
		{"10 mm across at radius 140", "flywheel", "", mark.Shift{Value: 10, Unit: mark.Chord, Radius: 140}, 4.0934},
		{"50 mm of rim at radius 80", "pulley", "", mark.Shift{Value: 50, Unit: mark.Arc, Radius: 80}, 35.8099},
		{"50 mm across at radius 80, on a cam", "exhaust cam", "", mark.Shift{Value: 50, Unit: mark.Chord, Radius: 80}, 2 * 36.4199},
		{"a crank comes round", "flywheel", "", mark.Shift{Value: 350, Unit: mark.CrankDegrees}, -10},
		{"a cam only after two turns", "inlet cam", "", mark.Shift{Value: 175, Unit: mark.CamDegrees}, 350},
		{"and then does", "inlet cam", "", mark.Shift{Value: 350, Unit: mark.CamDegrees}, -20},
	} {
		f, err := mark.Judge(marktest.Bench(), tdc.Result{}, drive, []mark.Mark{{Name: c.name, On: c.on, Against: c.against, Off: &c.off}})
		require.NoError(t, err, c.name)
		require.InDelta(t, c.want, f[0].Angle.Degrees(), 5e-5, c.name) // the printed digits
	}
}

// Half-widths go the way of the shift: half a millimetre across at radius 21 is
// some 2*0.5/21 rad of crank on a cam; what nobody stated is half a degree, said.
func TestHalfWidths(t *testing.T) {
	drive := mark.Drive{Layout: "two cams"}
	judge := func(off mark.Shift) mark.Judged {
		f, err := mark.Judge(marktest.Bench(), tdc.Result{}, drive, []mark.Mark{{Name: "flats", On: "inlet cam", Off: &off}})
		require.NoError(t, err)
		return f[0]
	}
	across := judge(mark.Shift{Value: 4, Unit: mark.Chord, Radius: 21, KnownTo: 0.5})
	farther, err := mark.Turn(4.5, mark.Chord, 0, 21)
	require.NoError(t, err)
	stated, err := mark.Turn(4, mark.Chord, 0, 21)
	require.NoError(t, err)
	require.InDelta(t, 2*(farther-stated).Degrees()/math.Sqrt(3), across.Uncertainty.Degrees(), 1e-12)
	require.Empty(t, across.Notes)
	unsaid := judge(mark.Shift{Value: 40, Unit: mark.CrankDegrees})
	require.InDelta(t, 0.5/math.Sqrt(3), unsaid.Uncertainty.Degrees(), 1e-12)
	require.InDelta(t, 0.5, unsaid.Notes[0].(finding.KnownToAssumed).KnownTo.Degrees(), 1e-12)
}

// A pin read 2.4 deg early on an engine of which nobody stated an offset may
// count from the throw: asin(8/189) = 2.426 deg. With the offset stated as
// nought it may not; stated as 8 mm, a pin whose nominal counts from the throw
// is not off at all.
func TestOffsetOrSlip(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(3 - 2.426)}}
	judge := func(s evidence.Setup, m mark.Mark) mark.Judged {
		f, err := mark.Judge(s, result, mark.Drive{}, []mark.Mark{m})
		require.NoError(t, err)
		return f[0]
	}
	made := func(s evidence.Setup, m mark.Mark, off, offset float64, stated bool) {
		o := judge(s, m).Notes[0].(finding.OffsetMakes)
		require.Equal(t, "pin", o.About())
		require.InDelta(t, off, o.Marks[0].Off.Degrees(), 0.05)
		require.InDelta(t, offset, o.Offset.Millimetres(), 0.2)
		require.Equal(t, stated, o.Stated)
	}
	made(s, pin, -2.426, 8, false)
	late := pin
	late.Read = []geometry.Angle{marktest.Deg(3 + 2.426)}
	require.Empty(t, judge(s, late).Notes, "a pin offset by 8 mm, and no bore is offset that way")
	late.Read = []geometry.Angle{marktest.Deg(3 + 0.576)} // asin(1.9/189)
	made(s, late, 0.576, -1.9, false)
	late.Read = []geometry.Angle{marktest.Deg(3 + 0.637)} // of 2.1 mm
	require.Empty(t, judge(s, late).Notes)
	large := s
	large.Engine.Stroke, large.Engine.Rod = 200, 350
	pin.Read = []geometry.Angle{marktest.Deg(3 - 1.783)} // asin(14/450)
	made(large, pin, -1.783, 14, false)
	pin.Read = []geometry.Angle{marktest.Deg(3 - 2.038)} // of 16 mm
	require.Empty(t, judge(large, pin).Notes)
	pin.Read = []geometry.Angle{marktest.Deg(3 - 2.426)}
	far := pin
	far.Read = []geometry.Angle{marktest.Deg(3 - 12)}
	require.Empty(t, judge(s, far).Notes, "no engine has an offset of 39 mm on 86 of stroke")
	near := pin
	near.Read = []geometry.Angle{marktest.Deg(3 - 0.1)}
	require.Empty(t, judge(s, near).Notes)

	fine := mark.Mark{Name: "pin", On: "flywheel", Off: &mark.Shift{Value: -0.25, Unit: mark.CrankDegrees, KnownTo: 0.05}}
	require.Empty(t, judge(s, fine).Notes, "0.8 mm is an offset that many engines have, and a quarter of a degree nobody asks about")

	s.Engine.OffsetStated, s.Engine.KnownTo = true, evidence.DefaultKnownTo(true)
	require.Empty(t, judge(s, pin).Notes)
	s.Engine.BoreOffset = 8
	made(s, pin, -2.426, 8, true)
	pin.Zero = mark.Throw
	require.InDelta(t, 0, judge(s, pin).Angle.Degrees(), 0.005) // the fit saw no offset in these depths
	require.Empty(t, judge(s, pin).Notes)
	pin.Read = []geometry.Angle{marktest.Deg(3)} // counts from the piston after all
	made(s, pin, 2.426, 8, true)
}

// Two marks that count from the throw share the doubt in the offset.
func TestThrowMarksShareTheOffset(t *testing.T) {
	s := marktest.Bench()
	s.Engine.OffsetStated, s.Engine.BoreOffset, s.Engine.KnownTo.Offset = true, 8, 3
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	var list []mark.Mark
	for _, on := range []string{"flywheel", "pulley", "crank wheel"} {
		list = append(list, mark.Mark{Name: on + " mark", On: on, Zero: mark.Throw, Read: []geometry.Angle{marktest.Deg(3 - 2.426 + 0.5)}})
	}
	findings, err := mark.Judge(s, result, mark.Drive{}, list)
	require.NoError(t, err)
	d, err := joint.Explain(s, mark.Drive{}, findings, nil)
	require.NoError(t, err)
	require.Zero(t, d.Tried)
	// 3 mm on 189 is 0.909 deg, so 0.5 is about one standard uncertainty: chi-square
	// is about 1 for what the three agree on, and would be 3 were it three errors.
	require.InDelta(t, 1, d.Explanations[0].ChiSquare, 0.2)
}

// Read on a scale of two turns, a cam half a turn out shows a whole turn of the
// crank; on a scale of one nobody can tell.
func TestReadOnTwoTurns(t *testing.T) {
	s := marktest.Bench()
	result := marktest.Found(t, s, marktest.Readings(s, 3, 0, marktest.Quiet))
	judge := func(on string, read float64) float64 {
		f, err := mark.Judge(s, result, mark.Drive{Layout: "one cam"}, []mark.Mark{{Name: "lock", On: on, Read: []geometry.Angle{marktest.Deg(read)}}})
		require.NoError(t, err)
		return f[0].Angle.Degrees()
	}
	require.InDelta(t, 360, math.Abs(judge("cam", 363)), 1e-6)
	require.InDelta(t, -5, judge("cam", 358), 1e-6)
	require.InDelta(t, -5, judge("cam", 358+360), 1e-6)
	require.InDelta(t, 357, judge("cam", 360), 1e-6)
	require.InDelta(t, 0, judge("flywheel", 363), 1e-6)
}
