package crank

import (
	"math"
	"strings"

	"evendrop/cmd/internal/chart/draw"
)

// writing is where the words of a lane stand.
type writing struct {
	says, named, wasSays phrase
	cost                 float64 // of where they stand
	loss                 float64 // of what is cut from them, a part of the cost
}

// spend adds to the cost, and to the loss.
func (w *writing) spend(loss float64) {
	w.cost += loss
	w.loss += loss
}

// phrase is words on a lane, from their first letter to their last.
type phrase struct {
	text     string
	from, to float64
}

// longName is the room in which a name may be cut short without loss.
const longName = 120.0

// write chooses the best of all ways to place what the mark says and its name in the gaps.
func (l *lane) write(free gaps) {
	before := writing{}
	if l.Was != nil && l.was.beyond { // its number has to be said
		if before.wasSays = l.sayWas(free); before.wasSays.text == "" {
			before.wasSays = l.shortened(figure(l.Was.Says), 1, free.widest())
			before.spend(100)
		}
		free = free.without(l.padded(before.wasSays))
	}
	l.writing = writing{cost: math.Inf(1)}
	for _, said := range l.waysToSay(before, free) {
		for _, w := range l.waysToName(said, free.without(l.padded(said.says))) {
			if w.cost < l.cost {
				l.writing = w
			}
		}
	}
	if l.moved && !l.was.beyond {
		l.wasSays = l.sayWas(free.without(l.padded(l.says)).without(l.padded(l.named)))
	}
}

// padded is what a phrase takes with the room round it.
func (l lane) padded(p phrase) (from, to float64) {
	if p.text == "" {
		return 0, 0
	}
	return p.from - l.span(textPad), p.to + l.span(textPad)
}

// waysToSay are the places for what a mark says: as near its sign as the gap allows, whole
// or to its first comma. Beside the sign of what was it would be taken for that.
func (l lane) waysToSay(before writing, free gaps) (ways []writing) {
	for i, text := range []string{l.Says, beforeComma(l.Says), figure(l.Says)} {
		size := l.textSpan(text, draw.Bold)
		for _, g := range free {
			from := max(g.from, min(g.to-size, l.sign.at))
			middle := from + size/2
			if g.to-g.from < size || l.moved && (middle-l.sign.at)*(l.was.at-l.sign.at) > 0 {
				continue
			}
			w := before
			w.says = phrase{text, from, from + size}
			w.cost += 0.1*math.Abs(middle-l.sign.at) + 5*float64(i) + l.inBand(middle)
			if middle < l.sign.at {
				w.cost++
			}
			if middle*l.sign.at < 0 && math.Abs(l.sign.at) > l.span(20) {
				w.cost += 8 // top dead centre lies between
			}
			ways = append(ways, w)
		}
	}
	if l.Says == "" {
		return []writing{before}
	}
	return append(ways, l.sayLess(before, free))
}

// figure is the part of words that has the number, the least that is to be read: on which
// side of top dead centre it is can be seen.
func figure(text string) string {
	for _, word := range strings.Fields(text) {
		if strings.ContainsAny(word, "0123456789") {
			return strings.TrimRight(word, ",;:")
		}
	}
	return text
}

// toFigure is words as far as their number.
func toFigure(text string) string {
	number := figure(text)
	before, _, _ := strings.Cut(text, number)
	return before + number
}

// inBand is what it costs that words stand in the allowed band, which is to be seen.
func (l lane) inBand(at float64) float64 {
	if l.Limit > 0 && math.Abs(at) < l.allowed {
		return 12
	}
	return 0
}

// sayLess is the way that is left where nothing fits: of a mark that has moved, the words
// of what was are kept; of another as much as the widest gap holds.
func (l lane) sayLess(w writing, free gaps) writing {
	if l.moved && !l.sign.beyond {
		w.cost += 6
		return w
	}
	w.says = l.shortened(figure(l.Says), draw.Bold, free.widest())
	w.spend(100)
	return w
}

// beforeComma is what stands before the first comma and a blank.
func beforeComma(text string) string {
	before, _, _ := strings.Cut(text, ", ")
	return before
}

// waysToName are the places for a mark's name: rather at the left end of its lane, or else at
// an end of another gap, cut short where it must be.
func (l lane) waysToName(w writing, free gaps) (ways []writing) {
	text := l.label()
	size, long := l.textSpan(text, 1), draw.Degrees(longName, l.baseline())
	for i, g := range free {
		w := w
		w.named = l.shortened(text, 1, g)
		w.cost += l.inBand((g.from + g.to) / 2)
		if room := g.to - g.from; room < size && room < long {
			w.spend(6 + 30*(1-room/min(size, long)))
		}
		if g.from > 0 {
			w.named.from, w.named.to = g.to-(w.named.to-w.named.from), g.to
			w.cost += 4
		} else if i > 0 {
			w.cost += 2
		}
		ways = append(ways, w)
	}
	if len(ways) == 0 {
		w.spend(100)
		return []writing{w}
	}
	return ways
}

// shortened is text at the start of a gap, cut short to it; none where not even a letter fits.
func (l lane) shortened(text string, bold float64, g gap) phrase {
	room := (g.to - g.from) * math.Pi / 180 * l.baseline()
	if text = draw.Shortened(text, room, draw.SmallSize*bold); room < 2*draw.SmallSize {
		return phrase{}
	}
	return phrase{text, g.from, g.from + l.textSpan(text, bold)}
}

// sayWas puts what was said before beyond its sign, as seen from where the mark is now, or
// leaves it out; where that is beyond the fan, as near as there is room.
func (l lane) sayWas(free gaps) (best phrase) {
	for _, text := range []string{l.Was.Says, toFigure(l.Was.Says)} {
		size, least := l.textSpan(text, 1), math.Inf(1)
		for _, g := range free {
			from := max(g.from, min(g.to-size, l.was.at))
			far := from + size/2 - l.was.at
			if g.to-g.from < size || !l.was.beyond && far*(l.was.at-l.sign.at) < 0 {
				continue
			}
			if math.Abs(far) < least {
				best, least = phrase{text, from, from + size}, math.Abs(far)
			}
		}
		if best.text != "" {
			break
		}
	}
	return best
}

// label is the name as it is drawn, with a star where the mark belongs elsewhere.
func (l lane) label() string {
	if l.elsewhere() {
		return draw.Clean(l.Name) + "*"
	}
	return draw.Clean(l.Name)
}

// baseline is the radius that words stand on.
func (l lane) baseline() float64 { return l.middle() - 0.35*draw.SmallSize }

// textSpan is what words take of the lane.
func (l lane) textSpan(text string, bold float64) float64 {
	return draw.Degrees(draw.TextWidth(text, draw.SmallSize*bold), l.baseline())
}
