package finding

import "evendrop/geometry"

// LobeTopAssumed is a lobe whose greatest lift nobody states, and which was not read.
type LobeTopAssumed struct {
	Mark
	Top geometry.Length `json:"top_mm"` // taken in its place
}

// LobeUncarded is a lobe that is to be read with no opening and closing on its card, so
// that it is not known where to expect them.
type LobeUncarded struct {
	Mark
	Centred  bool            `json:"centred"` // the card says the centre
	Lift     geometry.Length `json:"lift_mm"`
	Duration geometry.Angle  `json:"duration_deg"` // taken, at that lift
}

// LobeLowLift is a checking lift that lies on the ramp of most lobes.
type LobeLowLift struct {
	Mark
	Lift geometry.Length `json:"lift_mm"`
}

// LobeLiftHigh is a checking lift that lies not well below the top of the lobe.
type LobeLiftHigh struct {
	Mark
	Lift geometry.Length `json:"lift_mm"`
	Top  geometry.Length `json:"top_mm"`
}

// LobeLimit is what a lobe's readings leave its shift, or its centre where there is no
// card, by what leaves it: half-widths at 95 %, crank, that add up as squares do. More
// readings shrink none of it but TDC's.
type LobeLimit struct {
	Mark
	Known      geometry.Angle `json:"expanded_uncertainty_deg"`
	Protractor geometry.Angle `json:"protractor_deg"`
	Heel       geometry.Angle `json:"heel_deg"`  // by the cam's running out
	Gauge      geometry.Angle `json:"gauge_deg"` // of the lifts
	Rest       geometry.Angle `json:"rest_deg"`  // TDC, slack and ramps

	Slack  geometry.Angle  `json:"slack_deg"`                      // of the drive, as stated
	RunOut geometry.Length `json:"runout_mm"`                      // as stated
	Moved  geometry.Angle  `json:"moved_expanded_uncertainty_deg"` // all of it, by the mean of two settings of the protractor on the crank
	Fine   geometry.Angle  `json:"fine_deg"`                       // what a finer protractor is read to, and good to
	Finer  *geometry.Angle `json:"finer_expanded_uncertainty_deg"` // all of it, on such a one; nil: this one is no coarser
}

// The kinds, by name, and what would cure each.

func (LobeTopAssumed) Kind() string { return "lobe top assumed" }
func (LobeTopAssumed) Cure() Cure   { return MendJob }

func (LobeUncarded) Kind() string { return "lobe without a card" }
func (LobeUncarded) Cure() Cure   { return MendJob }

func (LobeLowLift) Kind() string { return "checking lift low" }
func (LobeLowLift) Cure() Cure   { return MendJob }

func (LobeLiftHigh) Kind() string { return "checking lift high" }
func (LobeLiftHigh) Cure() Cure   { return MendJob }

func (LobeLimit) Kind() string { return "lobe limited" }
func (LobeLimit) Cure() Cure   { return LookAtEngine }
