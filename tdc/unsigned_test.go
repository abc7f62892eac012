package tdc_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/benchtest"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// swept is exact readings of a car engine with TDC at a protractor's angle, in the
// order of the crank angles given, from TDC.
func swept(tdcAt float64, turn evidence.TurnDirection, order ...float64) (read []evidence.Reading) {
	car := benchtest.Bench{Throw: 43, Rod: 146}.Settled()
	for _, u := range order {
		read = append(read, evidence.Reading{Angle: degrees(tdcAt + u), Depth: geometry.Length(benchtest.Rounded(car.Drop(u*degree), 0.01)),
			Turn: turn, File: "r.csv", Line: len(read) + 2})
	}
	return read
}

// unsigned is readings typed without their sign: each after the zero.
func unsigned(read []evidence.Reading) []evidence.Reading {
	read = slices.Clone(read)
	for i, r := range read {
		read[i].Angle = max(r.Angle, -r.Angle)
	}
	return read
}

// A flank typed without its minus is told, wherever TDC lies near the zero, with
// what to type; so on every scale, one way and both.
func TestAFlankWithoutItsSign(t *testing.T) {
	up := []float64{-30, -25, -20, -15, -10, 10, 15, 20, 25, 30}
	down := slices.Clone(up)
	slices.Reverse(down)
	for _, scale := range []evidence.Scale{evidence.Full, evidence.Halves, evidence.Quadrants} {
		for _, tdcAt := range []float64{0, 1.5, 4, -6} {
			both := swept(tdcAt, evidence.Forward, up...)
			for i, r := range swept(tdcAt, evidence.Backward, down...) {
				r.Line = len(up) + i + 2
				both = append(both, r)
			}
			setup := carEngine(86, 146)
			setup.Protractor.Scale = scale
			for _, read := range [][]evidence.Reading{both[:10], both} {
				require.Empty(t, find(t, setup, read).CannotTell)
				r, err := tdc.Find(setup, evidence.Cylinder{Readings: unsigned(read)})
				lost, ok := isKind[finding.FlankUnsigned](r, err)
				require.True(t, ok, "%d, TDC at %g: %v", scale, tdcAt, err)
				if err == nil {
					require.Equal(t, r.CannotTell, r.Findings[0])
				}
				require.Equal(t, 2, lost.Line)
				require.InDelta(t, 30-tdcAt, lost.Angle.Degrees(), 1e-9)
				require.Equal(t, finding.Lines{From: 2, To: 6}, lost.Lines[0])
			}
		}
	}
}

// One reading without its sign is named, and no other, at every place of a sweep
// where its order or its depth can tell.
func TestOneReadingWithoutItsSign(t *testing.T) {
	setup := carEngine(86, 146)
	setup.Protractor.Scale = evidence.Halves
	for _, tdcAt := range []float64{0, 3} {
		right := swept(tdcAt, evidence.Forward, -30, -25, -20, -15, -10, 10, 15, 20, 25, 30)
		require.False(t, has[finding.RowUnsigned](find(t, setup, right)))
		for i := range right {
			read := slices.Clone(right)
			read[i].Angle = -read[i].Angle
			r := find(t, setup, read)
			if tdcAt == 0 && (i == 0 || i == 4 || i == 5 || i == 9) {
				// at an end another sweep may begin; the two about the top stay in order, as deep as they were
				require.False(t, has[finding.RowUnsigned](r))
				continue
			}
			named := all[finding.RowUnsigned](r)
			require.Len(t, named, 1, "TDC at %g, reading %d", tdcAt, i)
			require.Equal(t, i+2, named[0].Line)
			require.Equal(t, read[i].Angle, named[0].Angle)
		}
	}
	pairs := swept(0, evidence.Forward, -30, 30, -25, 25, -20, 20, -15, 15, -10, 10)
	require.False(t, has[finding.RowUnsigned](find(t, setup, pairs)))
}

// Readings taken pair by pair, each pair at its depth, may stand so that a good one would be
// in order on the other side of the zero: its depth speaks against that.
func TestAPairReadOutwardKeepsItsSign(t *testing.T) {
	setup := carEngine(86, 146)
	for _, tdcAt := range []float64{4, -4} {
		for _, order := range [][]float64{{-12, 12, -22, 22}, {12, -12, 22, -22}} {
			pairs := swept(tdcAt, evidence.Forward, order...)
			for i, r := range swept(tdcAt, evidence.Backward, 12, -12, 22, -22) {
				r.Line = len(order) + i + 2
				pairs = append(pairs, r)
			}
			require.Empty(t, all[finding.RowUnsigned](find(t, setup, pairs)), "TDC at %g, read at %v", tdcAt, order)
			up := slices.Clone(pairs)
			for i := range up {
				up[i].Depth = -up[i].Depth // the gauge counts the other way than the job says
			}
			require.Empty(t, all[finding.RowUnsigned](find(t, setup, up)), "TDC at %g, read at %v, counted up", tdcAt, order)
		}
	}
}

// Healthy jobs on every scale hear nothing of signs.
func TestHealthyJobsKeepTheirSigns(t *testing.T) {
	const seed, jobs = 20261126, 800
	rng := rand.New(rand.NewPCG(seed, 1))
	told := 0
	for i := range jobs {
		pt := at(rng.IntN(len(engines)), rng.IntN(2), rng.IntN(3), layouts[rng.IntN(len(layouts))])
		pt.setup.Protractor.Scale = []evidence.Scale{evidence.Full, evidence.Halves}[i%2]
		b := benchtest.Drawn(rng, pt.setup)
		b.Start = benchtest.Within(rng, 8*degree)
		r, err := tdc.Find(pt.setup, evidence.Cylinder{Readings: b.Read(rng, pt.setup, pt.layout, benchtest.Noise{})})
		if err == nil && (has[finding.RowUnsigned](r) || has[finding.FlankUnsigned](r)) {
			told++
			t.Errorf("%s: %v", pt.name, r.Findings)
		}
	}
	t.Logf("seed %d: %d of %d healthy jobs told of a sign", seed, told, jobs)
}
