package joint

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/marktest"
)

// Three edges are one witness beside one pair of flats. Flats 3 deg late have a variance of
// 0.01 + 1/3, the wheel's edges 5 deg late of 0.96/3 together and (0.04/3 + 0.01)/3 of their
// own: the cam is 3.98 deg late. Taken for three, they make it 4.51.
func TestThreeEdgesAreOneWitness(t *testing.T) {
	findings := []mark.Judged{marktest.Limited("inlet cam", 3, 0.01, 1)}
	for i := range 3 {
		findings = append(findings, marktest.Edge(fmt.Sprint("edge ", i), "inlet wheel", 5, 1))
	}
	x, err := newExplainer(evidence.Setup{}, marktest.TwoCams, findings, nil)
	require.NoError(t, err)
	for k, g := range x.Groups {
		if x.Parts[g.Parts[0]].Name != "crank sprocket on crank" {
			continue
		}
		factor, _ := x.search.columns.Factor([]int{k})
		shift, _ := factor.Solve(x.search.turns[0].Observed)
		a, b := 1/(0.01+1.0/3), 1/(0.96/3+(0.04/3+0.01)/3)
		require.InDelta(t, (3*a+5*b)/(a+b), shift[0]/float64(geometry.Degree), 1e-9)
		s := x.search.spreads(&factor, fitted{set: []int{k}})[0]
		require.InDelta(t, math.Sqrt(1/(a+b)), s.Standard()/float64(geometry.Degree), 1e-9)
		made := 0.0
		for _, r := range s.Rectangular {
			made += r * r
		}
		ofFlats, ofWheel := a/(a+b), b/(a+b)
		require.InDelta(t, ofFlats*ofFlats/3+ofWheel*ofWheel*(0.96/3+0.04/9), made/math.Pow(float64(geometry.Degree), 2), 1e-9, "of that as made, rectangular")
		return
	}
	t.Fatal("no drive among the groups")
}

// An edge 8 deg from the two others of its wheel is named, and may be what moved: no joint
// moves it alone. Edges as far apart as chance puts them are not spoken of.
func TestAnEdgeApart(t *testing.T) {
	explained := func(second float64) Diagnosis {
		d, err := Explain(evidence.Setup{}, marktest.TwoCams, []mark.Judged{marktest.Edge("first", "inlet wheel", 0.1, 1), marktest.Edge("second", "inlet wheel", second, 1), marktest.Edge("third", "inlet wheel", -0.1, 1)}, nil)
		require.NoError(t, err)
		return d
	}
	d := explained(-8)
	require.Len(t, d.Notes, 1)
	require.Equal(t, finding.EdgesApart{Mark: "second", Wheel: "inlet wheel", Edges: 3, By: d.Notes[0].(finding.EdgesApart).By}, d.Notes[0])
	require.InDelta(t, -7.9, d.Notes[0].(finding.EdgesApart).By.Degrees(), 1e-9, "from the middle one")
	require.Equal(t, []string{"second itself"}, d.Explanations[0].Slips[0].Joints)
	require.Empty(t, explained(0.3).Notes)
}

// A wheel's edges are looked at where they are cut, and at once.
func TestLookAtTheEdges(t *testing.T) {
	d, err := Explain(evidence.Setup{}, marktest.TwoCams, []mark.Judged{marktest.Edge("a", "inlet wheel", 5, 1), marktest.Edge("b", "inlet wheel", 5, 1), marktest.Limited("inlet cam", 0, 0.01, 1), marktest.Edge("c", "exhaust wheel", 0, 1)}, nil)
	require.NoError(t, err)
	require.Equal(t, []string{"inlet wheel on inlet cam", "inlet cam sensor", "edges of the inlet wheel"}, d.Explanations[0].Slips[0].Joints)
	require.Equal(t, inspect.AtSensor, d.TellApart[0].How)
	require.Equal(t, inspect.AtItsEdges, d.TellApart[1].How)
	require.Equal(t, "inlet wheel", d.TellApart[1].Part)
}
