package mark

import (
	"math"

	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

// doubts is what speaks for a mark having been read or typed wrongly, or held against
// the wrong thing.
func (f Judged) doubts(setup evidence.Setup) (notes []finding.Finding) {
	if o, makes := offsetBehind(setup, f); makes {
		notes = append(notes, o)
	}
	if apart := f.apart(); apart > 4*setup.Protractor.Uncertainty()+geometry.Degree {
		notes = append(notes, finding.ReadingsApart{Mark: f.about(), Apart: apart})
	}
	switch far := math.Abs(float64(f.Angle)) > float64(farOff) && !f.OnlyMeasured(); {
	case far && f.Lobe != nil:
		notes = append(notes, finding.LobeFarOff{Mark: f.about(), Off: f.Angle})
	case far && f.Off == nil:
		notes = append(notes, finding.FarOff{Mark: f.about(), Off: f.Angle})
	}
	return notes
}

// farOff is farther than joints slip without an engine that is plainly wrong (common
// practice, no source).
const farOff = 60 * geometry.Degree

// Findings is the notes, and what would settle the mark.
func (f Judged) Findings() []finding.Finding {
	if f.ToSettle == nil {
		return f.Notes
	}
	return append(f.Notes[:len(f.Notes):len(f.Notes)], f.ToSettle)
}

// about is the mark, for a finding.
func (m Mark) about() finding.Mark { return finding.Mark{Name: m.Name} }

// apart is how far a mark's readings of one set lie apart.
func (f Judged) apart() (most geometry.Angle) {
	for _, s := range f.Sets {
		for _, a := range s.read {
			for _, b := range s.read {
				most = max(most, (a - b).Signed())
			}
		}
	}
	return most
}
