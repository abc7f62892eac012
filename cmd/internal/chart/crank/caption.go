package crank

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/cmd/internal/chart/draw"
	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/words"
)

// times is how many times too large angles are drawn, in words.
var times = map[int]string{2: "two", 3: "three", 5: "five", 10: "ten", 20: "twenty"}

// largeness says how large angles are drawn.
func (f *fan) largeness() string {
	if f.times == 1 {
		return "to scale"
	}
	return times[f.times] + " times too large"
}

// exaggeration says the same as a sentence.
func (f *fan) exaggeration() string { return "Angles are drawn " + f.largeness() + "." }

// notes writes what the picture itself says of how it is read.
func (f *fan) notes() {
	const line = draw.SmallSize * draw.LineHeight
	const bold, plain = "True top dead centre:", "piston at its highest"
	meet := (width + draw.TextWidth(bold, draw.SmallSize*draw.Bold) - draw.TextWidth(plain, draw.SmallSize)) / 2
	f.Words("text small strong", "end", draw.At(meet-2, draw.SmallSize), bold)
	f.Words("text small", "start", draw.At(meet+2, draw.SmallSize), plain)
	f.way("start", 3, -90, "early")
	f.way("end", width-3, 90, "late")
	said := []string{"Angles drawn", f.largeness()}
	if first, ok := strings.CutSuffix(said[1], " too large"); ok && draw.TextWidth(said[1], draw.SmallSize*draw.Bold) > 146 {
		said = []string{said[0], first, "too large"} // short of the crank
	}
	f.Lines("text small strong", "start", draw.At(3, f.bottom()-5-float64(len(said)-1)*line), draw.SmallSize, said)
	if slices.ContainsFunc(f.lanes, func(l lane) bool { return l.elsewhere() }) {
		f.Words("text small", "end", draw.At(width-3, f.bottom()-5), "* from its own place")
	}
}

// way writes early or late at a side of the picture, with an arrow outward.
func (f *fan) way(anchor string, side, direction float64, text string) {
	const room, y = 11.0, top + 2
	inward := math.Copysign(room, width/2-side)
	f.head("text", draw.At(side, y-draw.SmallSize*0.33), direction)
	f.Words("text small", anchor, draw.At(side+inward, y), text)
}

// Caption says how the picture is read. What SVG refuses has no caption.
func (p Picture) Caption() string {
	if p.check() != nil {
		return ""
	}
	f := p.fan()
	said := []string{
		"The crank from the front. Read it like a clock: each shape stands where the crank does when that mark lines up, in crank degrees.",
		f.exaggeration(),
	}
	add := func(is func(lane) bool, sentence string) {
		if slices.ContainsFunc(f.lanes, is) {
			said = append(said, sentence)
		}
	}
	add(func(l lane) bool { return l.Was != nil }, "Dashed: before. Solid: now.")
	said = append(said, "The bar through a shape is its ±.")
	add(func(l lane) bool { _, _, shown := l.bar(f); return !shown && l.Half > 0 && !l.sign.beyond }, "A ± too small for a bar hides behind its shape.")
	add(func(l lane) bool { return l.Limit > 0 }, "Outlined box: allowed.")
	add(func(lane) bool { return f.toothed(p.Tooth) }, "The rim shows a wheel's teeth, at their true pitch.")
	add(func(l lane) bool { return l.sign.beyond || l.Was != nil && l.was.beyond },
		"A shape at the end of its arc with an arrow lies farther off than the picture shows; the words beside it say how far.")
	add(func(l lane) bool { return l.Was != nil && !l.moved && !l.was.beyond }, "A mark without a dashed shape has hardly moved.")
	for _, l := range f.lanes {
		if l.elsewhere() {
			said = append(said, l.placeSaid())
		}
	}
	return strings.Join(said, " ")
}

// placeSaid says of a mark where it belongs, since it is drawn as if at top dead centre.
func (l lane) placeSaid() string {
	side := "after"
	if l.Nominal < 0 {
		side = "before"
	}
	return fmt.Sprintf("* Set against its own place, %s° %s top dead centre: %s.",
		words.Trimmed(math.Abs(l.Nominal), 2), side, draw.Shortened(draw.Clean(l.Name), width, draw.SmallSize))
}

// stateWords are what a sign says.
var stateWords = map[doc.State]string{doc.Within: "within", doc.Outside: "outside", doc.TooClose: "too close to call"}

// described is a mark in words, its name whole.
func (l lane) described() string {
	said := l.Name
	if l.Body != "" {
		said += " (" + l.Body + ")"
	}
	said += ": " + l.Says
	if word := stateWords[l.State]; word != "" {
		said += ", " + word
	}
	if l.Was != nil {
		said += "; " + l.Was.Says
		if word := stateWords[l.Was.State]; word != "" {
			said += ", " + word
		}
	}
	return said + "."
}

// described is the picture in words: what it was given, its marks, and how it is drawn.
func (p Picture) described(f *fan) string {
	said := []string{p.Description}
	for _, l := range f.lanes {
		said = append(said, l.described())
	}
	return strings.TrimSpace(strings.Join(append(said, f.exaggeration()), " "))
}
