package blunder_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session/blunder"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
)

// bench is a dial gauge and a wheel of half degrees on an engine.
func bench(t testing.TB, engine evidence.Engine, unit geometry.Length) *blunder.Bench {
	engine.KnownTo = evidence.DefaultKnownTo(true)
	b, err := blunder.NewBench(evidence.Setup{Engine: engine, Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}, unit)
	require.NoError(t, err)
	return b
}

var known = evidence.Engine{Stroke: 86, Rod: 146}

// true readings are of an engine of 86 and 146 mm with TDC at 5 deg, whose gauge shows 1 mm
// there; each an angle from TDC, typed with a depth that many times too large.
type typed struct{ u, times float64 }

func readings(t testing.TB, list ...typed) (read []evidence.Reading) {
	crank, err := geometry.NewSliderCrank(86, 146, 0)
	require.NoError(t, err)
	for i, one := range list {
		depth := (1 + crank.Drop(geometry.Angle(one.u)*geometry.Degree)) * geometry.Length(one.times)
		read = append(read, evidence.Reading{Angle: geometry.Angle(one.u+5) * geometry.Degree, Depth: depth, Turn: evidence.Forward, Line: i + 2})
	}
	return read
}

// which is the numbers of the readings that are odd, from 1.
func which(odd []blunder.Odd) string {
	text := ""
	for _, o := range odd {
		text += fmt.Sprint(o.Index + 1)
	}
	return text
}

// The odd reading is named whichever it is, as soon as it can be told, and its factor is
// among what it may have been meant as.
func TestOdd(t *testing.T) {
	one := 1.
	for _, c := range []struct {
		name string
		read []typed
		odd  string
	}{
		{"none", []typed{{-26, one}, {-20, one}, {-14, one}, {10, one}, {18, one}}, ""},
		{"a far jump is no blunder", []typed{{-60, one}, {60, one}, {-5, one}}, ""},
		{"the second of two", []typed{{-26, one}, {-24, 10}}, "2"},
		{"the first of two", []typed{{-26, 10}, {-24, one}}, "1"},
		{"in between", []typed{{-26, one}, {-20, one}, {-14, 25.4}, {10, one}, {18, one}}, "3"},
		{"tenths of it, or the other of its flank", []typed{{-26, one}, {-20, one}, {-14, one}, {10, one}, {18, 0.1}}, "45"},
		{"tenths of it", []typed{{-26, one}, {-20, one}, {-14, one}, {10, one}, {18, 0.1}, {25, one}}, "5"},
		{"the first of five", []typed{{-26, 100}, {-20, one}, {-14, one}, {10, one}, {18, one}}, "1"},
		{"no single one", []typed{{-26, 10}, {-20, 100}, {-14, one}, {10, 10}, {18, 100}, {24, one}}, ""},
	} {
		read := readings(t, c.read...)
		odd := bench(t, known, 1).Odd(read)
		require.Equal(t, c.odd, which(odd), c.name)
		if len(odd) != 1 {
			continue
		}
		times := c.read[odd[0].Index].times
		found := false
		for _, w := range odd[0].Ways {
			found = found || w.Depth && geometry.Length(times)*w.Reading.Depth > read[odd[0].Index].Depth*0.999 && geometry.Length(times)*w.Reading.Depth < read[odd[0].Index].Depth*1.001
		}
		require.True(t, found, "%s: %v", c.name, odd[0].Ways)
	}
}

// Where two may be the wrong one both are named.
func TestOddOfTwo(t *testing.T) {
	require.Equal(t, "12", which(bench(t, known, 1).Odd(readings(t, typed{-26, 10}, typed{-14, 1}))))
}

// An engine of which nothing is known, a gauge that counts up, and depths in inches tell
// as well; about BDC, and of more readings than Most, nothing is said.
func TestOddElsewhere(t *testing.T) {
	read := readings(t, typed{-26, 1}, typed{-20, 1}, typed{-14, 10}, typed{10, 1}, typed{18, 1})
	require.Equal(t, "3", which(bench(t, evidence.Engine{}, 1).Odd(read)))
	for i := range read {
		read[i].Depth = -read[i].Depth
	}
	require.Equal(t, "3", which(bench(t, known, 1).Odd(read)))
	for i := range read {
		read[i].Depth *= -1
	}
	odd := bench(t, known, geometry.Inch).Odd(read)
	require.Equal(t, "3", which(odd))
	many := make([]typed, blunder.Most+1)
	for i := range many {
		many[i] = typed{float64(i) - 6, 1}
	}
	many[3].times = 1000
	require.Empty(t, bench(t, known, 1).Odd(readings(t, many...)))
	require.Equal(t, "4", which(bench(t, known, 1).Odd(readings(t, many[:blunder.Most]...))))
}

// Readings lie about TDC: were BDC as likely, where the piston hardly moves over as much of
// the turn, another than the wrong one might be wrong as well.
func TestOddAboutTDC(t *testing.T) {
	require.Equal(t, "2", which(bench(t, known, 1).Odd(readings(t, typed{-22, 1}, typed{-14, 0.1}, typed{-6, 1}, typed{7, 1}))))
}

// A stroke that nobody stated may be twice the assumed one.
func TestOddOfAnUnknownStroke(t *testing.T) {
	crank, err := geometry.NewSliderCrank(165, 280, 0)
	require.NoError(t, err)
	var read []evidence.Reading
	for _, u := range []float64{-75, -40, -20, 10, 30} {
		read = append(read, evidence.Reading{Angle: geometry.Angle(u) * geometry.Degree, Depth: crank.Drop(geometry.Angle(u) * geometry.Degree), Turn: evidence.Forward})
		require.Empty(t, bench(t, evidence.Engine{}, 1).Odd(read))
	}
}

// A sign is doubted only where there may be one: on a scale of halves, or beside an angle
// with a minus.
func TestSigns(t *testing.T) {
	b := bench(t, known, 1)
	read := readings(t, typed{-26, 1}, typed{20, 1})
	require.True(t, b.HasSign(read[1], read))
	require.False(t, b.HasSign(read[1], read[1:]))
	read[0].Angle += geometry.Turn
	require.False(t, b.HasSign(read[1], read))
	read[0].Side = evidence.BTDC
	require.True(t, b.HasSign(read[1], read))
}

// BenchmarkOdd is the worst that there is: Most readings, of which no single one is to
// blame, of an engine whose stroke and rod nobody stated.
func BenchmarkOdd(b *testing.B) {
	var list []typed
	for i := range blunder.Most {
		list = append(list, typed{float64(4*i) - 24, 1 + float64(i%3)})
	}
	read := readings(b, list...)
	for _, engine := range []evidence.Engine{known, {}} {
		b.Run(fmt.Sprint(engine.Stroke), func(b *testing.B) {
			bench := bench(b, engine, 1)
			for b.Loop() {
				bench.Odd(read)
			}
		})
	}
}

// BenchmarkNewBench is what the first reading of a sitting waits for.
func BenchmarkNewBench(b *testing.B) {
	for b.Loop() {
		bench(b, evidence.Engine{}, 1)
	}
}
