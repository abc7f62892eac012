package wheel

import "io"

// Trace is when the signals of a capture cross their middles.
type Trace struct {
	Survey
	edges []crossings // crank first
}

// Time reads a capture for the second time.
func Time(r io.Reader, s Survey) (Trace, error) {
	var detectors []*detector
	for _, l := range s.channels {
		detectors = append(detectors, newDetector(l, s.step))
	}
	err := s.again(r, func(t float64, channels []float64) {
		for i, v := range channels {
			detectors[i].take(t, v)
		}
	})
	if err != nil {
		return Trace{}, err
	}
	trace := Trace{Survey: s}
	for _, d := range detectors {
		trace.edges = append(trace.edges, d.out)
	}
	return trace, nil
}

// again goes through the rows of a capture that was surveyed: the time, s, and
// the channels, crank first, which are good until the next row.
func (s Survey) again(r io.Reader, take func(t float64, channels []float64)) error {
	in := newRows(opened(r), s.layout, s.request.Time != "")
	values := make([]float64, len(s.layout.columns))
	channels := values
	if in.timed {
		channels = values[1:]
	}
	unit := s.request.Unit.seconds(s.request.Rate)
	row := 0
	for ; ; row++ {
		more, err := in.next(values)
		if err != nil {
			return err
		}
		if !more {
			break
		}
		take(s.at(row, values[0], unit), channels)
	}
	if row != s.rows {
		return faultf("had %d rows when it was first read and %d now: something is writing to it", s.rows, row)
	}
	return nil
}
