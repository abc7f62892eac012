// Package inspect finds what to look at or read next: the cheapest that tells apart what
// the marks cannot.
package inspect

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
)

// Set is one set of slips that explains the marks: how late each of some groups has moved,
// radians.
type Set struct {
	Groups []int
	Shifts []float64
	Left   [][]int // of each group its parts that may be what has moved, by their places in it
}

// Look is what to look at or read next.
type Look struct {
	How   How
	Part  string   // the part, the member or the mark that is looked at or read
	On    string   // what carries it, of a joint
	Cost  int      // 1 outside, 2 a mark read again, and more the more has to come off
	Apart []string // the parts that it chooses between
	// Separation is by how many standard uncertainties of the reading the
	// answers differ; zero when it is a look, with no number to it.
	Separation float64
	// Teeth tells that it would show a jump of whole teeth that the marks point to: it comes
	// before anything is bought, even where no other joint is in question.
	Teeth bool

	between func(a, b hypothesis) float64 // separation; +Inf of a look that tells
}

// tellsApart is the separation from which a reading tells two answers apart: less is
// mistaken for the other more often than once in 15 (half of it, one-sided).
const tellsApart = 3.0

// mostHypotheses bounds the pairs that looks are tried on.
const mostHypotheses = 60

// hypothesis is an explanation with one part out of each of its groups.
type hypothesis []moved

// moved is a part and how late it has moved, radians.
type moved struct {
	part  int
	shift float64
}

// has tells whether a part has moved.
func (h hypothesis) has(part int) bool {
	return slices.ContainsFunc(h, func(m moved) bool { return m.part == part })
}

// Next is, of all looks and then of all readings, the cheapest that choose between sets and
// between the joints of each group in them, cheapest first. Before those stands the counting
// of links or teeth at each part that may have jumped by whole ones, also where nothing else
// is to be told apart: it takes no more than a cover off, and a jump needs no part.
func Next(s *seen.System, sets []Set, jumped []int) []Look {
	all := hypotheses(s, sets)
	chosen := append(choose(s, all, looks(s)), choose(s, all, readings(s))...)
	slices.SortStableFunc(chosen, func(a, b Look) int { return cmp.Compare(a.Cost, b.Cost) })
	var first []Look
	for _, j := range jumped {
		look := inspection(s, s.Parts[j])
		if at := slices.IndexFunc(chosen, func(l Look) bool { return l.How == look.How && l.Part == look.Part }); at >= 0 {
			look = chosen[at]
			chosen = slices.Delete(chosen, at, at+1)
		}
		look.Teeth = true
		first = append(first, look)
	}
	return append(first, chosen...)
}

// hypotheses spells the sets out.
func hypotheses(s *seen.System, sets []Set) []hypothesis {
	var all []hypothesis
	for _, set := range sets {
		spelt := []hypothesis{{}}
		for i, at := range set.Groups {
			g := s.Groups[at]
			var longer []hypothesis
			for _, h := range spelt {
				for _, k := range set.Left[i] {
					longer = append(longer, append(slices.Clone(h), moved{g.Parts[k], g.Signs[k] * set.Shifts[i]}))
				}
			}
			spelt = longer
		}
		if all = append(all, spelt...); len(all) >= mostHypotheses {
			return all[:mostHypotheses]
		}
	}
	return all
}

// pair is two hypotheses that nothing chosen so far tells apart.
type pair struct{ a, b hypothesis }

// choose takes the cheapest look that tells some pair apart, and again, until
// no pair is left that one of them could.
func choose(s *seen.System, hypotheses []hypothesis, looks []Look) []Look {
	slices.SortStableFunc(looks, func(a, b Look) int { return cmp.Compare(a.Cost, b.Cost) })
	var open []pair
	for i, a := range hypotheses {
		for _, b := range hypotheses[:i] {
			open = append(open, pair{a, b})
		}
	}
	var chosen []Look
	for _, l := range looks {
		var left []pair
		least, apart, fewest := math.Inf(1), map[int]bool{}, 0 // apart: of the pairs that differ least
		for _, p := range open {
			separation := l.between(p.a, p.b)
			if separation < tellsApart {
				left = append(left, p)
				continue
			}
			least = math.Min(least, separation)
			if own := p.differ(); len(apart) == 0 || len(own) < fewest {
				apart, fewest = own, len(own)
			} else if len(own) == fewest {
				maps.Copy(apart, own)
			}
		}
		if len(left) == len(open) {
			continue
		}
		if open = left; !math.IsInf(least, 1) {
			l.Separation = least
		}
		l.Apart = names(s, apart)
		chosen = append(chosen, l)
	}
	return chosen
}

// differ is the parts that only one of the two has.
func (p pair) differ() map[int]bool {
	own := map[int]bool{}
	for _, m := range append(slices.Clone(p.a), p.b...) {
		if p.a.has(m.part) != p.b.has(m.part) {
			own[m.part] = true
		}
	}
	return own
}

// names lists the parts in their order. The first cylinder's TDC stands for the protractor too.
func names(s *seen.System, of map[int]bool) []string {
	var names []string
	zero := false
	for j, p := range s.Parts {
		if of[j] && !(zero && p.Kind == seen.Scale) {
			names, zero = append(names, p.Name), zero || p.Kind == seen.ZeroPoint
		}
	}
	return names
}

// readings is every mark read again, and a new mark on every member.
func readings(s *seen.System) []Look {
	var readings []Look
	for i, f := range s.Marks {
		readings = append(readings, reading(Look{How: ReadAgain, Part: f.Name, Cost: 2}, s.Shows[i], f.Uncertainty))
	}
	for _, j := range s.Tree.Joints {
		l := Look{How: ReadAMark, Part: j.Carried, Cost: 4}
		if slices.ContainsFunc(s.Marks, func(f mark.Judged) bool { return f.On == j.Carried && f.Reference() == mark.Crank }) {
			l.How = ReadAnother
			l.Cost++
		}
		if s.Tree.AtCamSpeed(j.Carried) || j.Carried == mark.CrankSprocket {
			l.Cost += 2 // behind a cover
		}
		readings = append(readings, reading(l, s.Row(j.Carried, mark.Crank), middling(s)))
	}
	return readings
}

// reading is a look with a number: what a mark with this row would show.
func reading(l Look, row []float64, u geometry.Angle) Look {
	shows := func(h hypothesis) float64 {
		sum := 0.0
		for _, m := range h {
			sum += row[m.part] * m.shift
		}
		return sum
	}
	l.between = func(a, b hypothesis) float64 { return math.Abs(shows(a)-shows(b)) / float64(u) }
	return l
}

// middling is the uncertainty that a new mark may be expected to have.
func middling(s *seen.System) geometry.Angle {
	var all []geometry.Angle
	for _, f := range s.Marks {
		all = append(all, f.Uncertainty)
	}
	slices.Sort(all)
	return all[len(all)/2]
}
