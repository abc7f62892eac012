package edges

import (
	"fmt"
	"math"
	"regexp"
	"strconv"

	"evendrop/geometry"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

var placeName = regexp.MustCompile(`^cam edge [0-9]+, column ([0-9]+) (rising|falling)` + afterGap + `$`)

// mostTimes stands for uncertainties that are known for good.
const mostTimes = 1_000_000

// knownEdges is the edges of a known-good file as a capture's, to compare another
// capture with. What the file does not tell, such as the speed, is taken to be
// alike.
func knownEdges(file string, like timing.Result) (timing.Result, error) {
	known, err := job.OpenKnownGood(file)
	if err != nil {
		return timing.Result{}, err
	}
	r := like
	r.Edges, r.Step = nil, 0
	for _, h := range known.Marks {
		m := placeName.FindStringSubmatch(h.Name)
		if m == nil || !h.Measured {
			continue
		}
		column, err := strconv.Atoi(m[1])
		if err != nil {
			continue
		}
		if !h.TwoTurns {
			r.Period = geometry.Turn
		}
		r.Edges = append(r.Edges, knownEdge(h, column, signal.Way(m[2])))
	}
	if len(r.Edges) == 0 {
		return r, fmt.Errorf(`%s: has no mark named as the places of edges are, such as "cam edge 1, column 3 rising%s": `+
			"write them into a healthy engine's job with --into JOB, and make that known-good with evendrop keep", file, afterGap)
	}
	return r, nil
}

// knownEdge is an edge seen as often, and scattering so, that its mean is known as
// the mark is: with what engines of the family differ by.
func knownEdge(h mark.Healthy, column int, way signal.Way) timing.Edge {
	count := int(math.Max(2, math.Min(mostTimes, h.DegreesOfFreedom+1)))
	u := math.Hypot(float64(h.Uncertainty), float64(h.Scatter))
	return timing.Edge{Channel: column, Kind: way, Angle: h.Angle, Deviation: geometry.Angle(u * math.Sqrt(float64(count))), Count: count}
}
