package timing

import (
	"cmp"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// phased is the passings set on one cycle, and how long that is: two turns, or
// what of them the cam pattern does not tell apart.
type phased struct {
	all    []sighting
	period geometry.Angle
	turns  int // whole turns that the passings come from
	unsure int // turns left out since the pattern did not place them
	// begins is where each run that is placed begins in the cycle, by its number.
	begins map[int]geometry.Angle
}

// phase tells which part of the cycle each run begins at by the cam pattern, of
// parts that the crank wheel does not tell apart: a cycle's two turns, or equal
// parts of them. The run of most turns shows the pattern; the others are set by it.
func phase(all []sighting, runs []teeth.Run, part geometry.Angle) phased {
	longest := 0
	p := phased{begins: map[int]geometry.Angle{}}
	for i, r := range runs {
		p.begins[i] = 0
		if r.Turns > runs[longest].Turns {
			longest = i
		}
	}
	p.all = ofRun(all, longest)
	p.turns = runs[longest].Turns
	p.period = periodOf(p.all, p.turns, part)
	reference := groups(p.all, p.period)
	for i, r := range runs {
		if i == longest {
			continue
		}
		shift, sure := fit(ofRun(all, i), reference, p.period, part)
		if !sure {
			p.unsure += r.Turns
			delete(p.begins, i)
			continue
		}
		p.begins[i] = shift
		for _, s := range ofRun(all, i) {
			s.angle += shift
			p.all = append(p.all, s)
		}
		p.turns += r.Turns
	}
	p.begin(part)
	return p
}

// periodOf is the angle after which a run's pattern comes again: two turns, or as
// few parts of them as it does; one turn, or part, where there are no two turns.
func periodOf(pattern []sighting, turns int, part geometry.Angle) geometry.Angle {
	if turns < 2 {
		return part
	}
	whole := groups(pattern, cycle)
	parts := int(math.Round(float64(cycle / part)))
	for n := 1; n < parts; n++ {
		if period := geometry.Angle(n) * part; parts%n == 0 && alike(whole, period) {
			return period
		}
	}
	return cycle
}

// fit is the part by which passings have to be turned on to be the pattern's.
func fit(mine []sighting, pattern []group, period, part geometry.Angle) (shift geometry.Angle, sure bool) {
	least := math.MaxInt
	for n := range int(math.Round(float64(period / part))) {
		turned := geometry.Angle(n) * part
		switch m := misfits(mine, pattern, turned, period); {
		case m < least:
			least, shift, sure = m, turned, true
		case m == least:
			sure = false
		}
	}
	return shift, sure
}

func ofRun(all []sighting, run int) []sighting {
	var out []sighting
	for _, s := range all {
		if int(s.run) == run {
			out = append(out, s)
		}
	}
	return out
}

// alike says whether every edge has its like so much later in the cycle.
func alike(all []group, later geometry.Angle) bool {
	for _, g := range all {
		if !slices.ContainsFunc(all, func(o group) bool {
			return o.channel == g.channel && o.kind == g.kind && oneEdge(o.mean(cycle), g.mean(cycle)+later, cycle)
		}) {
			return false
		}
	}
	return true
}

// oneEdge says whether two angles of a period can be one edge's.
func oneEdge(a, b, period geometry.Angle) bool {
	return math.Abs(math.Remainder(float64(a-b), float64(period))) < float64(apart)
}

// misfits is how many passings have no edge of the pattern where they come, when
// turned on by shift.
func misfits(all []sighting, pattern []group, shift, period geometry.Angle) int {
	n := 0
	for _, s := range all {
		if !slices.ContainsFunc(pattern, func(g group) bool {
			return g.channel == int(s.channel) && g.kind == s.kind() && oneEdge(g.mean(period), s.angle+shift, period)
		}) {
			n++
		}
	}
	return n
}

// begin chooses the first of the parts, the same for every capture of an engine: of
// the first cam, the one with more edges, or else the one whose first edge comes
// sooner, or rises, and among alike ones the one that the others follow so.
func (p *phased) begin(part geometry.Angle) {
	if len(p.all) == 0 || p.period <= part {
		return
	}
	all := groups(p.all, p.period)
	slices.SortFunc(all, func(a, b group) int { return cmp.Compare(a.mean(p.period), b.mean(p.period)) })
	channel := p.all[0].channel
	for _, s := range p.all {
		channel = min(channel, s.channel)
	}
	parts := make([][]group, int(math.Round(float64(p.period/part))))
	for _, g := range all {
		if g.channel == int(channel) {
			which := min(int(g.mean(p.period)/part), len(parts)-1)
			parts[which] = append(parts[which], g)
		}
	}
	shift := geometry.Angle((len(parts)-first(parts, part))%len(parts)) * part
	for i := range p.all {
		p.all[i].angle += shift
	}
	for i := range p.begins {
		p.begins[i] += shift
	}
}

func first(parts [][]group, part geometry.Angle) int {
	best := 0
	for i := range parts {
		for k := range parts {
			a, b := parts[(i+k)%len(parts)], parts[(best+k)%len(parts)]
			if order := comesFirst(a, b, part); order != 0 {
				if order < 0 {
					best = i
				}
				break
			}
		}
	}
	return best
}

// comesFirst is minus where part a is to be the first rather than b, and 0 where
// neither is.
func comesFirst(a, b []group, part geometry.Angle) int {
	if len(a) != len(b) || len(a) == 0 {
		return len(b) - len(a)
	}
	if one, other := a[0].mean(part), b[0].mean(part); math.Abs(float64(one-other)) > float64(apart) {
		return cmp.Compare(one, other)
	}
	rank := map[signal.Way]int{signal.Rising: 0, signal.Falling: 1}
	return rank[a[0].kind] - rank[b[0].kind]
}
