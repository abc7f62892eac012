package capture

import (
	"io"

	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/signal"
)

// Trace is when the signals of a capture cross their middles.
type Trace struct {
	Survey
	Edges  []signal.Crossings // crank first
	Bounce int                // changes that were bounce
	Used   float64            // how much of the capture was used, s; 0 all of it
}

// mostCrossings of all channels together keep what a capture costs within 200 MB
// of memory, however long it is: 8,000 turns of 60-2.
const mostCrossings = 1_000_000

// Time reads a capture for the second time. Errors are those of Again.
func Time(r io.Reader, s Survey) (Trace, error) {
	trace := Trace{Survey: s}
	kept := signal.Room{Left: mostCrossings}
	timers := s.timers(&kept)
	fine, end, full := fineness{}, 0.0, false
	err := s.Again(r, func(t float64, channels []float64) {
		if full = full || kept.Left <= 0; full {
			return
		}
		for i, v := range channels {
			timers[i].Take(t, v)
		}
		if end = t; s.Changes {
			fine.take(t)
		}
	})
	if err != nil {
		return Trace{}, err
	}
	for _, d := range timers {
		found, bounce := d.Done()
		trace.Edges = append(trace.Edges, found)
		trace.Bounce += bounce
	}
	if s.Changes {
		trace.Step = fine.step()
	}
	if full {
		trace.Used = end - s.start
		trace.Notes = append(trace.Notes, finding.UsedInPart{Seconds: trace.Used, Edges: mostCrossings})
	}
	return trace, nil
}

func (s Survey) timers(kept *signal.Room) []signal.Timer {
	var out []signal.Timer
	for _, l := range s.Channels {
		if s.Changes {
			out = append(out, signal.NewChanges(l, kept))
		} else {
			out = append(out, signal.NewDetector(l, s.Step, kept))
		}
	}
	return out
}

// Again goes through the rows of a capture that was surveyed: the time, s, and
// the channels, crank first, which are good until the next row. An error is of a file that
// was changed since.
func (s Survey) Again(r io.Reader, take func(t float64, channels []float64)) error {
	in := newRows(opened(r), s.layout, s.Request.Time != "")
	unit := s.Request.Unit.seconds(s.Request.Rate)
	row := 0
	err := in.all(func(stamp float64, channels []float64) error {
		take(s.at(row, stamp, unit), channels)
		row++
		return nil
	})
	if err == nil && row != s.rows {
		return fault.Errorf("had %d rows when it was first read and %d now: something is writing to it", s.rows, row)
	}
	return err
}
