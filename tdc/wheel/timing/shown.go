package timing

import (
	"fmt"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/fault"
	"evendrop/tdc/wheel/pattern"
	"evendrop/tdc/wheel/signal"
	"evendrop/tdc/wheel/teeth"
)

// shown is what the crank signal shows, whatever wheel was told.
type shown struct {
	pattern.Pattern
	repeat int // patterns after which the cams come again; 0 when they do not tell
}

// shows finds the pattern of the edges, one way or both. Where one way has a
// pattern that takes twice as long or longer to come again, that way tells parts of
// the turn apart that look alike the other way.
func (t signals) shows(asked signal.Way) shown {
	var best shown
	var leads signal.Way
	for _, way := range []signal.Way{signal.Falling, signal.Rising} {
		p := pattern.Of(t.Edges[0].Way(way))
		switch {
		case p == nil || asked != "" && way != asked || best.Pattern != nil && best.Pitches() >= 2*p.Pitches():
		case best.Pattern == nil || p.Pitches() >= 2*best.Pitches() || len(p.Written(1)) < len(best.Written(1)):
			best.Pattern, leads = p, way
		}
	}
	if best.Pattern == nil {
		return best
	}
	if part, err := best.Wheel(1); err == nil {
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
	return 1, s.Pitches() >= leastPitches
}

// place is the wheel as it was told, or where its places were not told or fit no
// turn, as the signal shows it.
func (t signals) place(told wheel.Wheel, asked signal.Way) (wheel.Wheel, error) {
	if len(told.Intervals) > 0 && (told.Missing() == nil || t.hasTurns(told)) {
		return told, nil
	}
	s := t.shows(asked)
	if s.Pattern == nil {
		return told, t.nothingAgain(told)
	}
	parts, sure := s.parts()
	if told.Missing() != nil {
		parts, sure = told.PitchesTold()/s.Pitches(), true
		if told.PitchesTold()%s.Pitches() != 0 || !slices.Equal(s.Gaps(parts), told.Missing()) {
			return told, t.mismatch(told)
		}
	}
	if !sure {
		return told, fault.Errorf("column %d does not tell its wheel: %s", t.Column(0)+1, s.unsure()).OrTry(s.choices(told)...)
	}
	placed, err := s.Wheel(parts)
	if err != nil {
		return told, t.nothingAgain(told)
	}
	if told.Name != "" {
		placed.Name = told.Name
	}
	return placed, nil
}

func (t signals) hasTurns(w wheel.Wheel) bool {
	c := t.Edges[0]
	return teeth.Find(c.Rising, w).Used+teeth.Find(c.Falling, w).Used > 0
}

// nothingAgain says that no turn comes again.
func (t signals) nothingAgain(told wheel.Wheel) error {
	if told.Name == "" {
		return fault.Errorf("%s and no two turns among them that look the same", t.teeth()).
			Or(fault.MoreTurns).Or(fault.CrankColumn).OrWheel("")
	}
	return fault.Errorf("%s and no turn of %s among them: make sure that the engine turned evenly throughout", t.teeth(), told.Name).
		Or(fault.CrankColumn).OrWheel("")
}

// teeth says how many teeth the crank's column has.
func (t signals) teeth() string {
	text := fmt.Sprintf("column %d has %d teeth", t.Column(0)+1, max(len(t.Edges[0].Rising), len(t.Edges[0].Falling)))
	if t.Used > 0 {
		text += fmt.Sprintf(" in the first %s s of the capture, as many as are kept at once,", geometry.Decimal(t.Used, 3))
	}
	return text
}

// mismatch says what wheel the crank signal shows instead.
func (t signals) mismatch(told wheel.Wheel) error {
	column := t.Column(0) + 1
	s := t.shows("")
	if s.Pattern == nil {
		return t.nothingAgain(told)
	}
	if seen, err := s.Wheel(1); err == nil && told.Missing() == nil && seen.Pitches() == told.Pitches() && seen.Teeth() == told.Teeth()-1 {
		return fault.Errorf("column %d shows no turn of %s, but a tooth fewer in every turn, as on a %s wheel. Look at the wheel and its sensor for a broken tooth. "+
			"Beside the gap a broken tooth moves where angles count from", column, told.Name, seen.Name).OrWheel(seen.Name)
	}
	parts, sure := s.parts()
	if sure {
		name := s.Written(parts)
		return fault.Errorf("column %d shows no turn of %s; what repeats in it, damaged or not, is %s", column, told.Name, name).OrWheel(name)
	}
	return fault.Errorf("column %d shows no turn of %s; %s", column, told.Name, s.unsure()).OrTry(s.choices(told)...)
}

// unsure says why the crank signal does not tell the wheel.
func (s shown) unsure() string {
	return fmt.Sprintf("%d teeth and a gap of %d repeat in it, and the crank signal alone does not show how often in a turn", len(s.Pattern), s.Gaps(1)[0])
}

func (s shown) choices(told wheel.Wheel) []fault.Try {
	all := []fault.Try{{Say: fault.AddCams}, {Say: fault.TheWheel, Wheel: s.Written(1)}}
	others := []int{2, 3}
	if p := told.PitchesTold(); p > s.Pitches() && p%s.Pitches() == 0 {
		others = slices.Compact(slices.Sorted(slices.Values(append(others, p/s.Pitches()))))
	}
	for _, n := range others {
		all = append(all, fault.Try{Say: fault.TheWheel, Wheel: s.List(n), Name: s.Name(n), Parts: n})
	}
	return all
}

// usual are wheels that most engines have one of (common practice, no source).
var usual = []string{"60-2", "36-1"}

// otherwise is the wheel that the signal plainly shows where it is another than the
// one told; "" of none. Its teeth are counted surely; how wide the gap is, where the
// speed ripples, only so well that a wheel that is usual is believed before one that
// is not. A wheel of one gap is meant: of others, what a damaged tooth does to them
// looks like another wheel.
func (t signals) otherwise(w wheel.Wheel) string {
	if !w.Plain() {
		return ""
	}
	other := ""
	for _, way := range []signal.Way{signal.Rising, signal.Falling} {
		p := pattern.Of(t.Edges[0].Way(way))
		if p == nil {
			continue
		}
		seen := p.Written(1)
		parsed, err := wheel.Parse(seen)
		switch {
		case err != nil || !parsed.Plain():
		case parsed.Teeth() == w.Teeth() && (parsed.Alike(w) || slices.Contains(usual, w.Name) || !slices.Contains(usual, seen)):
			return ""
		default:
			other = seen
		}
	}
	return other
}
