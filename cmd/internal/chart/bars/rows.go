package bars

import (
	"math"
	"strconv"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
)

// Sizes of rows.
const (
	textLeft = draw.Margin + 22 // of names, after the sign
	textWide = width - draw.Margin - textLeft
	nameMost = 2 // lines of a name, and of its words
	laneHigh = 20.0
	wasHigh  = 12.0 // by which a lane is higher with what was before
	rowGap   = 9.0
	longList = 6 // bars beyond which the scale's numbers are repeated below
)

// bars draws a scale and a row for each bar.
func (s *sheet) bars(c Counted, bars []Bar) {
	sc := newScale(bars)
	s.axis(sc, c)
	beyond := false
	for _, b := range bars {
		s.row(sc, nil, b)
		beyond = beyond || sc.far(b.At) || b.Was != nil && sc.far(b.Was.At)
	}
	s.foot(sc, c.Unit, len(bars) > longList)
	if beyond {
		s.note("An arrow points to what lies beyond the scale, its number beside it.")
	}
}

// axis says what is early, late and zero, and numbers the scale.
func (s *sheet) axis(sc scale, c Counted) {
	low, high := "← "+c.Low, c.High+" →"
	y := s.next + rise
	s.Words("text small", "start", draw.At(draw.Margin, y), low)
	s.Words("text small", "end", draw.At(width-draw.Margin, y), high)
	const apart = 10.0
	room := 2 * math.Min(sc.zero()-draw.Margin-draw.TextWidth(low, draw.SmallSize), width-draw.Margin-draw.TextWidth(high, draw.SmallSize)-sc.zero())
	lines := draw.Wrapped(c.Zero, room-2*apart, draw.SmallSize*draw.Bold, nameMost)
	s.next = s.Lines("text small strong", "middle", draw.At(sc.zero(), y), draw.SmallSize, lines) - rise
	s.numbers(sc)
}

// numbers writes the scale's numbers, which have no sign: words say what lies on each side.
func (s *sheet) numbers(sc scale) {
	s.Moved(draw.At(0, s.next+rise))
	for _, t := range sc.ticks() {
		s.Words("quiet small", "middle", draw.At(sc.at(t), 0), words.Fixed(math.Abs(t), sc.places()))
	}
	s.EndGroup()
	s.next += rise + rowGap
}

// foot says what is counted, below the numbers where they are far up.
func (s *sheet) foot(sc scale, unit string, again bool) {
	if again {
		s.numbers(sc)
		s.next -= rowGap - 4
	}
	s.Words("quiet small", "middle", draw.At(sc.zero(), s.next+rise), draw.Shortened(unit, width-2*draw.Margin, draw.SmallSize))
	s.next += rise + 8
}

// row draws a bar's sign, its name and words, and its lane under them.
func (s *sheet) row(sc scale, shade *Measured, b Bar) {
	s.Group(b.words())
	defer s.EndGroup()
	s.Sign(b.ink(), b.State, draw.At(draw.Margin+7, s.next+draw.TextSize*0.5), signSize)
	lines := []string{b.Says}
	if b.Allowed != "" && !s.beside(b) {
		lines = append(lines, b.Allowed)
	}
	if b.Was != nil {
		lines = append(lines, b.Was.Says)
	}
	class := "text small"
	if b.State == doc.Outside {
		class = "warn small strong"
	}
	s.label(b.Name, class, lines)
	s.lane(sc, shade, b)
	s.next += rowGap
}

// beside writes what is allowed at the right of the name, and tells whether there was room.
func (s *sheet) beside(b Bar) bool {
	if draw.TextWidth(b.Name, draw.TextSize*draw.Bold)+draw.TextWidth(b.Allowed, draw.SmallSize)+10 > textWide {
		return false
	}
	s.Moved(draw.At(0, s.next+draw.TextSize*0.85))
	s.Words("quiet small", "end", draw.At(width-draw.Margin, 0), b.Allowed)
	s.EndGroup()
	return true
}

// label writes a name and lines of words under it, the first in a class of its own.
func (s *sheet) label(name, class string, says []string) {
	y := s.next + draw.TextSize*0.85
	y = s.Lines("text strong", "start", draw.At(textLeft, y), draw.TextSize, draw.Wrapped(name, textWide, draw.TextSize*draw.Bold, nameMost))
	for _, line := range says {
		y = s.Lines(class, "start", draw.At(textLeft, y-1), draw.SmallSize, draw.Wrapped(line, textWide, draw.SmallSize*draw.Bold, nameMost))
		class = "quiet small"
	}
	s.next = y - draw.SmallSize*0.6
}

// lane draws where things lie: what is allowed or shaded, what was, and what is.
func (s *sheet) lane(sc scale, shade *Measured, b Bar) {
	high := laneHigh
	if b.Was != nil {
		high += wasHigh
	}
	s.strip(sc, high, shade, b)
	if b.Was != nil {
		s.was(sc, b.Was.Measured, s.next+laneHigh/2-2)
	}
	s.next += high
	s.is(sc, b, s.next-laneHigh/2)
}

// strip draws a lane's ground, with the scale's ticks, what is shaded and what is allowed on
// it, and zero through all: alike wherever a lane begins.
func (s *sheet) strip(sc scale, high float64, shade *Measured, b Bar) {
	strip := draw.Box{Left: sc.left - endRoom, Right: sc.right + endRoom, Bottom: high}
	s.Moved(draw.At(0, s.next))
	defer s.EndGroup()
	s.Rect("zone", strip)
	if shade != nil {
		from, to := atLeast(sc.at(shade.From), sc.at(shade.To), 2)
		s.Rect("band", draw.Box{Left: from, Right: to, Bottom: high})
	}
	var lines [][2]draw.Spot
	for _, t := range sc.ticks() {
		lines = append(lines, [2]draw.Spot{draw.At(sc.at(t), 0), draw.At(sc.at(t), high)})
	}
	s.Strokes("grid", lines)
	if b.LimitFrom != b.LimitTo {
		s.allowed(sc, b, strip)
	}
	s.Line("axis", draw.At(sc.zero(), -3), draw.At(sc.zero(), high+3))
}

// allowed draws a box round what is allowed, open where it goes on beyond the scale.
func (s *sheet) allowed(sc scale, b Bar, strip draw.Box) {
	low, high := math.Min(b.LimitFrom, b.LimitTo), math.Max(b.LimitFrom, b.LimitTo)
	from, to := atLeast(sc.at(low), sc.at(high), 3)
	if sc.far(low) {
		from = strip.Left
	}
	if sc.far(high) {
		to = strip.Right
	}
	s.Rect("member", draw.Box{Left: from, Top: strip.Top, Right: to, Bottom: strip.Bottom})
}

// is draws a bar's interval and its sign, or an arrow to it.
func (s *sheet) is(sc scale, b Bar, y float64) {
	if sc.far(b.At) {
		s.beyond(sc, b.At, y, func(at draw.Spot) { s.sign(b, at) })
		return
	}
	class := "reach"
	if b.State == doc.Outside {
		class = "reach alarmed"
	}
	s.interval(sc, class, b.Measured, y)
	s.sign(b, draw.At(sc.at(b.At), y))
}

// signSize is how wide the square of a sign is.
const signSize = 12.0

// ink is that of a bar's verdict.
func (b Bar) ink() string {
	if b.State == doc.Outside {
		return "warn"
	}
	return "text"
}

// sign draws a verdict's sign on a lane, what is cut out of it in the paper's ink.
func (s *sheet) sign(b Bar, at draw.Spot) {
	ground := signSize * 0.5
	if b.State == doc.Unjudged {
		ground = signSize * 0.36 // its ring is small
	}
	s.Circle("paper", at, ground)
	s.Sign(b.ink(), b.State, at, signSize)
}

// capHigh is half the height of an interval's ends.
const capHigh = 4.5

// interval draws a line with an end stroke at each end that is on the scale.
func (s *sheet) interval(sc scale, class string, m Measured, y float64) {
	if m.From == m.To {
		return
	}
	from, to := atLeast(sc.at(m.From), sc.at(m.To), 3)
	s.Line(class, draw.At(from, y), draw.At(to, y))
	var ends [][2]draw.Spot
	for _, end := range []float64{m.From, m.To} {
		if x := sc.at(end); !sc.far(end) {
			ends = append(ends, [2]draw.Spot{draw.At(x, y-capHigh), draw.At(x, y+capHigh)})
		}
	}
	s.Strokes(class+" thin", ends)
}

// was draws what was before, hollow and dashed.
func (s *sheet) was(sc scale, m Measured, y float64) {
	const radius = 4.0
	hollow := func(at draw.Spot) { s.Circle("member", at, radius) }
	if sc.far(m.At) {
		s.beyond(sc, m.At, y, hollow)
		return
	}
	if m.From != m.To {
		from, to := atLeast(sc.at(m.From), sc.at(m.To), 3)
		s.Rect("was", draw.Box{Left: from, Top: y - 2.5, Right: to, Bottom: y + 2.5})
	}
	hollow(draw.At(sc.at(m.At), y))
}

// beyond draws what is farther off than the scale reaches: two strokes where it breaks off,
// what is there, its number and an arrow.
func (s *sheet) beyond(sc scale, value, y float64, thing func(draw.Spot)) {
	end, way, anchor := sc.right+endRoom, 1.0, "start"
	if value < 0 {
		end, way, anchor = sc.left-endRoom, -1, "end"
	}
	x := func(by float64) float64 { return end + way*by }
	for _, by := range []float64{2, 5} {
		s.Line("axis", draw.At(x(by)-2, y+5), draw.At(x(by)+2, y-5))
	}
	thing(draw.At(x(15), y))
	number := shortest(math.Abs(value))
	s.Words("text small strong", anchor, draw.At(x(24), y+rise*0.42), number)
	const head, half = 7.0, 5.0
	back := x(28 + draw.TextWidth(number, draw.SmallSize*draw.Bold))
	s.Path("text", []draw.Spot{{X: back + way*head, Y: y}, {X: back, Y: y - half}, {X: back, Y: y + half}}, true)
}

// shortest is a number with three digits at most before what is left out, as beside an arrow.
func shortest(value float64) string {
	places := max(0, 1-int(math.Floor(math.Log10(value))))
	return strconv.FormatFloat(value, 'f', min(places, 2), 64)
}

// atLeast is an interval the right way round, widened to a size that can be seen.
func atLeast(a, b, size float64) (from, to float64) {
	from, to = math.Min(a, b), math.Max(a, b)
	if short := size - (to - from); short > 0 {
		return from - short/2, to + short/2
	}
	return from, to
}
