package mark_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// oneMark judges a mark on a bench's engine with TDC at 3 deg, each flank read so
// many times.
func oneMark(t *testing.T, s evidence.Setup, m mark.Mark, times int) mark.Judged {
	t.Helper()
	var read []evidence.Reading
	for k := range times { // each time at other lines of the protractor
		for _, r := range marktest.Readings(s, 3, 0, marktest.Quiet) {
			crank, err := s.Engine.SliderCrank()
			require.NoError(t, err)
			at := r.Angle - marktest.Deg(3) + geometry.Angle(k)*s.Protractor.Step
			read = append(read, evidence.Reading{Angle: at + marktest.Deg(3), Depth: crank.Drop(at), Turn: r.Turn})
		}
	}
	result := marktest.Found(t, s, read)
	f, err := mark.Judge(s, result, mark.Drive{Layout: "two cams"}, []mark.Mark{m})
	require.NoError(t, err)
	return f[0]
}

// As many more readings of a mark that scatters as are asked for settle it, and
// half as many do not.
func TestMoreReadingsOfTheMarkSettle(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.Error, s.Protractor.OffCentre = marktest.Deg(0.01), 0
	scattered := func(n int) (read []geometry.Angle) {
		for i := range n {
			read = append(read, marktest.Deg(3.5+0.45*float64(i%3-1))) // by more than the step of 0.5
		}
		return read
	}
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: scattered(3), Limit: marktest.Deg(1), HasLimit: true}
	f := oneMark(t, s, pin, 4)
	require.Equal(t, mark.TooClose, f.Verdict)
	more := f.ToSettle.(finding.MoreReadings)
	require.Zero(t, more.OfPiston)
	n := more.OfMark
	require.Greater(t, n, 1)
	pin.Read = scattered(3 + n/2)
	require.Equal(t, mark.TooClose, oneMark(t, s, pin, 4).Verdict)
	pin.Read = scattered(3 * ((3 + n + 2) / 3))
	require.Equal(t, mark.Within, oneMark(t, s, pin, 4).Verdict)
}

// A mark read the same each time is rounded the same each time: what would help is
// a finer protractor.
func TestMoreOfTheSameDoNotSettle(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.Error, s.Protractor.OffCentre = marktest.Deg(0.01), 0
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(3.8), marktest.Deg(3.8)}, Limit: marktest.Deg(1), HasLimit: true}
	f := oneMark(t, s, pin, 4)
	require.Equal(t, mark.TooClose, f.Verdict)
	require.Equal(t, finding.DoubtProtractor, f.ToSettle.(finding.NotByReadings).Doubt)
}

// Where TDC is what is unsure, the piston is to be read again: as many times on
// each side as there are settle this one, and a third of them do not.
func TestMoreReadingsOfThePistonSettle(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.OffCentre = 0
	s.Engine.OffsetStated, s.Engine.KnownTo.Offset = true, 0.01
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: slices.Repeat([]geometry.Angle{marktest.Deg(3)}, 400), Limit: marktest.Deg(0.5), HasLimit: true}
	s.Protractor.Error = marktest.Deg(0.6)
	wide := oneMark(t, s, pin, 1)
	narrow := oneMark(t, s, pin, 2)
	require.Less(t, narrow.Expanded, wide.Expanded)
	limit := narrow.Expanded + (wide.Expanded-narrow.Expanded)/20
	pin.Limit = limit
	f := oneMark(t, s, pin, 1)
	require.Equal(t, mark.TooClose, f.Verdict)
	more := f.ToSettle.(finding.MoreReadings)
	require.Zero(t, more.OfMark)
	// the flanks have six each; a twentieth less is asked than twelve give, and what may have
	// moved shrinks faster than the square root that is counted on
	require.InDelta(t, 6, more.OfPiston, 2)
	require.Equal(t, mark.Within, oneMark(t, s, pin, 2).Verdict)
}

// What readings cannot settle is said, with what stands in the way.
func TestWhatReadingsCannotSettle(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.Error = marktest.Deg(1)
	pin := mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(3.9)}, Limit: marktest.Deg(1), HasLimit: true}
	f := oneMark(t, s, pin, 1)
	doubt := f.ToSettle.(finding.NotByReadings)
	require.Equal(t, finding.DoubtProtractor, doubt.Doubt)
	require.InDelta(t, 0.1, doubt.Needed.Degrees(), 1e-6) // 1 less the 0.9 it is off by

	s = marktest.Bench()
	s.Gauge.Lash, s.Gauge.LashKnownTo = 0.3, 0.3
	s.Gauge.Error = 0.3 // mm: so that the readings cannot tell the lash
	s.Protractor.Error, s.Protractor.Step = marktest.Deg(0.01), marktest.Deg(0.1)
	f = oneMark(t, s, pin, 1)
	pin.Limit = f.Angle + marktest.Deg(0.02)
	doubt = oneMark(t, s, pin, 1).ToSettle.(finding.NotByReadings)
	require.Equal(t, finding.DoubtTDC, doubt.Doubt)
	require.Equal(t, adjust.LashSource, doubt.Source)

	s = marktest.Bench()
	pin.Limit = marktest.Deg(1)
	pin.Healthy = &mark.Healthy{Uncertainty: marktest.Deg(1), DegreesOfFreedom: 5}
	doubt = oneMark(t, s, pin, 1).ToSettle.(finding.NotByReadings)
	require.Equal(t, finding.DoubtHealthy, doubt.Doubt)
	require.Empty(t, doubt.Source)
	s.Engine.KnownTo.Offset = 12
	pin.Healthy, pin.Zero, pin.ShouldBe = nil, mark.Throw, 0
	require.Equal(t, finding.DoubtNominal, oneMark(t, s, pin, 1).ToSettle.(finding.NotByReadings).Doubt)

	pin = mark.Mark{Name: "pin", On: "flywheel", Read: []geometry.Angle{marktest.Deg(4)}, Limit: marktest.Deg(1), HasLimit: true}
	require.Equal(t, finding.OnItsLimit{Mark: finding.Mark{Name: "pin"}}, oneMark(t, marktest.Bench(), pin, 1).ToSettle)
	pin.Limit = marktest.Deg(5)
	require.Nil(t, oneMark(t, marktest.Bench(), pin, 1).ToSettle)
}

// A shift measured as well as is asked for is called, and one measured a tenth
// worse is not.
func TestBetterMeasuredSettles(t *testing.T) {
	for _, off := range []float64{0.8, 1.3} {
		flats := mark.Mark{
			Name: "flats", On: "inlet cam", Off: &mark.Shift{Value: off, Unit: mark.CrankDegrees, KnownTo: 0.9}, Limit: marktest.Deg(1), HasLimit: true,
		}
		f := oneMark(t, marktest.Bench(), flats, 1)
		half := f.ToSettle.(finding.MeasuredBetter).KnownTo.Degrees()
		flats.Off.KnownTo = half
		require.NotEqual(t, mark.TooClose, oneMark(t, marktest.Bench(), flats, 1).Verdict)
		flats.Off.KnownTo = 1.1 * half
		require.Equal(t, mark.TooClose, oneMark(t, marktest.Bench(), flats, 1).Verdict)
		flats.Healthy = &mark.Healthy{Measured: true, Uncertainty: marktest.Deg(2), DegreesOfFreedom: 5}
		require.IsType(t, finding.NoMeasurement{}, oneMark(t, marktest.Bench(), flats, 1).ToSettle)
	}
}
