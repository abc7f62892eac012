package seen_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
)

// covariance is what marks of two cams share.
func covariance(t *testing.T, marks []mark.Judged) *mat.SymDense {
	t.Helper()
	s, err := seen.Of(marktest.TwoCams, marks, nil)
	require.NoError(t, err)
	return s.Covariance
}

// Edges of one wheel share what the tighter of their limits allows, but for how well teeth
// are spaced, 0.2 deg either way: of limits of 1.2 and 2 that is 1.2^2/3 - 0.2^2/3. An edge
// of the other wheel, flats of the same cam and the teeth of the crank wheel share nothing,
// and a mark that has the wheel for its reference shares it the other way round.
func TestEdgesShareTheirWheel(t *testing.T) {
	turned := marktest.Edge("turned", "crank wheel", 0, 1.2)
	turned.Against = "inlet wheel"
	flats := marktest.Limited("inlet cam", 0, 0.01, 1)
	findings := []mark.Judged{marktest.Edge("a", "inlet wheel", 0, 1.2), marktest.Edge("b", "inlet wheel", 0, 2), turned, marktest.Edge("c", "exhaust wheel", 0, 1.2),
		flats, flats, marktest.Limited("crank wheel", 0, 0.01, 1), marktest.Limited("crank wheel", 0, 0.01, 1), marktest.Edge("d", "inlet wheel", 0, 0)}
	v := covariance(t, findings)
	degrees := func(i, j int) float64 { return v.At(i, j) / math.Pow(float64(geometry.Degree), 2) }
	shared := (1.44 - 0.04) / 3
	require.InDelta(t, 0.01+1.44/3, degrees(0, 0), 1e-12)
	require.InDelta(t, 0.01+4.0/3, degrees(1, 1), 1e-12)
	require.InDelta(t, shared, degrees(0, 1), 1e-12)
	require.InDelta(t, -shared, degrees(0, 2), 1e-12)
	require.InDelta(t, -shared, degrees(1, 2), 1e-12)
	for _, apart := range [][2]int{{0, 3}, {0, 4}, {4, 5}, {6, 7}, {0, 6}, {0, 8}} {
		require.Zero(t, degrees(apart[0], apart[1]), "%v", apart)
	}
	require.InDelta(t, 0.01, degrees(8, 8), 1e-12)
}

// The edges of a wheel have one name, of whatever member: one that the layouts call a cam's
// wheel, or any that comes round with a cam and is measured from the crank wheel. An edge
// alone, and a cam's flats, keep their own.
func TestEdgesHaveOneName(t *testing.T) {
	names := func(d mark.Drive, findings ...mark.Judged) (list []string) {
		s, err := seen.Of(d, findings, nil)
		require.NoError(t, err)
		for _, p := range s.Parts {
			if p.Kind == seen.Ground {
				list = append(list, p.Name)
			}
		}
		return list
	}
	require.Equal(t, []string{"edges of the inlet wheel", "c itself"},
		names(marktest.TwoCams, marktest.Edge("a", "inlet wheel", 0, 1), marktest.Edge("b", "inlet wheel", 0, 1), marktest.Edge("c", "exhaust wheel", 0, 1)))
	own := mark.Drive{Joints: []mark.Joint{{Carried: "crank wheel", Carrier: "crank"}, {Carried: "phaser", Carrier: "crank", Drive: true}, {Carried: "ring", Carrier: "phaser"}}}
	require.Equal(t, []string{"edges of the ring"}, names(own, marktest.Edge("a", "ring", 0, 1), marktest.Edge("b", "ring", 0, 1)))
	one, other := marktest.Edge("a", "inlet wheel", 0, 1), marktest.Edge("b", "inlet wheel", 0, 1)
	one.Against, other.Against = "exhaust wheel", "exhaust wheel"
	require.Equal(t, []string{"edges of the inlet wheel from the exhaust wheel", "c itself"}, names(marktest.TwoCams, one, other, marktest.Edge("c", "inlet wheel", 0, 1)))
	sure, surer := marktest.Edge("a", "inlet wheel", 0, 1), marktest.Edge("b", "inlet wheel", 0, 1)
	sure.Certain, surer.Certain = true, true
	require.Empty(t, names(marktest.TwoCams, sure, surer))
	require.Equal(t, []string{" itself", " itself"}, names(marktest.TwoCams, plain("inlet cam"), plain("inlet cam")))
}

func plain(on string) mark.Judged { return mark.Judged{Mark: mark.Mark{On: on}} }

// Where several healthy engines scatter, so do all edges of a wheel together: by 0.6 deg
// among engines and, of three, 0.6^2/3 of their mean. Each has that in its own already.
func TestEdgesShareHowEnginesDiffer(t *testing.T) {
	kept := &mark.Healthy{Engines: 3, Scatter: 0.6 * geometry.Degree, Uncertainty: 0.4 * geometry.Degree}
	findings := []mark.Judged{marktest.Edge("a", "inlet wheel", 0, 1), marktest.Edge("b", "inlet wheel", 0, 1), marktest.Edge("c", "exhaust wheel", 0, 1)}
	for i := range findings {
		findings[i].Healthy = kept
	}
	v := covariance(t, findings)
	require.InDelta(t, 0.36+0.12, v.At(0, 1)/math.Pow(float64(geometry.Degree), 2), 1e-12)
	require.Zero(t, v.At(0, 2))
	require.InDelta(t, 0.01, v.At(0, 0)/math.Pow(float64(geometry.Degree), 2), 1e-12)
}
