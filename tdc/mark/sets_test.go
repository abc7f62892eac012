package mark_test

import (
	"math"
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

// readInSets is a bench's piston read in sets, TDC at each of tops on the protractor.
func readInSets(s evidence.Setup, tops ...float64) (read []evidence.Reading) {
	for i, top := range tops {
		for _, r := range marktest.Readings(s, top, 0, marktest.Quiet) {
			r.Set = i + 1
			read = append(read, r)
		}
	}
	return read
}

// in is a position as a set has it.
func in(t *testing.T, r tdc.Result, set int, at float64) position.Seen {
	t.Helper()
	of, known := r.OfSet(set)
	require.True(t, known)
	return of.After([]geometry.Angle{marktest.Deg(at)})
}

// sharing is a bench with nothing to share between sets but the protractor: its ranges so
// narrow that they make no difference.
func sharing() evidence.Setup {
	s := marktest.Bench()
	s.Engine.OffsetStated = true
	s.Engine.KnownTo = evidence.KnownTo{Stroke: 1e-6, Rod: 1e-6, Offset: 1e-6}
	s.Gauge.ScaleKnownTo, s.Protractor.OffCentre = 1e-6, 1e-6
	return s
}

// Between two sets a protractor without lines shares its smooth part alone: what it is
// wrong by at each mark less at each TDC, all at places on one curve.
func TestSetsShareOneCurve(t *testing.T) {
	s := sharing()
	s.Protractor.Step = 0
	r := marktest.Found(t, s, readInSets(s, 3, 63))
	own := math.Pow(float64(s.Protractor.Error), 2) / 3
	alike := func(apart float64) float64 { return own * math.Exp(-math.Abs(apart)/90) }
	for _, c := range []struct{ first, second float64 }{{24, 84}, {93, 153}, {24, 24}, {63, 3}, {-40, 200}} {
		// (e(m1) - e(T1)) (e(m2) - e(T2)), each product by how alike the two places are
		apart := func(a, b float64) float64 { return math.Remainder(a-b, 360) }
		want := alike(apart(c.first, c.second)) - alike(apart(c.first, 63)) - alike(apart(3, c.second)) + alike(apart(3, 63))
		got := in(t, r, 1, c.first).Covariance(in(t, r, 2, c.second))
		require.InDelta(t, want, got, 0.002*own, "%v", c) // TDC as found, and ranges of a millionth
		require.InEpsilon(t, got, in(t, r, 2, c.second).Covariance(in(t, r, 1, c.first)), 1e-12)
	}
}

// At one line the protractor is wrong by the same in every set: of two marks that share it,
// and of a mark that stands where the other set's piston was read.
func TestSetsShareTheLines(t *testing.T) {
	s := sharing()
	r := marktest.Found(t, s, readInSets(s, 3, 63))
	own := math.Pow(float64(s.Protractor.Error), 2) / 3
	first := func(at float64) position.Seen { return in(t, r, 1, at) }
	second := in(t, r, 2, 200)
	neighbour := second.Covariance(first(200.6))
	require.InEpsilon(t, own, second.Covariance(first(200.1))-neighbour, 0.02) // half a degree on, the smooth part is a little less alike
	// where the second piston was read, 15 deg after its TDC: by how much its mark answers to
	// that reading, found by reading it a little otherwise
	const by = 0.001
	moved := readInSets(s, 3, 63)
	for i := range moved {
		if moved[i].Set == 2 && math.Abs(moved[i].Angle.Degrees()-78) < 1e-6 {
			moved[i].Angle += marktest.Deg(by)
		}
	}
	answer := (in(t, marktest.Found(t, s, moved), 2, 200).Angle - second.Angle).Degrees() / by
	require.Greater(t, math.Abs(answer), 0.02)
	beside := (second.Covariance(first(77.4)) + second.Covariance(first(78.6))) / 2 // half a degree either way none was read
	require.InDelta(t, answer*own, second.Covariance(first(78))-beside, 0.05*math.Abs(answer)*own)
}

// An offset is the engine's in every set: as wide of its mean as it may be, it moves what
// each set has by so much, and what they share is the product of the two, a third of it as
// a range has. The wheel's centre is elsewhere in each set, and shares nothing.
func TestSetsShareTheEngine(t *testing.T) {
	s := sharing()
	s.Protractor.Error = marktest.Deg(1e-6)
	between := func(s evidence.Setup) float64 {
		r := marktest.Found(t, s, readInSets(s, 3, 93))
		return in(t, r, 1, 8).Covariance(in(t, r, 2, 98))
	}
	alone := between(s)
	s.Engine.KnownTo.Offset = 2
	truly := s
	truly.Engine.BoreOffset = s.Engine.KnownTo.Offset
	crank, err := truly.Engine.SliderCrank()
	require.NoError(t, err)
	read := readInSets(s, 3, 93)
	straight := marktest.Found(t, s, read)
	for i, top := range []float64{3, 93} {
		for k := range read[:12] {
			read[12*i+k].Depth = crank.Drop(read[12*i+k].Angle - marktest.Deg(top))
		}
	}
	aside := marktest.Found(t, s, read)
	first := in(t, aside, 1, 8).Angle - in(t, straight, 1, 8).Angle
	second := in(t, aside, 2, 98).Angle - in(t, straight, 2, 98).Angle
	require.Greater(t, math.Abs(first.Degrees()), 0.01)
	require.InEpsilon(t, float64(first)*float64(second)/3, between(s)-alone, 0.05) // to first order
	s = sharing()
	s.Protractor.Error = marktest.Deg(1e-6)
	s.Protractor.OffCentre = 1
	require.InDelta(t, alone, between(s), 0.05*float64(first)*float64(second)/3)
	r := marktest.Found(t, s, readInSets(s, 3, 93))
	require.Greater(t, in(t, r, 1, 8).Covariance(in(t, r, 1, 8)), float64(first)*float64(second)/3)
}

// pins is a mark as sets have it, in the order given.
func pins(at ...float64) (list []mark.Mark) {
	for i, a := range at {
		list = append(list, mark.Mark{Name: "pin", On: "flywheel", Set: i + 1, Read: []geometry.Angle{marktest.Deg(a)}, Limit: marktest.Deg(1), HasLimit: true})
	}
	return list
}

// A mark read in two sets that know it alike is at their mean, and is one mark; the order
// of its tables is no matter, nor is what stands between them.
func TestMarksOfOneName(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, readInSets(s, 3, 73))
	marks := pins(3.4, 74)
	other := mark.Mark{Name: "notch", On: "pulley", Read: []geometry.Angle{marktest.Deg(4)}, Limit: marktest.Deg(1), HasLimit: true}
	for _, list := range [][]mark.Mark{{marks[0], marks[1], other}, {marks[1], other, marks[0]}} {
		f, err := mark.Judge(s, r, mark.Drive{}, list)
		require.NoError(t, err)
		require.Len(t, f, 2)
		require.Equal(t, "pin", f[0].Name)
		require.InDelta(t, 0.7, f[0].Angle.Degrees(), 0.02)
		require.Len(t, f[0].Sets, 2)
		require.Equal(t, []int{1, 2}, []int{f[0].Sets[0].Set, f[0].Sets[1].Set})
		require.InDelta(t, 0.4, f[0].Sets[0].Angle.Degrees(), 0.01)
		require.InDelta(t, 1, f[0].Sets[1].Angle.Degrees(), 0.01)
		require.Empty(t, f[0].Notes)
		require.Less(t, f[0].Expanded, 0.8*f[0].Sets[0].Expanded)
		d, err := joint.Explain(s, mark.Drive{}, f, nil)
		require.NoError(t, err)
		require.NotEmpty(t, d.Explanations)
		kept := mark.Keep(f)
		require.Len(t, kept, 2)
		require.Less(t, kept[0].OfTDC, kept[1].OfTDC)
		require.InEpsilon(t, float64(f[0].Uncertainty), float64(kept[0].Uncertainty), 1e-9)
	}
	// read again in the same set it is no more than two marks of one name
	again := pins(3.4)
	f, err := mark.Judge(s, r, mark.Drive{}, append(again, again...))
	require.NoError(t, err)
	require.Len(t, f, 2)
}

// The variance of a combined mark is what it shares with itself, but for the rounding and
// the error of its own lines that only its own readings have.
func TestCombinedIsItsOwnCovariance(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, readInSets(s, 3, 73, 203))
	f, err := mark.Judge(s, r, mark.Drive{}, pins(21.6, 91.6, 221.6))
	require.NoError(t, err)
	rounding := math.Pow(float64(s.Protractor.Step), 2) / 12 / 3 // of three that weigh alike
	require.InEpsilon(t, math.Pow(float64(f[0].Uncertainty), 2)-rounding, f[0].Covariance(f[0]), 0.01)
}

// A set that knows a mark better weighs more: as the inverse of its variance, so that three
// parts of the whole are the first's where it is known to a variance of a third.
func TestSetsByWhatTheyKnow(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, readInSets(s, 3, 73))
	marks := pins(3.6, 73)
	marks[1].Read = []geometry.Angle{marktest.Deg(72.2), marktest.Deg(73.2), marktest.Deg(74.2)}
	f, err := mark.Judge(s, r, mark.Drive{}, marks)
	require.NoError(t, err)
	first, second := f[0].Sets[0], f[0].Sets[1]
	require.Greater(t, second.Uncertainty, 1.5*first.Uncertainty)
	one, two := 1/math.Pow(float64(first.Uncertainty), 2), 1/math.Pow(float64(second.Uncertainty), 2)
	require.InDelta(t, (one*float64(first.Angle)+two*float64(second.Angle))/(one+two), float64(f[0].Position), 1e-12)
}

// Sets that disagree by more than they can are told, and count for no more than they agree.
func TestSetsApart(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, readInSets(s, 3, 73))
	near, err := mark.Judge(s, r, mark.Drive{}, pins(3, 73))
	require.NoError(t, err)
	f, err := mark.Judge(s, r, mark.Drive{}, pins(3, 76))
	require.NoError(t, err)
	apart := f[0].Notes[0].(finding.SetsApart)
	require.Equal(t, "pin", apart.About())
	require.InDelta(t, 1.5, math.Abs(apart.By.Degrees()), 0.05)
	require.Less(t, apart.Limit, marktest.Deg(1))
	require.Greater(t, f[0].Expanded, 5*near[0].Expanded)
	require.Equal(t, mark.TooClose, f[0].Verdict)
}

// A mark of a set in which no piston was read is an error of its own place.
func TestMarkOfNoSet(t *testing.T) {
	s := marktest.Bench()
	r := marktest.Found(t, s, readInSets(s, 3, 73))
	_, err := mark.Judge(s, r, mark.Drive{}, pins(3, 73, 143))
	var of *mark.Error
	require.ErrorAs(t, err, &of)
	require.Equal(t, 2, of.Index)
	require.True(t, of.Set)
	require.ErrorContains(t, err, `mark "pin": it is of set 3, and cylinder 1 has no readings of that set`)
}

// What would settle a mark is asked of the protractor as it is set now: where the mark was
// read there, more readings of it, and where those do not do, the wheel moved once more;
// where it was not, that it be read there.
func TestSettledInTheLastSet(t *testing.T) {
	s := marktest.Bench()
	s.Protractor.OffCentre = 0
	judge := func(tops []float64, marks []mark.Mark, limit geometry.Angle) mark.Judged {
		for i := range marks {
			marks[i].Limit = limit
		}
		f, err := mark.Judge(s, marktest.Found(t, s, readInSets(s, tops...)), mark.Drive{}, marks)
		require.NoError(t, err)
		return f[0]
	}
	f := judge([]float64{3, 73}, pins(3.9, 73.9), marktest.Deg(1))
	require.Equal(t, mark.TooClose, f.Verdict)
	not := f.ToSettle.(finding.NotByReadings)
	require.Equal(t, 3, not.Set)
	require.True(t, not.MoveWheel)
	f = judge([]float64{3, 73}, pins(3.9), marktest.Deg(1))
	not = f.ToSettle.(finding.NotByReadings)
	require.Equal(t, 2, not.Set)
	require.False(t, not.MoveWheel)

	// repeats of a set that the wheel has left would settle it, and can be had no more
	left := pins(3.2)
	for _, off := range []float64{-0.9, 0.9} {
		left[0].Read = append(left[0].Read, marktest.Deg(3.2+off))
	}
	f = judge([]float64{3, 73}, left, 0)
	require.IsType(t, finding.MoreReadings{}, judge([]float64{3}, left, 0.7*f.Expanded).ToSettle)
	not = judge([]float64{3, 73}, left, 0.7*f.Expanded).ToSettle.(finding.NotByReadings)
	require.False(t, not.MoveWheel)

	// repeats that scatter are worth repeating, in the last set
	scattered := func(n int) []mark.Mark {
		list := pins(3.2, 73.2)
		list[1].Read = nil
		for i := range n {
			list[1].Read = append(list[1].Read, marktest.Deg(73.2+0.9*float64(i%3-1)))
		}
		return list
	}
	first, last := judge([]float64{3, 73}, scattered(3), 0), judge([]float64{3, 73}, scattered(12), 0)
	require.Less(t, last.Expanded, first.Expanded)
	limit := geometry.Angle(math.Abs(float64(first.Angle))) + last.Expanded + (first.Expanded-last.Expanded)/20
	f = judge([]float64{3, 73}, scattered(3), limit)
	require.Equal(t, mark.TooClose, f.Verdict)
	more := f.ToSettle.(finding.MoreReadings)
	require.Zero(t, more.OfPiston)
	require.InDelta(t, 9, more.OfMark, 3) // twelve were three and nine; a twentieth less is asked for
	require.Equal(t, mark.Within, judge([]float64{3, 73}, scattered(12), limit).Verdict)
}
