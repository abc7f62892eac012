package mark

import (
	"evendrop/tdc"
	"evendrop/tdc/finding"
)

// Again is about the marks that may have been read on the protractor before it moved:
// TDC is what it shows since, and they have to be read again. Judge leaves them out.
func Again(result tdc.Result, marks []Mark) (list []finding.Finding) {
	for _, m := range marks {
		if moved := m.readBeforeMove(result); moved > 0 {
			list = append(list, finding.ReadBeforeMove{Mark: m.about(), After: moved, Said: m.After != nil})
		}
	}
	return list
}

// since is those of a group that were read since the protractor moved in their sets.
func (g group) since(marks []Mark, result tdc.Result) (list group) {
	for _, i := range g {
		if marks[i].readBeforeMove(result) == 0 {
			list = append(list, i)
		}
	}
	return list
}

// readBeforeMove is after how many readings the protractor moved in the mark's set, where
// the mark may have been read before; zero where it was not, or nothing is known of the set.
func (m Mark) readBeforeMove(result tdc.Result) int {
	r, known := result.OfSet(m.Set)
	if !known || m.Off != nil || m.After != nil && *m.After >= r.MovedAfter() {
		return 0
	}
	return r.MovedAfter()
}
