package mark

import (
	"errors"
	"fmt"
	"strings"

	"evendrop/tdc/names"
)

// Tree is a drive's members, each carried by one joint, all of them at last by
// the crank.
type Tree struct {
	Drive  Drive
	Joints []Joint
	by     map[string]int // the joint that carries a member
}

// TreeFor is the drive's tree, whose members the marks must be on. A drive with
// neither layout nor joints takes the simplest layout that has them all. An error names the
// member that is missing, or what keeps the joints from making a tree.
func TreeFor(d Drive, marks []Mark) (*Tree, error) {
	if d.Layout != "" || len(d.Joints) > 0 {
		t, err := newTree(d)
		if err != nil {
			return nil, err
		}
		return t, t.check(marks)
	}
	var trees []*Tree
	for _, layout := range guessed {
		d.Layout = layout
		t, err := newTree(d)
		if err != nil {
			return nil, err
		}
		if t.check(marks) == nil {
			return t, nil
		}
		trees = append(trees, t)
	}
	return nil, noLayout(trees, marks)
}

// noLayout says what keeps the marks from any layout: one of them, or that they
// are on members of several.
func noLayout(trees []*Tree, marks []Mark) error {
	for i, m := range marks {
		var err error
		for _, t := range trees {
			if err = t.checkMark(i, m); err == nil {
				break
			}
		}
		if of, is := errors.AsType[*Error](err); is {
			of.Problem += fmt.Sprintf(" (of layout %q)", guessed[len(guessed)-1])
			return of
		}
	}
	return fmt.Errorf("the marks are on members of both layout %q and %q: name those of one, and write it under [drive]", guessed[0], guessed[len(guessed)-1])
}

// newTree hangs every member on the crank. A member that is carried twice, or
// by nothing that the crank carries, is an error.
func newTree(d Drive) (*Tree, error) {
	t := &Tree{Drive: d, Joints: d.joints(), by: map[string]int{}}
	for i, j := range t.Joints {
		_, twice := t.by[j.Carried]
		switch {
		case j.Carried == Crank:
			return nil, ofJoint(i, j, "the crank carries the others: name it as a carrier only")
		case twice:
			return nil, ofJoint(i, j, "%q is carried already, by %q: leave one of the two out", j.Carried, t.Joints[t.by[j.Carried]].Carrier)
		}
		t.by[j.Carried] = i
	}
	for i, j := range t.Joints {
		member := j.Carried
		for range t.Joints {
			if by, carried := t.by[member]; carried {
				member = t.Joints[by].Carrier
			}
		}
		if _, carried := t.by[member]; carried {
			return nil, ofJoint(i, j, "it is carried in a circle, by way of %q: let the crank carry one of them", member)
		}
		if member != Crank {
			return nil, ofJoint(i, j, "nothing joins it to the crank: add a [[joint]] with carried = %q and the member that carries it", member)
		}
	}
	return t, nil
}

// check refuses marks on members that the tree lacks, and a reading on the
// protractor that is not against the crank.
func (t *Tree) check(marks []Mark) error {
	for i, m := range marks {
		if err := t.checkMark(i, m); err != nil {
			return err
		}
	}
	return nil
}

func (t *Tree) checkMark(i int, m Mark) error {
	if m.On == m.Reference() && m.On != Crank {
		return ofMark(i, m, "it is measured against the member it is on, %q: name another", m.On)
	}
	for _, member := range []string{m.On, m.Reference()} {
		if _, has := t.by[member]; !has && member != Crank {
			return ofMark(i, m, "the drive has no member %q: %s", member, t.instead(member))
		}
	}
	if m.Off == nil && m.Reference() != Crank {
		return ofMark(i, m, "read on the protractor, a mark is against the crank, not the %s: leave out against, or give off", m.Against)
	}
	return nil
}

// instead is what to write for a member that there is not.
func (t *Tree) instead(member string) string {
	members := t.Drive.Members()
	_, err := names.Read(member, members)
	if unknown, is := errors.AsType[*names.Unknown](err); is && len(unknown.Could)+len(unknown.Near) > 0 {
		return unknown.Error()
	}
	return "expected one of " + strings.Join(members, ", ")
}

// Path is the joints between a member and the crank.
func (t *Tree) Path(member string) []int {
	var path []int
	for member != Crank {
		i := t.by[member]
		path = append(path, i)
		member = t.Joints[i].Carrier
	}
	return path
}

// AtCamSpeed tells whether a member turns once for two turns of the crank:
// whether a chain, belt or gear comes between.
func (t *Tree) AtCamSpeed(member string) bool {
	for _, i := range t.Path(member) {
		if t.Joints[i].Drive {
			return true
		}
	}
	return false
}
