package wheel

import (
	"fmt"
	"io"
)

// Trace is when the signals of a capture cross their middles.
type Trace struct {
	Survey
	edges  []crossings // crank first
	bounce int         // changes that were bounce
	used   float64     // how much of the capture was used, s; 0 all of it
}

// timer finds when a channel crosses its middle.
type timer interface {
	take(t, v float64)
	done() (found crossings, bounce int)
}

// room is how many crossings may still be kept.
type room struct{ left int }

// mostCrossings of all channels together keep what a capture costs within 200 MB
// of memory, however long it is: 8,000 turns of 60-2.
const mostCrossings = 1_000_000

// Time reads a capture for the second time.
func Time(r io.Reader, s Survey) (Trace, error) {
	trace := Trace{Survey: s}
	kept := room{mostCrossings}
	timers := s.timers(&kept)
	fine, end, full := fineness{}, 0.0, false
	err := s.again(r, func(t float64, channels []float64) {
		if full = full || kept.left <= 0; full {
			return
		}
		for i, v := range channels {
			timers[i].take(t, v)
		}
		if end = t; s.changes {
			fine.take(t)
		}
	})
	if err != nil {
		return Trace{}, err
	}
	for _, d := range timers {
		found, bounce := d.done()
		trace.edges = append(trace.edges, found)
		trace.bounce += bounce
	}
	if s.changes {
		trace.step = fine.step()
	}
	if full {
		trace.used = end - s.start
		trace.notes = append(trace.notes, fmt.Sprintf("Only %s were used: %d edges are there by then, which are as many as are kept at once.", trace.firstPart(), mostCrossings))
	}
	return trace, nil
}

// timers are a timer for each channel.
func (s Survey) timers(kept *room) []timer {
	var out []timer
	for _, l := range s.channels {
		if s.changes {
			out = append(out, &changes{middle: l.mean, room: kept})
		} else {
			out = append(out, newDetector(l, s.step, kept))
		}
	}
	return out
}

// firstPart says how much of a capture was used.
func (t Trace) firstPart() string { return fmt.Sprintf("the first %.3g s of the capture", t.used) }

// teeth says how many teeth the crank's column has.
func (t Trace) teeth() string {
	text := fmt.Sprintf("column %d has %d teeth", t.column(0)+1, max(len(t.edges[0].rising), len(t.edges[0].falling)))
	if t.used > 0 {
		text += " in " + t.firstPart() + ", as many as are kept at once,"
	}
	return text
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
