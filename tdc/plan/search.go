package plan

import (
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/adjust"
	"evendrop/tdc/evidence"
)

// search looks for the pairs that leave TDC least uncertain, by exchanging one for
// another as long as that helps.
type search struct {
	pairs   []pair
	outlook *adjust.Outlook // places 2i and 2i+1 are those of pair i
	taken   []bool
	twin    []int // of each pair: the one of the same drop turned the other way; -1 of none
	kind    []int // of each pair: which sweep, and whether near TDC or well down
	count   []int // of pairs taken, by kind
}

// A sweep has kinds of pairs by their half angle: near TDC, far from it, and between
// in parts of the reach. One near and one far is always taken: midpoints at drops far
// apart show lash or an offset beyond what was stated, which the surest drops, all
// alike, would not.
const (
	near = iota
	far
	between
	kinds

	nearest  = 0.6 // about a third of the drop
	farthest = 0.8 // about two thirds
)

// needed tells whether a pair of a kind is always taken.
func needed(kind int) bool { return kind%kinds != between }

func newSearch(setup evidence.Setup, ground Ground, pairs []pair) (*search, error) {
	s := &search{pairs: pairs, taken: make([]bool, len(pairs)), twin: twins(pairs), count: make([]int, kinds*len(ground.turns()))}
	var places []adjust.Place
	for _, p := range pairs {
		places = append(places, p.places[:]...)
		kind := between
		switch {
		case p.half <= nearest*pairs[0].half:
			kind = near
		case p.half >= farthest*pairs[0].half:
			kind = far
		}
		if p.places[0].Turn == evidence.Backward {
			kind += kinds
		}
		s.kind = append(s.kind, kind)
	}
	var err error
	s.outlook, err = adjust.NewOutlook(setup, places)
	return s, err
}

// best is the plan of n readings in the pairs. Begun from evenly spread ones,
// exchanges end within 0.03 % of the best of other beginnings.
func best(setup evidence.Setup, ground Ground, pairs []pair, n int) (Plan, error) {
	s, err := newSearch(setup, ground, pairs)
	if err != nil {
		return Plan{}, err
	}
	s.spread(n / 2)
	s.fill()
	s.exchange()
	return newPlan(setup, s.chosen(), even(pairs[0].half, ground, n))
}

// twins is the place of each pair's twin.
func twins(pairs []pair) []int {
	twin := make([]int, len(pairs))
	for i, p := range pairs {
		twin[i] = slices.IndexFunc(pairs, func(o pair) bool { return o.drop == p.drop && o.places[0].Turn != p.places[0].Turn })
	}
	return twin
}

// free tells whether a pair may be taken: at one place a protractor is wrong by the same
// amount whichever way the crank was turned.
func (s *search) free(i int) bool {
	return !s.taken[i] && (s.twin[i] < 0 || !s.taken[s.twin[i]])
}

// spread takes pairs evenly spread over the reach and over the sweeps.
func (s *search) spread(n int) {
	for k := range n {
		i := k * len(s.pairs) / n
		for !s.free(i) {
			i = (i + 1) % len(s.pairs)
		}
		s.take(i)
	}
}

// room is how many pairs can be taken.
func room(pairs []pair) int {
	drops := map[geometry.Length]bool{}
	for _, p := range pairs {
		drops[p.drop] = true
	}
	return len(drops)
}

// fill takes a pair of each kind that has none, giving up another for it.
func (s *search) fill() {
	for kind, c := range s.count {
		if c > 0 || !needed(kind) || s.better(func(i int) bool { return s.kind[i] == kind }) < 0 {
			continue // there, not needed, or not to be had on this engine
		}
		for i := range s.pairs {
			if s.taken[i] && (s.count[s.kind[i]] > 1 || !needed(s.kind[i])) {
				s.leave(i)
				break
			}
		}
		s.take(s.better(func(i int) bool { return s.kind[i] == kind }))
	}
}

// better is the pair not taken that buys most among those allowed; -1 of none.
func (s *search) better(allowed func(i int) bool) int {
	best, least := -1, geometry.Angle(0)
	for i := range s.pairs {
		if !s.free(i) || !allowed(i) {
			continue
		}
		if u := s.outlook.With(2*i, 2*i+1); best < 0 || u < least {
			best, least = i, u
		}
	}
	return best
}

// rounds bounds the passes of exchanges: a few find the end.
const rounds = 20

// exchange gives up each pair for a better one until none is better.
func (s *search) exchange() {
	const worthIt = 1 - 1e-6 // of the uncertainty: less is rounding
	for range rounds {
		changed := false
		for i := range s.pairs {
			if !s.taken[i] {
				continue
			}
			before := s.outlook.Uncertainty()
			s.leave(i)
			last := needed(s.kind[i]) && s.count[s.kind[i]] == 0
			j := s.better(func(j int) bool { return !last || s.kind[j] == s.kind[i] })
			if j < 0 || s.outlook.With(2*j, 2*j+1) > before*worthIt {
				j = i
			}
			s.take(j)
			changed = changed || i != j
		}
		if !changed {
			return
		}
	}
}

func (s *search) take(i int) {
	s.outlook.Take(2 * i)
	s.outlook.Take(2*i + 1)
	s.taken[i] = true
	s.count[s.kind[i]]++
}

func (s *search) leave(i int) {
	s.outlook.Leave(2*i + 1)
	s.outlook.Leave(2 * i)
	s.taken[i] = false
	s.count[s.kind[i]]--
}

func (s *search) chosen() []pair {
	var chosen []pair
	for i, p := range s.pairs {
		if s.taken[i] {
			chosen = append(chosen, p)
		}
	}
	return chosen
}

// even is n places spread evenly over each flank, down to the reach.
func even(reach geometry.Angle, ground Ground, n int) []adjust.Place {
	var places []adjust.Place
	for sweep, turn := range ground.turns() {
		sweeps := len(ground.turns())
		pairs := (n/2 + sweeps - 1 - sweep) / sweeps
		for k := range pairs {
			u := reach * geometry.Angle(k+1) / geometry.Angle(pairs)
			places = append(places, adjust.Place{Angle: -u, Turn: turn}, adjust.Place{Angle: u, Turn: turn})
		}
	}
	return places
}
