package wheel

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
)

// phased is the passings set on one cycle, and how long that is: two turns, or
// one where the cam pattern does not tell the turns apart.
type phased struct {
	all    []sighting
	period geometry.Angle
	turns  int // whole turns that the passings come from
	unsure int // turns left out since the pattern did not place them
	// begins is where each run that is placed begins in the cycle, by its number.
	begins map[int]geometry.Angle
}

// phase tells which of a cycle's two turns each is by the cam pattern. The run
// of most turns shows the pattern; the others are set by it.
func phase(all []sighting, runs []run) phased {
	longest := 0
	total := 0
	begins := map[int]geometry.Angle{}
	for i, r := range runs {
		begins[i] = 0
		if r.turns > runs[longest].turns {
			longest = i
		}
		total += r.turns
	}
	pattern := ofRun(all, longest)
	if runs[longest].turns < 2 || alike(groups(pattern, cycle)) {
		return phased{all: all, period: geometry.Turn, turns: total, begins: begins}
	}
	p := phased{all: pattern, period: cycle, turns: runs[longest].turns, begins: begins}
	reference := groups(pattern, cycle)
	for i, r := range runs {
		if i == longest {
			continue
		}
		mine := ofRun(all, i)
		as, turned := misfits(mine, reference, 0), misfits(mine, reference, geometry.Turn)
		if as == turned {
			p.unsure += r.turns
			delete(begins, i)
			continue
		}
		shift := geometry.Angle(0)
		if turned < as {
			shift = geometry.Turn
		}
		begins[i] = shift
		for _, s := range mine {
			s.angle += shift
			p.all = append(p.all, s)
		}
		p.turns += r.turns
	}
	p.begin()
	return p
}

func ofRun(all []sighting, run int) []sighting {
	var out []sighting
	for _, s := range all {
		if s.run == run {
			out = append(out, s)
		}
	}
	return out
}

// alike says whether every edge has its like a turn later.
func alike(all []group) bool {
	for _, g := range all {
		if !slices.ContainsFunc(all, func(o group) bool {
			return o.channel == g.channel && o.kind == g.kind && oneEdge(o.mean(cycle), g.mean(cycle)+geometry.Turn)
		}) {
			return false
		}
	}
	return true
}

// oneEdge says whether two angles of a cycle can be one edge's.
func oneEdge(a, b geometry.Angle) bool {
	return math.Abs(math.Remainder(float64(a-b), float64(cycle))) < float64(apart)
}

// misfits is how many passings have no edge of the pattern where they come, when
// turned on by shift.
func misfits(all []sighting, pattern []group, shift geometry.Angle) int {
	n := 0
	for _, s := range all {
		if !slices.ContainsFunc(pattern, func(g group) bool {
			return g.channel == s.channel && g.kind == s.kind && oneEdge(g.mean(cycle), s.angle+shift)
		}) {
			n++
		}
	}
	return n
}

// begin chooses the first of the two turns, the same for every capture of an
// engine: of the first cam, the turn with more edges, or else the one whose first
// edge comes sooner, or rises.
func (p *phased) begin() {
	all := groups(p.all, cycle)
	slices.SortFunc(all, func(a, b group) int { return cmp.Compare(a.mean(cycle), b.mean(cycle)) })
	channel := p.all[0].channel
	var turn [2][]group
	for _, s := range p.all {
		channel = min(channel, s.channel)
	}
	for _, g := range all {
		if g.channel == channel {
			which := int(g.mean(cycle) / geometry.Turn)
			turn[which] = append(turn[which], g)
		}
	}
	if comesFirst(turn[1], turn[0]) {
		for i := range p.all {
			p.all[i].angle += geometry.Turn
		}
		for i := range p.begins {
			p.begins[i] += geometry.Turn
		}
	}
}

// comesFirst says whether turn a is to be the first rather than b.
func comesFirst(a, b []group) bool {
	if len(a) != len(b) || len(a) == 0 {
		return len(a) > len(b)
	}
	if first, other := a[0].mean(geometry.Turn), b[0].mean(geometry.Turn); math.Abs(float64(first-other)) > float64(apart) {
		return first < other
	}
	return a[0].kind == Rising && b[0].kind == Falling
}
