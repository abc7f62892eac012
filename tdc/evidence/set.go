package evidence

// MostSets is more often than anybody sets a protractor anew on one crank.
const MostSets = 20

// SetOf is a set's number where it may have been left out: the first one's for zero.
func SetOf(set int) int { return max(1, set) }

// OneSet is what was read of a cylinder in one set.
type OneSet struct {
	Number int // from 1
	Cylinder
}

// Sets is a cylinder's evidence by the sets that it was read in, in the order in which
// they first come; at least one, which may be empty. Stops, dwells and views were seen
// in set 1.
func (c Cylinder) Sets() []OneSet {
	bare := c
	bare.Readings, bare.Stops, bare.Dwell, bare.Views = nil, nil, nil, nil
	var sets []OneSet
	if len(c.Stops)+len(c.Dwell)+len(c.Views) > 0 || len(c.Readings) == 0 {
		first := c
		first.Readings = nil
		sets = []OneSet{{1, first}}
	}
	for _, r := range c.Readings {
		at, n := -1, SetOf(r.Set)
		for i := range sets {
			if sets[i].Number == n {
				at = i
			}
		}
		if at < 0 {
			at = len(sets)
			sets = append(sets, OneSet{n, bare})
		}
		sets[at].Readings = append(sets[at].Readings, r)
	}
	return sets
}

// In is what was read of the cylinder in one set; false where nothing was.
func (c Cylinder) In(set int) (Cylinder, bool) {
	for _, s := range c.Sets() {
		if s.Number == SetOf(set) {
			return s.Cylinder, len(s.Readings)+len(s.Stops)+len(s.Dwell)+len(s.Views) > 0
		}
	}
	return Cylinder{Number: c.Number, Throw: c.Throw}, false
}
