package mark_test

import (
	"encoding/csv"
	"os"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"evendrop/geometry"
	"evendrop/tdc/mark"
)

// examples is the rows of JCGM 106:2012 by name: the numbers of the inputs and of
// what is printed, by their symbols.
func examples(t *testing.T) map[string]map[string]float64 {
	file, err := os.Open("../../testdata/jcgm106/examples.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	number := regexp.MustCompile(`([A-Za-z_0]+)=(-?[0-9.]+)`)
	all := map[string]map[string]float64{}
	for _, row := range rows[1:] {
		all[row[1]] = map[string]float64{}
		for _, m := range number.FindAllStringSubmatch(row[2]+" "+row[3], -1) {
			x, err := strconv.ParseFloat(m[2], 64)
			require.NoError(t, err)
			all[row[1]][m[1]] = x
		}
	}
	return all
}

// The conformance examples of JCGM 106:2012 7.3.3 and 7.4, each told by the
// three zones of ISO 14253-1 with U = 2u: what is called within conforms with
// 97.7 % or more, and what conforms with less is not called.
func TestConformanceExamples(t *testing.T) {
	all := examples(t)
	diode, container, oil := all["Zener diode upper limit"], all["container lower limit"], all["motor oil two-sided"]
	for _, c := range []struct {
		name                    string
		off, expanded, limit, p float64
		want                    mark.Verdict
	}{
		// one-sided limits, as distances from a centre so far that the other side is out of reach
		{"Zener diode upper limit", 100 + diode["y"] - diode["T_U"], 2 * diode["u"], 100, diode["p_c"], mark.TooClose},
		{"container lower limit", -1000 + container["y"] - container["T_L"], 2 * container["u"], 1000, container["p_c"], mark.Within},
		{"motor oil", oil["y"] - (oil["T_L"]+oil["T_U"])/2, 2 * oil["u"], (oil["T_U"] - oil["T_L"]) / 2, oil["p_c"], mark.TooClose},
	} {
		got := mark.Decide(geometry.Angle(c.off), geometry.Angle(c.expanded), geometry.Angle(c.limit))
		require.Equal(t, c.want, got, c.name)
		require.Equal(t, c.p >= 0.977, got == mark.Within, c.name)
	}
}

// Guarded rejection, JCGM 106:2012 8.3.3: a speed is over 100 km/h beyond
// reasonable doubt, 99.9 %, from 107 km/h when it is measured to 2 %; and
// nandrolone over 2.00 ng/mL from 2.37 when s = 0.20 of 9 degrees of freedom.
func TestGuardedRejectionExamples(t *testing.T) {
	speed := func(v float64) mark.Verdict {
		return mark.Decide(geometry.Angle(v), geometry.Angle(distuv.UnitNormal.Quantile(0.999)*0.02*v), 100)
	}
	require.Equal(t, mark.Outside, speed(107))
	require.Equal(t, mark.TooClose, speed(106))
	nandrolone := examples(t)["nandrolone guarded rejection"]
	guard := distuv.StudentsT{Sigma: 1, Nu: nandrolone["nu"]}.Quantile(0.95) * nandrolone["s"]
	drug := func(v float64) mark.Verdict {
		return mark.Decide(geometry.Angle(v), geometry.Angle(guard), geometry.Angle(nandrolone["T"]))
	}
	require.Equal(t, mark.Outside, drug(nandrolone["A"]))
	require.Equal(t, mark.TooClose, drug(nandrolone["A"]-0.01))
}

// The three zones of ISO 14253-1 (from memory, as JCGM 106:2012 8.3.2.3 quotes
// it): the guard band U = 2u inside each limit and outside it calls nothing, and
// of a mark that stands exactly on its limit 2.3 % at most are called within.
func TestThreeZones(t *testing.T) {
	const u, limit = 0.25, 1.0
	for _, c := range []struct {
		off  float64
		want mark.Verdict
	}{
		{0, mark.Within}, {0.5, mark.Within}, {-0.5, mark.Within}, {0.5000001, mark.TooClose}, {-0.5000001, mark.TooClose},
		{1, mark.TooClose}, {1.5, mark.TooClose}, {-1.5, mark.TooClose}, {1.5000001, mark.Outside}, {-1.5000001, mark.Outside},
	} {
		require.Equal(t, c.want, mark.Decide(geometry.Angle(c.off), 2*u, limit), c.off)
	}
	const n = 100000
	passed := 0
	for i := range n {
		measured := limit + u*distuv.UnitNormal.Quantile((float64(i)+0.5)/n)
		if mark.Decide(geometry.Angle(measured), 2*u, limit) == mark.Within {
			passed++
		}
	}
	// JCGM 106 prints 2.3 %; Phi(-2) = 0.0227501, met to one draw of the n
	require.InDelta(t, 0.0227501, float64(passed)/n, 1.0/n)
}

// The uncertainty told to settle a mark does, and a thousandth more does not.
func TestSettles(t *testing.T) {
	const limit = 1.0
	for _, off := range []float64{0.9, -0.75, 1.1, -1.4} {
		need := mark.Settles(geometry.Angle(off), limit)
		require.Equal(t, mark.TooClose, mark.Decide(geometry.Angle(off), need*1.001, limit), off)
		require.NotEqual(t, mark.TooClose, mark.Decide(geometry.Angle(off), need*0.999, limit), off)
	}
	require.Zero(t, mark.Settles(-limit, limit))
}
