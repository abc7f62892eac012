package wheel

import "io"

// Trace is when the signals of a capture cross their middles.
type Trace struct {
	Survey
	edges []crossings // crank first
}

// Time reads a capture for the second time.
func Time(r io.Reader, s Survey) (Trace, error) {
	in := newRows(opened(r), s.layout, s.request.Time != "")
	values := make([]float64, len(s.layout.columns))
	channels := values
	if in.timed {
		channels = values[1:]
	}
	detectors := make([]*detector, len(channels))
	for i := range detectors {
		detectors[i] = newDetector(s.channels[i], s.step)
	}
	unit := s.request.Unit.seconds(s.request.Rate)
	row := 0
	for ; ; row++ {
		more, err := in.next(values)
		if err != nil {
			return Trace{}, err
		}
		if !more {
			break
		}
		t := s.at(row, values[0], unit)
		for i, v := range channels {
			detectors[i].take(t, v)
		}
	}
	if row != s.rows {
		return Trace{}, faultf("had %d rows when it was first read and %d now: something is writing to it", s.rows, row)
	}
	trace := Trace{Survey: s}
	for _, d := range detectors {
		trace.edges = append(trace.edges, d.out)
	}
	return trace, nil
}
