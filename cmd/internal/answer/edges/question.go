package edges

import (
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/job/knowngood"
	"evendrop/tdc/job/source"
	"evendrop/tdc/mark"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/timing"
)

// Question is what is asked of a capture.
type Question struct {
	file      string
	Request   capture.Request
	Wheel     wheel.Wheel // as stated; none where the signal is to show it
	CrankEdge signal.Way  // "" where the signal is to show it
	Against   string      // an earlier capture, or a known-good file; "" without one
	On        []string    // the members that carry the cam wheels; may be empty
	// Open opens a capture for one reading.
	Open func(file string) (io.ReadCloser, error)
}

// Answer measures the capture, and compares it with the other one. An error is of a capture
// that cannot be read or measured, or not compared.
func (q Question) Answer() (Edges, error) {
	answer := Edges{file: q.file, against: q.Against, on: q.On}
	var err error
	if answer.result, err = q.measure(q.file); err != nil || q.Against == "" {
		return answer, err
	}
	comparison, err := q.compare(answer.result)
	answer.comparison = &comparison
	return answer, err
}

// measure reads a capture, twice.
func (q Question) measure(file string) (timing.Result, error) {
	var survey capture.Survey
	var trace capture.Trace
	var result timing.Result
	err := q.reading(file, func(r io.Reader) (err error) {
		survey, err = capture.Look(r, q.Request)
		return err
	})
	if err == nil {
		err = q.reading(file, func(r io.Reader) (err error) {
			trace, err = capture.Time(r, survey)
			return err
		})
	}
	if err == nil {
		result, err = timing.Measure(trace, q.Wheel, q.CrankEdge)
	}
	return result, inCapture(file, err)
}

// Draw reads the capture once more for the answer's picture. An error is of a capture that
// cannot be read any more.
func (q Question) Draw(answer Edges) ([]byte, error) {
	var traces []timing.Folded
	err := q.reading(answer.file, func(r io.Reader) (err error) {
		traces, err = answer.result.Fold(r)
		return err
	})
	if err != nil {
		return nil, inCapture(answer.file, err)
	}
	return answer.picture(traces)
}

// reading opens a file for the time of one reading.
func (q Question) reading(file string, read func(io.Reader) error) error {
	f, err := q.Open(file)
	if err != nil {
		return err
	}
	defer f.Close()
	return read(f)
}

// compare reads the earlier capture, and compares a result with it.
func (q Question) compare(after timing.Result) (compare.Comparison, error) {
	known := strings.EqualFold(filepath.Ext(q.Against), ".toml")
	measure := q.measure
	if known {
		measure = func(file string) (timing.Result, error) { return knownEdges(file, after) }
	}
	before, err := measure(q.Against)
	if err != nil {
		return compare.Comparison{}, err
	}
	c, err := compare.Compare(before, after)
	if known {
		c.Notes = append(c.Notes, finding.KnownGoodSilent{})
	}
	return c, inCapture(q.Against, err)
}

// inCapture names the file that an error is about, and the line, and says what to type
// instead.
func inCapture(file string, err error) error {
	f, ok := errors.AsType[*fault.Fault](err)
	_, named := errors.AsType[*source.Error](err)
	switch {
	case err == nil || named:
		return err
	case ok && f.Line > 0 && f.Column > 0:
		return fmt.Errorf("%s:%d: column %d: %s", file, f.Line, f.Column, words.Fault(f))
	case ok && f.Line > 0:
		return fmt.Errorf("%s:%d: %s", file, f.Line, words.Fault(f))
	case ok:
		return fmt.Errorf("%s: %s", file, words.Fault(f))
	}
	return fmt.Errorf("%s: %w", file, err)
}

var placeName = regexp.MustCompile(`^cam edge [0-9]+, column ([0-9]+) (rising|falling)` + afterGap + `$`)

// mostTimes stands for uncertainties that are known for good.
const mostTimes = 1_000_000

// knownEdges is the edges of a known-good file as a capture's, to compare another
// capture with. What the file does not tell, such as the speed, is taken to be
// alike.
func knownEdges(file string, like timing.Result) (timing.Result, error) {
	known, err := knowngood.Open(file)
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
		return r, fmt.Errorf(`%s: has no mark named as the places of edges are, such as "cam edge 1, column 3 rising%s". `+
			"Write them into a healthy engine's job with --into JOB, and make that known-good with evendrop keep", file, afterGap)
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
