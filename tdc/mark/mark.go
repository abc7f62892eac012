// Package mark compares an engine's marks with its true TDC: how far each is off,
// whether that is within its limit, and how the members that carry them hang
// together. Which joints explain what is off, its room joint finds.
package mark

import "evendrop/geometry"

// Zero is what a mark's nominal angle counts from.
type Zero int

// The two zeros; they differ by asin(e/(l+r)).
const (
	Piston Zero = iota // TDC of the piston
	Throw              // the crank throw lying along the bore
)

// Unit is what a measured shift is written in.
type Unit string

// The units of a shift.
const (
	CrankDegrees Unit = "crank degrees"
	CamDegrees   Unit = "cam degrees"
	Teeth        Unit = "teeth"
	Arc          Unit = "mm arc"
	Chord        Unit = "mm chord"
)

// Shift is a shift measured without the protractor, late positive.
type Shift struct {
	Value   float64 // in Unit
	Unit    Unit
	Radius  geometry.Length // for arc and chord
	Pitches int             // teeth a turn, for teeth
	KnownTo float64         // half-width, in Unit
}

// Mark is anything that is meant to sit at a known crank angle.
type Mark struct {
	Name     string
	On       string           // the member that carries it
	Against  string           // the member it is measured against; "" is the crank
	Read     []geometry.Angle // crank angles from the protractor's zero, with the mark in line
	Set      int              // of readings that Read belongs to; 0 is 1, the first
	After    *int             // after so many readings of cylinder 1 it was read; nil: nobody said
	Off      *Shift           // or a shift measured directly
	ShouldBe geometry.Angle   // after TDC of cylinder 1; of a shift, what it should be
	Unstated bool             // nobody said what it should be: ShouldBe is a guess
	Unknown  bool             // what it should be is not known: it is measured and compared with nothing
	Zero     Zero
	Limit    geometry.Angle // allowed either way
	HasLimit bool
	Certain  bool // machined on its member
	Source   string
	Healthy  *Healthy // what it is compared with in place of ShouldBe; nil without
	Lobe     *Lobe    // where a cam lobe stands, which no single angle tells; nil of any other mark
}

// Reference is the member that a mark is measured against.
func (m Mark) Reference() string { return orElse(m.Against, Crank) }

// kind is what the mark is called when something is wrong with it.
func (m Mark) kind() string {
	if m.Lobe != nil {
		return "lobe"
	}
	return "mark"
}

// Itself is what an explanation calls a mark's other half.
func (m Mark) Itself() string { return m.Name + " itself" }
