package joint

import (
	"math"
	"slices"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
)

// slack is by how much a whole tooth or bolt may be missed and still be meant:
// as-built tolerances of marks are of half a degree to one (common practice, no
// source).
const slack = 1 * geometry.Degree

// fingerprint is the sizes of slip that a cause is known for, crank degrees
// (common practice, no source).
type fingerprint struct {
	low, high float64
	lateOnly  bool
	cause     finding.Cause
}

// class is parts that slip for like causes.
type class int

const (
	unclassed class = iota
	drives
	sprockets
	cams
	grounds
	pulleys
	zeroPoints
	scales
)

var fingerprints = map[class][]fingerprint{
	drives:     {{1, 8, true, finding.WornDrive}},
	sprockets:  {{0.5, 4, false, finding.WornKey}, {5, 40, false, finding.FrictionHeld}},
	cams:       {{5, 60, false, finding.FreePhaser}},
	grounds:    {{0.3, 2, false, finding.BentPart}},
	pulleys:    {{1, 180, false, finding.CreptDamper}},
	zeroPoints: {{0.2, 4, false, finding.MistakenTDC}},
	scales:     {{0.2, 180, false, finding.MovedScale}},
}

// sizes tells what sizes of slips agree with.
type sizes struct {
	*seen.System
	setup evidence.Setup
}

// notes is what the size of a part's slip agrees with, among the sizes that parts of
// its kind slip by.
func (x sizes) notes(p seen.Part, e gum.Estimate) []finding.Finding {
	var notes []finding.Finding
	slipped := finding.Joint{Name: p.Name, Off: e.Angle}
	if round, has := x.steps(p); has {
		notes = append(notes, whole(slipped, e, round)...)
	}
	if p.IsZero() && !slices.ContainsFunc(x.Marks, func(f mark.Judged) bool { return f.AgainstHealthy() }) {
		if offset, makes := mark.OffsetMakes(x.setup, e.Angle, e.Expanded, false); makes {
			notes = append(notes, finding.TDCByOffset{Joint: slipped, Offset: offset, Stated: x.setup.Engine.OffsetStated})
		}
	}
	if x.halfATurnOfACam(p, e) {
		notes = append(notes, finding.HalfCamTurn{Joint: slipped})
	}
	if x.OfLobe(p) {
		notes = append(notes, finding.LobeItself{Joint: slipped})
	}
	if causes := x.causes(p, e); len(causes) > 0 {
		notes = append(notes, finding.UsualSize{Joint: slipped, Causes: causes})
	}
	return notes
}

// steps is the whole steps that a part slips by, when it does.
func (x sizes) steps(p seen.Part) (round finding.Steps, has bool) {
	d := x.Tree.Drive
	switch {
	case p.Kind == seen.Drive && p.Joint.Teeth > 0:
		return finding.Steps{Step: finding.Tooth, InTurn: p.Joint.Teeth}, true
	case p.Joint.Carried == mark.Flywheel && d.FlywheelBolts > 1:
		return finding.Steps{Step: finding.BoltHole, InTurn: d.FlywheelBolts}, true
	case p.Kind == seen.Fastening && p.Joint.Carried == mark.CrankWheel && d.CrankPitches > 0:
		return finding.Steps{Step: finding.Pitch, InTurn: d.CrankPitches, Wheel: d.CrankWheel}, true
	}
	return round, false
}

// whole is whether a slip agrees with whole steps; nothing where they are too fine
// to say.
func whole(slipped finding.Joint, e gum.Estimate, round finding.Steps) []finding.Finding {
	n, agrees := steps(e, round.Each())
	switch {
	case math.IsNaN(n):
		return nil
	case !agrees:
		return []finding.Finding{finding.NoWholeSteps{Joint: slipped, Steps: round}}
	}
	return []finding.Finding{finding.WholeSteps{Joint: slipped, Count: int(n), Steps: round}}
}

// steps is the whole number of steps that a slip is nearest to, and whether it
// agrees with that; not a number where the steps are finer than it is known.
func steps(e gum.Estimate, step geometry.Angle) (n float64, agrees bool) {
	reach := max(slack, e.Expanded)
	if reach > step/4 {
		return math.NaN(), false
	}
	by := math.Abs(float64(e.Angle / step))
	n = math.Round(by)
	return n, n > 0 && math.Abs(by-n)*float64(step) <= float64(reach)
}

// jumped tells whether a part's slip is a jump of whole teeth.
func jumped(p seen.Part, e gum.Estimate) bool {
	if p.Kind != seen.Drive || p.Joint.Teeth == 0 {
		return false
	}
	_, agrees := steps(e, tooth(p))
	return agrees
}

// tooth is a tooth of the crank sprocket that a drive jumps by.
func tooth(p seen.Part) geometry.Angle { return geometry.Turn / geometry.Angle(p.Joint.Teeth) }

// causes is what has usual sizes that the slip is among.
func (x sizes) causes(p seen.Part, e gum.Estimate) []finding.Cause {
	var causes []finding.Cause
	degrees := math.Abs(e.Angle.Degrees())
	for _, f := range fingerprints[x.class(p)] {
		if degrees >= f.low && degrees <= f.high && (e.Angle > 0 || !f.lateOnly) {
			causes = append(causes, f.cause)
		}
	}
	return causes
}

// class is the fingerprints that fit a part.
func (x sizes) class(p seen.Part) class {
	t := x.Tree
	switch {
	case x.OfLobe(p):
		return unclassed
	case p.Kind == seen.Drive:
		return drives
	case p.Kind == seen.Ground || p.Kind == seen.Sensor:
		return grounds
	case p.Kind == seen.ZeroPoint:
		return zeroPoints
	case p.Kind == seen.Scale:
		return scales
	case p.Joint.Carried == mark.CrankSprocket:
		return sprockets
	case p.Joint.Carried == mark.Pulley:
		return pulleys
	case !seen.Sensed(p.Joint.Carried) && t.AtCamSpeed(p.Joint.Carried):
		return cams
	}
	return unclassed
}

// halfATurnOfACam tells whether a part at cam speed is half a turn out.
func (x sizes) halfATurnOfACam(p seen.Part, e gum.Estimate) bool {
	if p.Kind == seen.Ground || p.IsZero() || !x.Tree.AtCamSpeed(p.Joint.Carried) {
		return false
	}
	return math.Abs(math.Abs(float64(e.Angle))-float64(geometry.Turn)) <= math.Max(float64(slack), float64(e.Expanded))
}
