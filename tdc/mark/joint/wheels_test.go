package joint

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
)

// edge is an edge of a wheel, seen by a capture to a standard uncertainty of 0.1 deg.
func edge(name, on string, off, limit float64) mark.Judged {
	f := mark.Judged{Mark: mark.Mark{Name: name, On: on, Against: "crank wheel", Off: &mark.Shift{}}, Period: 2 * geometry.Turn}
	if limit > 0 {
		f.Limit, f.HasLimit = geometry.Angle(limit)*geometry.Degree, true
	}
	f.Estimate = gum.Spread{Normal: []gum.Component{{Standard: 0.1 * float64(geometry.Degree), Degrees: math.Inf(1)}}}.Estimate(geometry.Angle(off) * geometry.Degree)
	return f
}

// of is the marks of findings, and the wheels that they are edges of.
func of(t *testing.T, d mark.Drive, findings []mark.Judged) ([]mark.Mark, []wheel) {
	t.Helper()
	var marks []mark.Mark
	for _, f := range findings {
		marks = append(marks, f.Mark)
	}
	tree, err := mark.TreeFor(d, marks)
	require.NoError(t, err)
	return marks, wheels(tree, marks)
}

// Edges of one wheel share what the tighter of their limits allows, but for how well teeth
// are spaced, 0.2 deg either way: of limits of 1.2 and 2 that is 1.2^2/3 - 0.2^2/3. An edge
// of the other wheel, flats of the same cam and the teeth of the crank wheel share nothing,
// and a mark that has the wheel for its reference shares it the other way round.
func TestEdgesShareTheirWheel(t *testing.T) {
	turned := edge("turned", "crank wheel", 0, 1.2)
	turned.Against = "inlet wheel"
	flats := limited("inlet cam", 0, 0.01, 1)
	findings := []mark.Judged{edge("a", "inlet wheel", 0, 1.2), edge("b", "inlet wheel", 0, 2), turned, edge("c", "exhaust wheel", 0, 1.2),
		flats, flats, limited("crank wheel", 0, 0.01, 1), limited("crank wheel", 0, 0.01, 1), edge("d", "inlet wheel", 0, 0)}
	_, list := of(t, twoCams, findings)
	v := covariance(findings, list)
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

// Three edges are one witness beside one pair of flats. Flats 3 deg late have a variance of
// 0.01 + 1/3, the wheel's edges 5 deg late of 0.96/3 together and (0.04/3 + 0.01)/3 of their
// own: the cam is 3.98 deg late. Taken for three, they make it 4.51.
func TestThreeEdgesAreOneWitness(t *testing.T) {
	findings := []mark.Judged{limited("inlet cam", 3, 0.01, 1)}
	for i := range 3 {
		findings = append(findings, edge(fmt.Sprint("edge ", i), "inlet wheel", 5, 1))
	}
	x, err := newExplainer(evidence.Setup{}, twoCams, findings)
	require.NoError(t, err)
	for k, g := range x.groups {
		if x.system.parts[g.parts[0]].name != "crank sprocket on crank" {
			continue
		}
		factor, _ := x.search.factor([]int{k})
		shift, _ := solve(factor, []int{k}, x.search.turns[0])
		a, b := 1/(0.01+1.0/3), 1/(0.96/3+(0.04/3+0.01)/3)
		require.InDelta(t, (3*a+5*b)/(a+b), shift[0]/float64(geometry.Degree), 1e-9)
		s := x.search.spreads(factor, []int{k}, fitted{})[0]
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

// The edges of a wheel have one name, of whatever member: one that the layouts call a cam's
// wheel, or any that comes round with a cam and is measured from the crank wheel. An edge
// alone, and a cam's flats, keep their own.
func TestEdgesHaveOneName(t *testing.T) {
	names := func(d mark.Drive, findings ...mark.Judged) (list []string) {
		marks, w := of(t, d, findings)
		for _, p := range systemWith(t, d, marks, w).parts {
			if p.kind == ground {
				list = append(list, p.name)
			}
		}
		return list
	}
	require.Equal(t, []string{"edges of the inlet wheel", "c itself"},
		names(twoCams, edge("a", "inlet wheel", 0, 1), edge("b", "inlet wheel", 0, 1), edge("c", "exhaust wheel", 0, 1)))
	own := mark.Drive{Joints: []mark.Joint{{Carried: "crank wheel", Carrier: "crank"}, {Carried: "phaser", Carrier: "crank", Drive: true}, {Carried: "ring", Carrier: "phaser"}}}
	require.Equal(t, []string{"edges of the ring"}, names(own, edge("a", "ring", 0, 1), edge("b", "ring", 0, 1)))
	one, other := edge("a", "inlet wheel", 0, 1), edge("b", "inlet wheel", 0, 1)
	one.Against, other.Against = "exhaust wheel", "exhaust wheel"
	require.Equal(t, []string{"edges of the inlet wheel from the exhaust wheel", "c itself"}, names(twoCams, one, other, edge("c", "inlet wheel", 0, 1)))
	sure, surer := edge("a", "inlet wheel", 0, 1), edge("b", "inlet wheel", 0, 1)
	sure.Certain, surer.Certain = true, true
	require.Empty(t, names(twoCams, sure, surer))
	require.Equal(t, []string{" itself", " itself"}, names(twoCams, plain("inlet cam"), plain("inlet cam")))
}

func plain(on string) mark.Judged { return mark.Judged{Mark: mark.Mark{On: on}} }

func systemWith(t *testing.T, d mark.Drive, marks []mark.Mark, w []wheel) *system {
	tree, err := mark.TreeFor(d, marks)
	require.NoError(t, err)
	return newSystem(tree, marks, w, nil)
}

// An edge 8 deg from the two others of its wheel is named, and may be what moved: no joint
// moves it alone. Edges as far apart as chance puts them are not spoken of.
func TestAnEdgeApart(t *testing.T) {
	explained := func(second float64) Diagnosis {
		d, err := Explain(evidence.Setup{}, twoCams, []mark.Judged{edge("first", "inlet wheel", 0.1, 1), edge("second", "inlet wheel", second, 1), edge("third", "inlet wheel", -0.1, 1)})
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
	d, err := Explain(evidence.Setup{}, twoCams, []mark.Judged{edge("a", "inlet wheel", 5, 1), edge("b", "inlet wheel", 5, 1), limited("inlet cam", 0, 0.01, 1), edge("c", "exhaust wheel", 0, 1)})
	require.NoError(t, err)
	require.Equal(t, []string{"inlet wheel on inlet cam", "inlet cam sensor", "edges of the inlet wheel"}, d.Explanations[0].Slips[0].Joints)
	require.Equal(t, AtSensor, d.TellApart[0].How)
	require.Equal(t, AtItsEdges, d.TellApart[1].How)
	require.Equal(t, "inlet wheel", d.TellApart[1].Part)
}

// Where several healthy engines scatter, so do all edges of a wheel together: by 0.6 deg
// among engines and, of three, 0.6^2/3 of their mean. Each has that in its own already.
func TestEdgesShareHowEnginesDiffer(t *testing.T) {
	kept := &mark.Healthy{Engines: 3, Scatter: 0.6 * geometry.Degree, Uncertainty: 0.4 * geometry.Degree}
	findings := []mark.Judged{edge("a", "inlet wheel", 0, 1), edge("b", "inlet wheel", 0, 1), edge("c", "exhaust wheel", 0, 1)}
	for i := range findings {
		findings[i].Healthy = kept
	}
	_, list := of(t, twoCams, findings)
	v := covariance(findings, list)
	require.InDelta(t, 0.36+0.12, v.At(0, 1)/math.Pow(float64(geometry.Degree), 2), 1e-12)
	require.Zero(t, v.At(0, 2))
	require.InDelta(t, 0.01, v.At(0, 0)/math.Pow(float64(geometry.Degree), 2), 1e-12)
}
