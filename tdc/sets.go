package tdc

import (
	"fmt"
	"slices"

	"evendrop/tdc/evidence"
)

// A cylinder may be read in several sets: the protractor moved on the crank between
// them. TDC stands elsewhere on it in each, so each is a result of its own.

// InSet is why the readings of one of several sets do not tell TDC.
type InSet struct {
	Set int
	Err error
}

func (e *InSet) Error() string { return fmt.Sprintf("set %d: %v", e.Set, e.Err) }

// Unwrap is why, without the set.
func (e *InSet) Unwrap() error { return e.Err }

// lastOf is the result of the last of the sets, with those of the earlier ones on it.
func lastOf(sets []evidence.OneSet, find func(evidence.Cylinder) (Result, error)) (Result, error) {
	var earlier []Result
	for i, s := range sets {
		r, err := find(s.Cylinder)
		switch {
		case err != nil && len(sets) > 1:
			return Result{}, &InSet{s.Number, err}
		case err != nil:
			return Result{}, err
		}
		r.Set = s.Number
		r.after(earlier)
		if i == len(sets)-1 {
			r.Earlier = earlier
			return r, nil
		}
		earlier = append(earlier, r)
	}
	return Result{}, nil // of no set at all, which no cylinder has
}

// after counts the readings of earlier sets too in what is said of when something moved.
func (r *Result) after(earlier []Result) {
	for _, e := range earlier {
		r.Taken += len(e.Readings)
	}
	for i, f := range r.Findings {
		r.Findings[i] = countFrom(f, r.Taken)
	}
	if r.CannotTell != nil {
		r.CannotTell = countFrom(r.CannotTell, r.Taken)
	}
}

// Sets is the results of all sets, the earliest first, the result itself last.
func (r Result) Sets() []Result { return append(slices.Clone(r.Earlier), r) }

// OfSet is the result of a set, 0 for the first; false where nothing was read in it.
func (r Result) OfSet(set int) (Result, bool) {
	for _, s := range r.Sets() {
		if s.set() == evidence.SetOf(set) {
			return s, true
		}
	}
	return Result{}, false
}

// set is the result's, which none that was made without one has.
func (r Result) set() int { return evidence.SetOf(r.Set) }

// OnOneSet is the cylinders' results of the last set that all of them were read in, since
// only there is one protractor that shows all of them; false where there is none.
func OnOneSet(results []Result) (list []Result, ok bool) {
	if len(results) == 0 {
		return nil, true
	}
next:
	for _, first := range slices.Backward(results[0].Sets()) {
		list = nil
		for _, r := range results {
			same, read := r.OfSet(first.Set)
			if !read {
				continue next
			}
			list = append(list, same)
		}
		return list, true
	}
	return nil, false
}
