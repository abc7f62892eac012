package joint

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc/mark"
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
	cause     string
}

var fingerprints = map[string][]fingerprint{
	"drive": {{1, 8, true, "a worn chain, belt or guide"}},
	"crank sprocket": {
		{0.5, 4, false, "a worn key"},
		{5, 40, false, "a sprocket held by friction alone"},
	},
	"cam":    {{5, 60, false, "a phaser that is not locked, or a sprocket that was not held"}},
	"ground": {{0.3, 2, false, "a bent pointer, pin boss or bracket, or a wrong part"}},
	"pulley": {{1, 180, false, "a damper's ring that has crept on its rubber"}},
	"TDC": {{0.2, 4, false, "one-way lash, an off-centre or slipped protractor, or a nominal angle that counts from elsewhere: " +
		"rule these out before you suspect the crank"}},
}

// notes holds a part's slip against the sizes that parts of its kind slip by.
func (x *explainer) notes(p part, e gum.Estimate) []string {
	var notes []string
	add := func(note string) {
		if note != "" {
			notes = append(notes, note)
		}
	}
	d := x.system.tree.Drive
	switch {
	case p.kind == drive && p.joint.Teeth > 0:
		add(whole(p.name, e, tooth(p), "tooth", fmt.Sprintf("of the %d-tooth crank sprocket", p.joint.Teeth)))
	case p.joint.Carried == mark.Flywheel && d.FlywheelBolts > 1:
		add(whole(p.name, e, geometry.Turn/geometry.Angle(d.FlywheelBolts), "hole", fmt.Sprintf("of %d flywheel bolts", d.FlywheelBolts)))
	case p.kind == fastening && p.joint.Carried == mark.CrankWheel && d.CrankPitches > 0:
		add(whole(p.name, e, geometry.Turn/geometry.Angle(d.CrankPitches), "pitch", "of the "+d.CrankWheel+" wheel"))
	case p.kind == zeroPoint && !slices.ContainsFunc(x.findings, func(f mark.Judged) bool { return f.Healthy != nil }):
		if text := mark.OffsetMakes(x.setup, e.Angle, e.Expanded, false); text != "" {
			add(fmt.Sprintf("%s: %s deg %s, %s.", p.name, mark.Size(e.Angle), mark.Way(e.Angle), text))
		}
	}
	if x.halfATurnOfACam(p, e) {
		add(p.name + ": 360 deg of crank is half a turn of the cam: it was fitted half a turn out, or TDC was taken a whole turn away.")
	}
	add(x.usual(p, e))
	return notes
}

// whole holds a slip against whole steps of a size.
func whole(name string, e gum.Estimate, step geometry.Angle, one, of string) string {
	n, agrees := steps(e, step)
	what := fmt.Sprintf("%.0f %s", n, plural(one))
	if n < 2 {
		what = "one " + one
	}
	switch {
	case math.IsNaN(n):
		return ""
	case !agrees:
		return fmt.Sprintf("%s: %s deg is no whole number; one %s %s would be %s.", name, mark.Size(e.Angle), one, of, mark.Size(step))
	}
	return fmt.Sprintf("%s: %s deg agrees with %s %s, %s.", name, mark.Size(e.Angle), what, of, mark.Size(step*geometry.Angle(n)))
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
func jumped(p part, e gum.Estimate) bool {
	if p.kind != drive || p.joint.Teeth == 0 {
		return false
	}
	_, agrees := steps(e, tooth(p))
	return agrees
}

// tooth is a tooth of the crank sprocket that a drive jumps by.
func tooth(p part) geometry.Angle { return geometry.Turn / geometry.Angle(p.joint.Teeth) }

func plural(one string) string {
	switch one {
	case "tooth":
		return "teeth"
	case "pitch":
		return "pitches"
	}
	return one + "s"
}

// usual names a cause whose usual sizes the slip is among.
func (x *explainer) usual(p part, e gum.Estimate) string {
	var causes []string
	degrees := math.Abs(e.Angle.Degrees())
	for _, f := range fingerprints[x.class(p)] {
		if degrees >= f.low && degrees <= f.high && (e.Angle > 0 || !f.lateOnly) {
			causes = append(causes, f.cause)
		}
	}
	if len(causes) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: %s deg %s is among the usual sizes of %s.", p.name, mark.Size(e.Angle), mark.Way(e.Angle), strings.Join(causes, ", or "))
}

// class is the fingerprints that fit a part.
func (x *explainer) class(p part) string {
	t := x.system.tree
	switch {
	case p.kind == drive:
		return "drive"
	case p.kind == ground || p.kind == sensor:
		return "ground"
	case p.kind == zeroPoint:
		return "TDC"
	case p.joint.Carried == mark.CrankSprocket || p.joint.Carried == mark.Pulley:
		return p.joint.Carried
	case sensors[p.joint.Carried] == "" && t.AtCamSpeed(p.joint.Carried):
		return "cam"
	}
	return ""
}

// halfATurnOfACam tells whether a part at cam speed is half a turn out.
func (x *explainer) halfATurnOfACam(p part, e gum.Estimate) bool {
	if p.kind == ground || p.kind == zeroPoint || !x.system.tree.AtCamSpeed(p.joint.Carried) {
		return false
	}
	return math.Abs(math.Abs(float64(e.Angle))-float64(geometry.Turn)) <= math.Max(float64(slack), float64(e.Expanded))
}
