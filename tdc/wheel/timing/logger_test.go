package timing_test

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// logger is a logic analyser: a row only when a level changes.
type logger struct {
	channels int     // crank, and cams as the engine has; others beside them tick by themselves
	tick     float64 // s, to which times are rounded
	standing float64 // s, of levels that hold before the engine turns
	bounce   int     // pulses of a microsecond after every so-manyth edge; 0 none
	early    int     // pulses of a microsecond at the very start
	long     int     // this tooth of the crank reaches to the next, over a gap; 0 none
}

func analyser() logger { return logger{channels: 2, tick: 0.25e-6, standing: 0.7} }

// change is a channel's new level.
type change struct {
	t       float64
	channel int
	high    bool
}

// turnings are the levels of a channel by angle, one period of them.
type turnings struct {
	period float64
	edges  []float64 // rising and falling by turns
}

// crankTurnings are the leads and ends of the crank's teeth.
func (e engine) crankTurnings(l logger) turnings {
	out := turnings{period: 360}
	for i := range e.teeth {
		end := e.teeth[i] + e.width
		if i == l.long && i > 0 {
			end = e.teeth[i+1] - e.width
		}
		out.edges = append(out.edges, e.lead(i), end)
	}
	return out
}

// exactly is when each channel changes: the time at which the engine passes each
// edge, from its speed in steps of a degree by Simpson's rule.
func (e engine) exactly(l logger) []change {
	all := []turnings{e.crankTurnings(l)}
	for _, cam := range e.cams {
		all = append(all, turnings{720, cam})
	}
	var out []change
	const step = 1.0
	t := l.standing
	for k := range int(e.turns * 360 / step) {
		from := e.start + float64(k)*step
		for c, s := range all[:min(len(all), l.channels)] {
			for i, edge := range s.edges {
				into := math.Mod(edge-from+100*s.period, s.period)
				if into < step {
					out = append(out, change{t + e.takes(from, into), c, (i%2 == 0) != (e.reversed && c == 0)})
				}
			}
		}
		t += e.takes(from, step)
	}
	for i := range l.channels - len(all) {
		for at := 0.01; at < t; at += 0.037 {
			out = append(out, change{at, len(all) + i, int(at/0.037)%2 == 1})
		}
	}
	slices.SortStableFunc(out, func(a, b change) int { return cmp.Compare(a.t, b.t) })
	return out
}

// takes is the time of a small turn, s.
func (e engine) takes(from, turn float64) float64 {
	return turn / 6 * (1/e.speed(from) + 4/e.speed(from+turn/2) + 1/e.speed(from+turn))
}

// list is the logger's file, and how many changes in it are bounce.
func (e engine) list(l logger) (data []byte, bounces int) {
	var b bytes.Buffer
	b.WriteString("Time[s]")
	for i := range l.channels {
		fmt.Fprintf(&b, ", Channel %d", i)
	}
	b.WriteString("\n")
	level := make([]bool, l.channels)
	level[0] = e.reversed
	row := func(t float64) {
		b.WriteString(strconv.FormatFloat(math.Round(t/l.tick)*l.tick, 'f', 8, 64))
		for _, high := range level {
			b.WriteString(map[bool]string{true: ", 1", false: ", 0"}[high])
		}
		b.WriteString("\n")
	}
	row(0)
	flips := e.flips(l)
	for _, f := range flips {
		level[f.channel] = !level[f.channel]
		row(f.t)
		if f.bounce {
			bounces++
		}
	}
	return b.Bytes(), bounces
}

// flip is a change of a channel to its other level.
type flip struct {
	t       float64
	channel int
	bounce  bool
}

// flips are the changes with what bounces, in the order of time.
func (e engine) flips(l logger) []flip {
	var out []flip
	pulse := func(t float64, channel int) {
		out = append(out, flip{t + 1e-6, channel, true}, flip{t + 2e-6, channel, true})
	}
	for i := range l.early {
		pulse(0.001+float64(i)*3e-6, 0)
	}
	level := make([]bool, l.channels)
	level[0] = e.reversed
	for i, c := range e.exactly(l) {
		if level[c.channel] == c.high { // as the capture begins
			continue
		}
		level[c.channel] = c.high
		out = append(out, flip{c.t, c.channel, false})
		if l.bounce > 0 && i%l.bounce == 0 {
			pulse(c.t, c.channel)
		}
	}
	slices.SortStableFunc(out, func(a, b flip) int { return cmp.Compare(a.t, b.t) })
	return out
}
