package blunder

import (
	"math"
	"slices"

	"evendrop/tdc/evidence"
)

// Most is how many readings are looked at together; TDC is known from as many.
const Most = 12

// Odd is a reading that may be the one that is wrong.
type Odd struct {
	Index int   // among the readings
	Ways  []Way // what it may be instead, the likeliest first; none where nothing is recognised
}

// shown is a reading as the grid has it.
type shown struct {
	at    int
	depth float64
}

// span is the zeros of the gauge that a reading allows; it is empty where least is more
// than most.
type span struct{ least, most float64 }

func (s span) meets(other span) bool {
	return s.least <= other.most && other.least <= s.most
}

func (s span) and(other span) span {
	return span{math.Max(s.least, other.least), math.Min(s.most, other.most)}
}

var (
	every   = span{math.Inf(-1), math.Inf(1)}
	nowhere = span{math.Inf(1), math.Inf(-1)}
)

// farthest is how many places from TDC somebody reads who looks for it. About BDC nearly
// anything is possible, and tdc.Find says where that is.
const farthest = 90 * perDegree

// Odd is the reading that one piston cannot have shown beside the others: one where it can
// be told which, several where it is one of them, none where all agree, or where no one
// reading alone is to blame. Of more than Most readings it says nothing.
func (b *Bench) Odd(read []evidence.Reading) []Odd {
	if len(read) < 2 || len(read) > Most {
		return nil
	}
	s := b.search(read)
	if b.anywhere(s) {
		return nil
	}
	return s.found()
}

// search is what is looked for among readings.
type search struct {
	read   []shown
	ways   [][]Way
	would  [][]shown // the readings, each as every way would have it
	fits   [][]int   // in how many places
	spared []int     // in how many places the others agree without it
}

func (b *Bench) search(read []evidence.Reading) *search {
	n := len(read)
	s := &search{fits: make([][]int, n), spared: make([]int, n)}
	for i, r := range read {
		s.read = append(s.read, shown{place(r.Angle), r.Depth.Millimetres()})
		ways := b.Ways(r, read)
		var would []shown
		for _, w := range ways {
			would = append(would, shown{place(w.Reading.Angle), w.Reading.Depth.Millimetres()})
		}
		s.ways, s.would = append(s.ways, ways), append(s.would, would)
		s.fits[i] = make([]int, len(ways))
	}
	return s
}

// anywhere tells whether the readings agree with TDC at some place of some engine, the
// gauge counting either way; else the search knows with which changes they would.
func (b *Bench) anywhere(s *search) bool {
	for _, sign := range []float64{1, -1} {
		for _, scale := range b.scales {
			for e := range b.engine {
				for tdc := 0; tdc < turn; tdc += tdcStep {
					if s.agreeAt(hypothesis{bench: b, reach: &b.engine[e], sign: sign, scale: scale, tdc: tdc}) {
						return true
					}
				}
			}
		}
	}
	return false
}

// hypothesis is one place of TDC of one engine, whose gauge counts and shows so.
type hypothesis struct {
	bench *Bench
	reach *reach
	sign  float64
	scale float64
	tdc   int
	about float64 // a drop, mm: what lies between two scales counts from there, for a gauge has any zero
}

// zeros is what the gauge may show at TDC by one reading.
func (h hypothesis) zeros(r shown) span {
	k := r.at - h.tdc
	if k < 0 {
		k += turn
	}
	if k > farthest && k < turn-farthest {
		return nowhere
	}
	depth, least, most := h.sign*r.depth, h.reach.least[k], h.reach.most[k]
	out := h.bench.depth + h.bench.apart*h.scale*math.Max(math.Abs(most-h.about), math.Abs(least-h.about))
	return span{depth - out - h.scale*most, depth + out - h.scale*least}
}

// agreeAt tells whether all readings agree at a hypothesis, and counts what would. Where two
// clash, no other one can be to blame.
func (s *search) agreeAt(h hypothesis) bool {
	h.about = h.reach.least[(s.read[0].at-h.tdc+turn)%turn]
	one, other := s.clash(h)
	if one < 0 {
		return true
	}
	s.blame(h, one)
	if other >= 0 {
		s.blame(h, other)
	}
	return false
}

// clash is two readings that no zero of the gauge reconciles at a hypothesis; a single one
// that none of the others does, or is too far from TDC, and -1; or -1 twice.
func (s *search) clash(h hypothesis) (one, other int) {
	all, least, most := every, -1, -1
	for i, r := range s.read {
		z := h.zeros(r)
		tooLow, tooHigh := z.most < all.least, z.least > all.most
		switch {
		case tooLow && tooHigh || z == nowhere:
			return i, -1
		case tooLow:
			return i, least
		case tooHigh:
			return i, most
		}
		if z.least > all.least {
			all.least, least = z.least, i
		}
		if z.most < all.most {
			all.most, most = z.most, i
		}
	}
	return -1, -1
}

// blame counts a reading without which the others agree, and the ways in which it would
// agree with them.
func (s *search) blame(h hypothesis, i int) {
	others := every
	for k, r := range s.read {
		if k == i {
			continue
		}
		if others = others.and(h.zeros(r)); others.least > others.most {
			return
		}
	}
	s.spared[i]++
	for w, would := range s.would[i] {
		if h.zeros(would).meets(others) {
			s.fits[i][w]++
		}
	}
}

// found is which readings are to blame: those that are right some other way, a likely one if
// there is any; or else those without which the others agree.
func (s *search) found() []Odd {
	for _, seldom := range []bool{false, true} {
		switch list := s.right(seldom); len(list) {
		case 0:
		case 1:
			return s.beside(list[0])
		default:
			return list
		}
	}
	return s.without()
}

// right is the readings that some way makes right, by ways that are seldom or by those that
// are not.
func (s *search) right(seldom bool) (list []Odd) {
	for i := range s.read {
		var ways []Way
		for w, n := range s.fits[i] {
			if n > 0 && s.ways[i][w].seldom() == seldom {
				ways = append(ways, s.ways[i][w])
			}
		}
		if len(ways) > 0 {
			list = append(list, Odd{i, ways})
		}
	}
	return list
}

// without is the readings without which the others agree.
func (s *search) without() (list []Odd) {
	for i, n := range s.spared {
		if n > 0 {
			list = append(list, Odd{Index: i})
		}
	}
	return list
}

// Some way is often found for a reading that is right, where another is wrong by what is no
// factor: then it fits in fewer places than the others would without that one. Shares of
// those, simulated: of readings that were right nineteen in twenty lie below one of them, of
// wrong ones one in twenty.
const (
	fewFit    = 0.3
	fewSpared = 0.5
)

// beside is a reading that alone has ways, with the one that is likelier wrong without any.
func (s *search) beside(odd Odd) []Odd {
	most := 0
	for i, n := range s.spared {
		if n > s.spared[most] {
			most = i
		}
	}
	all := float64(s.spared[most])
	if most == odd.Index || float64(slices.Max(s.fits[odd.Index])) >= fewFit*all && float64(s.spared[odd.Index]) >= fewSpared*all {
		return []Odd{odd}
	}
	list := []Odd{odd, {Index: most}}
	slices.SortFunc(list, func(a, b Odd) int { return a.Index - b.Index })
	return list
}
