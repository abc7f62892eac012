package wheel

import (
	"fmt"
	"slices"
)

// shown is what the crank signal shows, whatever wheel was told.
type shown struct {
	pattern
	repeat int // patterns after which the cams come again; 0 when they do not tell
}

// shows finds the pattern of the edges, one way or both. Where one way has a
// pattern that takes twice as long or longer to come again, that way tells parts of
// the turn apart that look alike the other way.
func (t Trace) shows(asked Way) shown {
	var best shown
	var leads Way
	for _, way := range []Way{Falling, Rising} {
		p := patternOf(t.edges[0].way(way))
		switch {
		case p == nil || asked != "" && way != asked || best.pattern != nil && best.pitches() >= 2*p.pitches():
		case best.pattern == nil || p.pitches() >= 2*best.pitches() || len(p.written(1)) < len(best.written(1)):
			best.pattern, leads = p, way
		}
	}
	if best.pattern == nil {
		return best
	}
	if part, err := best.wheel(1); err == nil {
		best.repeat = t.camsRepeat(part, leads)
	}
	return best
}

// leastPitches is how many pitches a pattern has that is a turn for sure: below,
// it may come several times in a turn, as the three equal parts of 36-2-2-2 do, and
// of 24-1 it is not known to (common practice, no source).
const leastPitches = 24

// parts is how many times the pattern comes in a turn, and whether that is known. A
// cam comes again after two turns; one that does so after an odd number of parts,
// after one; and one that does after every part tells nothing.
func (s shown) parts() (int, bool) {
	switch {
	case s.repeat > 0 && s.repeat%2 == 0:
		return s.repeat / 2, true
	case s.repeat > 1:
		return s.repeat, true
	}
	return 1, s.pitches() >= leastPitches
}

// place is the wheel as it was told, or where its places were not told or fit no
// turn, as the signal shows it.
func (t Trace) place(told Wheel, asked Way) (Wheel, error) {
	if len(told.Intervals) > 0 && (told.gaps == nil || t.hasTurns(told)) {
		return told, nil
	}
	s := t.shows(asked)
	if s.pattern == nil {
		return told, t.nothingAgain(told)
	}
	parts, sure := s.parts()
	if told.gaps != nil {
		parts, sure = told.pitches/s.pitches(), true
		if told.pitches%s.pitches() != 0 || !slices.Equal(s.gaps(parts), told.gaps) {
			return told, t.mismatch(told)
		}
	}
	if !sure {
		return told, faultf("column %d does not tell its wheel: %s", t.column(0)+1, s.advice(told))
	}
	placed, err := s.wheel(parts)
	if err != nil {
		return told, t.nothingAgain(told)
	}
	if told.Name != "" {
		placed.Name = told.Name
	}
	return placed, nil
}

func (t Trace) hasTurns(w Wheel) bool {
	c := t.edges[0]
	return findTurns(c.rising, w).used+findTurns(c.falling, w).used > 0
}

// nothingAgain says that no turn comes again.
func (t Trace) nothingAgain(told Wheel) error {
	if told.Name == "" {
		return faultf("%s and no two turns among them that look alike: capture two turns or more, choose another column with --crank, "+
			"or say with --wheel what wheel it is", t.teeth())
	}
	return faultf("%s and no turn of %s among them: check --crank and --wheel, and that the engine turned evenly all the while", t.teeth(), told.Name)
}

// mismatch says what wheel the crank signal shows instead.
func (t Trace) mismatch(told Wheel) error {
	column := t.column(0) + 1
	s := t.shows("")
	if s.pattern == nil {
		return t.nothingAgain(told)
	}
	if seen, err := s.wheel(1); err == nil && told.gaps == nil && seen.Pitches() == told.Pitches() && seen.Teeth() == told.Teeth()-1 {
		return faultf("column %d shows no turn of %s, and a tooth fewer in every turn, as %s has: look at the wheel and its sensor for a broken tooth. "+
			"Beside the gap it moves where angles count from, so type --wheel %s only when that is the wheel", column, told.Name, seen.Name, seen.Name)
	}
	return faultf("column %d shows no turn of %s: %s", column, told.Name, s.advice(told))
}

// advice says what wheel to type, or what to do where the signal does not tell it.
func (s shown) advice(told Wheel) string {
	parts, sure := s.parts()
	if sure {
		name := s.written(parts)
		return fmt.Sprintf("what comes again in it is %s: if that is the wheel, damaged or not, type --wheel %s", name, name)
	}
	choices := fmt.Sprintf("--wheel %s", s.written(1))
	others := []int{2, 3}
	if p := told.told(); p > s.pitches() && p%s.pitches() == 0 {
		others = slices.Compact(slices.Sorted(slices.Values(append(others, p/s.pitches()))))
	}
	for _, n := range others {
		choices += fmt.Sprintf(", or --wheel %s (%s in %d equal parts, at 1/%d of the speed)", s.list(n), s.name(n), n, n)
	}
	return fmt.Sprintf("%d teeth and a gap of %d come again in it, and the crank signal alone does not tell how often in a turn. "+
		"Add the cams' columns with --cam, which tell, or type the wheel that the engine is known to have: %s", len(s.pattern), s.gaps(1)[0], choices)
}

// told is how many pitches were told; 0 of none.
func (w Wheel) told() int {
	switch {
	case w.pitches > 0:
		return w.pitches
	case len(w.Intervals) > 0:
		return w.Pitches()
	}
	return 0
}

// usual are wheels that most engines have one of (common practice, no source).
var usual = []string{"60-2", "36-1"}

// otherwise is the wheel that the signal plainly shows where it is another than the
// one told; "" of none. Its teeth are counted surely; how wide the gap is, where the
// speed ripples, only so well that a wheel that is usual is believed before one that
// is not. A wheel of one gap is meant: of others, what a damaged tooth does to them
// looks like another wheel.
func (t Trace) otherwise(w Wheel) string {
	if !w.plain() {
		return ""
	}
	other := ""
	for _, way := range []Way{Rising, Falling} {
		p := patternOf(t.edges[0].way(way))
		if p == nil {
			continue
		}
		seen := p.written(1)
		parsed, err := Parse(seen)
		switch {
		case err != nil || !parsed.plain():
		case parsed.Teeth() == w.Teeth() && (parsed.Alike(w) || slices.Contains(usual, w.Name) || !slices.Contains(usual, seen)):
			return ""
		default:
			other = seen
		}
	}
	return other
}
