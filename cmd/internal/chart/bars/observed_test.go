package bars

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/chart/draw/drawtest"

	"github.com/stretchr/testify/require"
)

var fromTop = Counted{Unit: "crank degrees from TDC", Low: "before", High: "after", Zero: "TDC"}

// pair is two angles, by their middle and half of what lies between.
func pair(name string, middle, half, within float64, onward int) Pair {
	return Pair{Name: name, Says: "read", From: middle - half, To: middle + half, Onward: onward,
		Middle: Measured{middle, middle - within, middle + within}, Halfway: fmt.Sprintf("%.2f ± %.2f deg", middle, within)}
}

// Any observations: a picture that is sound, and every pair at its angles.
func TestObservedAlways(t *testing.T) {
	for n := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, n))
		o := Observed{Title: "What was seen", Counted: fromTop, Shade: Measured{0, -rng.Float64(), rng.Float64()}, Shading: "Shaded: TDC at 3.36 ± 0.30 deg (95 %)"}
		var spoken []string
		for i := range 1 + rng.IntN(9) {
			half := 60 * rng.Float64()
			p := pair(drawtest.Names.Example(int(n)*20+i)+"x", rng.NormFloat64()*math.Pow(10, 2*rng.Float64()-1), half, rng.Float64(), rng.IntN(3)-1)
			p.Read, p.Doubtful = []float64{p.From, p.To}, rng.IntN(5) == 0
			o.Pairs, spoken = append(o.Pairs, p), append(spoken, strings.TrimSpace(p.Name)+": read; half-way "+p.Halfway)
		}
		svg, err := o.SVG()
		all := sound(t, svg, err, spoken...)
		zero, unit := ruler(t, all, 0)
		seen := drawtest.Named(all, "rect", "seen")
		require.Len(t, seen, len(o.Pairs))
		for i, p := range o.Pairs {
			from, to := atLeast(zero+p.From*unit, zero+p.To*unit, 3)
			require.InDelta(t, from, seen[i].At(t).X, 0.02, "seed %d, %d", seed, n)
			require.InDelta(t, to-from, seen[i].Number(t, "width"), 0.02)
		}
	}
}

// An arrow points the way the crank was turned; a pair come to from either side has none.
func TestObservedSaysTheTurn(t *testing.T) {
	for _, onward := range []int{1, 0, -1} {
		svg, err := Observed{Counted: fromTop, Pairs: []Pair{pair("dwell", 0.3, 8, 0.5, onward)}}.SVG()
		all := sound(t, svg, err)
		heads, bar := drawtest.Named(all, "path", "text"), drawtest.Named(all, "rect", "seen")[0]
		if onward == 0 {
			require.Empty(t, heads)
			continue
		}
		spots := heads[0].Spots(t)
		require.Equal(t, onward > 0, spots[0].X > spots[1].X)
		end := bar.At(t).X
		if onward > 0 {
			end += bar.Number(t, "width")
		}
		require.InDelta(t, end, spots[0].X, 0.02, "its tip is where motion was seen again")
	}
}

// The middles are enlarged on a scale of their own, with what they should agree with behind
// each; one that does not fit is crossed out and said, in both parts.
func TestMiddlesAreEnlarged(t *testing.T) {
	o := Observed{Counted: fromTop, Shade: Measured{0, -0.3, 0.3}, Shading: "Shaded: TDC", Pairs: []Pair{pair("dwell", 0.4, 8, 0.5, 1), pair("stop", -0.2, 40, 0.1, 0)}}
	o.Pairs[1].Doubtful = true
	svg, err := o.SVG()
	all := sound(t, svg, err, "half-way -0.20 ± 0.10 deg, which does not fit the rest.")
	_, wide := ruler(t, all, 0)
	zero, unit := ruler(t, all, 1)
	require.Greater(t, unit, 20*wide)
	middles := drawtest.Named(all, "path", "middle")
	require.Len(t, middles, 4)
	require.InDelta(t, zero+0.4*unit, middles[2].Spots(t)[0].X, 0.02)
	require.InDelta(t, zero-0.2*unit, middles[3].Spots(t)[0].X, 0.02)
	line := drawtest.Named(all, "line", "reach")[0]
	require.InDelta(t, unit, line.Number(t, "x2")-line.Number(t, "x1"), 0.02)
	shades := drawtest.Named(all, "rect", "band")
	require.Len(t, shades, 4)
	require.InDelta(t, zero-0.3*unit, shades[3].At(t).X, 0.02)
	require.InDelta(t, 0.6*unit, shades[3].Number(t, "width"), 0.02)
	require.Len(t, drawtest.Named(all, "line", "alarmed"), 4, "two strokes in each part")
	require.Contains(t, strings.Join(drawtest.Texts(all), " "), "does not fit the rest")
	require.Contains(t, drawtest.Texts(all), "Half-way between, enlarged")
}

// Of very many the first are drawn, and the others counted; all are said.
func TestManyPairs(t *testing.T) {
	o := Observed{Counted: fromTop}
	for i := range mostPairs + 3 {
		o.Pairs = append(o.Pairs, pair(fmt.Sprintf("stop %d", i+1), 0, 30, 0.1, 0))
	}
	svg, err := o.SVG()
	all := sound(t, svg, err, "stop 43: read")
	require.Contains(t, drawtest.Texts(all), "The first 40; 3 pairs more.")
	require.Len(t, drawtest.Named(all, "rect", "seen"), mostPairs)
}

func TestObservedRefuses(t *testing.T) {
	_, err := Observed{}.SVG()
	require.ErrorContains(t, err, "at least one")
	_, err = Observed{Pairs: []Pair{pair("dwell", math.NaN(), 1, 1, 0)}}.SVG()
	require.ErrorContains(t, err, `"dwell"`)
}

// drawnPanels is any panels.
func drawnPanels(n uint64) Panels {
	rng := rand.New(rand.NewPCG(seed, n))
	p := Panels{Title: "What is left", X: fromTop, Y: "depth, in", Kinds: []string{"turned forward", "turned backward"}}
	size := math.Pow(10, 4*rng.Float64()-3)
	for i := range 1 + rng.IntN(12) {
		one := Panel{Name: fmt.Sprintf("Cylinder %d", i+1), Says: []string{"TDC 123.45 ± 0.20°", "24 readings"}, Shade: Measured{0, -0.2, 0.2}}
		for range rng.IntN(30) {
			one.Points = append(one.Points, Point{X: 40 * rng.NormFloat64(), Y: size * rng.NormFloat64(), Kind: rng.IntN(2)})
		}
		if len(one.Points) > 0 && rng.IntN(3) == 0 {
			one.Points[0].Y, one.Points[0].Doubtful = 50*size, true
			one.Says = append(one.Says, "does not fit: lines 2, 13, 17, 45 and a great many others that are hardly worth naming")
		}
		p.Panels = append(p.Panels, one)
	}
	return p
}

// Any panels: a picture that is sound, with every panel's words, and every point to the
// scale that all share.
func TestPanelsAlways(t *testing.T) {
	for n := range uint64(200) {
		p := drawnPanels(n)
		var spoken []string
		for _, one := range p.Panels {
			spoken = append(spoken, one.Name+": "+strings.Join(one.Says, ", "))
		}
		svg, err := p.SVG()
		all := sound(t, svg, err, spoken...)
		plots, dots, g := drawtest.Named(all, "rect", "zone"), drawtest.Named(all, "circle", "fill0")[1:], p.grid() // after that of the words
		require.Len(t, plots, len(p.Panels))
		for i, one := range p.Panels {
			for _, at := range one.Points {
				if at.Kind != 0 || at.Doubtful {
					continue
				}
				b := plots[i]
				middle, high := b.At(t).X+b.Number(t, "width")/2, b.At(t).Y+panelHigh/2
				require.InDelta(t, middle+at.X/g.across.end*(b.Number(t, "width")/2-inset), dots[0].Number(t, "cx"), 0.02, "seed %d, %d, panel %d: %v", seed, n, i, at)
				require.InDelta(t, high-at.Y/g.up.end*(panelHigh/2-inset), dots[0].Number(t, "cy"), 0.02)
				dots = dots[1:]
			}
		}
		require.Empty(t, dots)
	}
}

// What does not fit does not flatten the others: it is an arrow at the edge, up or down, or
// crossed out where there is room.
func TestOutliersOfPanels(t *testing.T) {
	fine := []Point{{X: -20, Y: 0.01}, {X: 20, Y: -0.012, Kind: 1}}
	for _, c := range []struct {
		y             float64
		arrow, upward bool
	}{{1, true, true}, {-1, true, false}, {0.005, false, false}} {
		p := Panels{X: fromTop, Y: "mm", Panels: []Panel{{Name: "Cylinder 1", Points: append([]Point{{X: 3, Y: c.y, Doubtful: true}}, fine...)}}}
		require.InDelta(t, 0.015, p.grid().up.end, 1e-12)
		svg, err := p.SVG()
		all := sound(t, svg, err)
		arrows := drawtest.Named(all, "path", "warn")
		require.Equal(t, c.arrow, len(arrows) == 1)
		require.Equal(t, !c.arrow, len(drawtest.Named(all, "line", "alarmed")) == 2)
		if c.arrow {
			spots := arrows[0].Spots(t)
			require.Equal(t, c.upward, spots[0].Y < spots[1].Y)
		}
	}
}

func TestPanelsRefuse(t *testing.T) {
	_, err := Panels{}.SVG()
	require.ErrorContains(t, err, "at least one")
	_, err = Panels{Panels: []Panel{{Name: "Cylinder 1", Points: []Point{{Y: math.Inf(1)}}}}}.SVG()
	require.ErrorContains(t, err, `"Cylinder 1"`)
	require.GreaterOrEqual(t, draw.SmallSize, 11*width/340)
}
