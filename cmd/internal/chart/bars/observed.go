package bars

import (
	"errors"
	"fmt"
	"math"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/words"
)

// Observed is what was seen at two angles each, such as a dwell, with the middles between
// them enlarged below.
type Observed struct {
	Title       string
	Description string
	Counted
	Pairs   []Pair
	Shade   Measured // what the middles should agree with, drawn through all
	Shading string   // what that is: "Shaded: TDC at 3.36 ± 0.09 deg (95 %)"
}

// Pair is two angles with what is looked for half-way between them.
type Pair struct {
	Name     string
	Says     string    // what was read
	From, To float64   // as they follow one another on the scale
	Read     []float64 // every angle, where there are repeats
	Onward   int       // 1: turned from From to To, -1: from To to From, 0: come to from either side
	Doubtful bool      // it does not fit the rest
	Middle   Measured
	Halfway  string // the middle in words: "0.3 ± 0.2 deg late"
}

// mostPairs is how many pairs are drawn; the others are counted in words.
const mostPairs = 40

// SVG is the picture. No pairs, and numbers that are none, are an error.
func (o Observed) SVG() ([]byte, error) {
	if len(o.Pairs) == 0 {
		return nil, errors.New("a picture of what was seen needs at least one pair")
	}
	says := []string{o.Description}
	for _, p := range o.Pairs {
		if !draw.Finite(append(p.Read, p.From, p.To, p.Middle.At, p.Middle.From, p.Middle.To, o.Shade.From, o.Shade.To)...) {
			return nil, fmt.Errorf("%q from %g to %g cannot be drawn", p.Name, p.From, p.To)
		}
		says = append(says, p.words()+".")
	}
	left := max(0, len(o.Pairs)-mostPairs)
	o.Pairs = o.Pairs[:len(o.Pairs)-left]
	s := begun(o.Title)
	s.note(o.Shading)
	s.seen(o)
	s.middles(o)
	if left > 0 {
		s.note(fmt.Sprintf("The first %d; %s more.", mostPairs, words.Count(left, "pair")))
	}
	return s.whole(o.Title, says), nil
}

func (p Pair) words() string {
	text := p.Name + ": " + p.Says + "; half-way " + p.Halfway
	if p.Doubtful {
		text += ", which does not fit the rest"
	}
	return text
}

// seen draws a row for each pair, at the angles that were read.
func (s *sheet) seen(o Observed) {
	reach := 0.0
	for _, p := range o.Pairs {
		reach = max(reach, math.Abs(p.From), math.Abs(p.To))
	}
	sc := sized(reach, mostSteps)
	sc.left, sc.right = draw.Margin+endRoom, width-draw.Margin-endRoom
	s.axis(sc, o.Counted)
	for _, p := range o.Pairs {
		s.Group(p.words())
		s.label(p.Name, "text small", []string{p.Says})
		s.strip(sc, laneHigh, &o.Shade, Bar{})
		s.pair(sc, p, s.next+laneHigh/2)
		s.next += laneHigh + rowGap
		s.EndGroup()
	}
	s.foot(sc, o.Unit, len(o.Pairs) > longList)
}

// pair draws a bar from the first angle to the last, an arrow where the crank was turned
// one way, and its middle.
func (s *sheet) pair(sc scale, p Pair, y float64) {
	const half, head = 3.5, 8.0
	from, to := atLeast(sc.at(p.From), sc.at(p.To), 3)
	s.Rect("seen", draw.Box{Left: from, Top: y - half, Right: to, Bottom: y + half})
	for _, read := range append([]float64{p.From, p.To}, p.Read...) {
		s.Line("axis", draw.At(sc.at(read), y-half-2.5), draw.At(sc.at(read), y+half+2.5))
	}
	if p.Onward != 0 {
		tip := to
		if p.Onward < 0 {
			tip = from
		}
		back := tip - float64(p.Onward)*head
		s.Path("text", []draw.Spot{{X: tip, Y: y}, {X: back, Y: y - half - 1.5}, {X: back, Y: y + half + 1.5}}, true)
	}
	s.middle(draw.At(sc.at(p.Middle.At), y), p.Doubtful)
}

// middle draws what lies half-way, crossed where it does not fit.
func (s *sheet) middle(at draw.Spot, doubtful bool) {
	const half, arm = 5.0, 6.5
	s.Path("middle", []draw.Spot{{X: at.X, Y: at.Y - half}, {X: at.X + half, Y: at.Y}, {X: at.X, Y: at.Y + half}, {X: at.X - half, Y: at.Y}}, true)
	if doubtful {
		s.Line("mark alarmed", draw.At(at.X-arm, at.Y-arm), draw.At(at.X+arm, at.Y+arm))
		s.Line("mark alarmed", draw.At(at.X-arm, at.Y+arm), draw.At(at.X+arm, at.Y-arm))
	}
}

// middles draws what lies half-way, enlarged.
func (s *sheet) middles(o Observed) {
	bars := []Bar{{Measured: Measured{At: o.Shade.At, From: o.Shade.From, To: o.Shade.To}}}
	for _, p := range o.Pairs {
		bars = append(bars, Bar{Measured: p.Middle})
	}
	sc := newScale(bars)
	s.next += 8
	s.Words("text strong", "start", draw.At(draw.Margin, s.next+draw.TextSize*0.85), "Half-way between, enlarged")
	s.next += draw.TextSize * 1.5
	s.axis(sc, o.Counted)
	for _, p := range o.Pairs {
		s.Group(p.words())
		class, says := "text small", p.Halfway
		if p.Doubtful {
			class, says = "warn small strong", says+", does not fit the rest"
		}
		s.label(p.Name, class, []string{says})
		s.halfway(sc, o.Shade, p)
		s.EndGroup()
	}
	s.foot(sc, o.Unit, len(o.Pairs) > longList)
}

// halfway draws a middle and its interval on a lane.
func (s *sheet) halfway(sc scale, shade Measured, p Pair) {
	s.strip(sc, laneHigh, &shade, Bar{})
	y, sign := s.next+laneHigh/2, func(at draw.Spot) { s.middle(at, p.Doubtful) }
	if sc.far(p.Middle.At) {
		s.beyond(sc, p.Middle.At, y, sign)
	} else {
		s.interval(sc, "reach", p.Middle, y)
		sign(draw.At(sc.at(p.Middle.At), y))
	}
	s.next += laneHigh + rowGap
}
