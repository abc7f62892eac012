package job

import (
	"regexp"
	"strconv"

	"evendrop/tdc/mark"
)

// mostTeeth is more than any wheel of an engine has.
const mostTeeth = 1000

// drive reads [drive].
func (d *decoder) drive(t *table) error {
	v := &d.job.Drive
	return t.read(
		field{"layout", oneOf(&v.Layout, "one cam", "two cams", "cam in block")},
		field{"crank_sprocket", whole(&v.CrankSprocket, 1, mostTeeth)},
		field{"crank_wheel", wheel(&v.CrankWheel)},
		field{"crank_wheel_on", oneOf(&v.CrankWheelOn, "flywheel", "pulley", "crank")},
		field{"cam_wheel_on", oneOf(&v.CamWheelOn, "cam", "sprocket")},
		field{"flywheel_bolts", whole(&v.FlywheelBolts, 1, mostTeeth)},
	)
}

var wheelForm = regexp.MustCompile(`^([0-9]{1,4})-([0-9]{1,4})$`)

// wheel takes a sensor wheel: its pitches, and how many teeth are missing.
func wheel(into *string) func(value) error {
	return func(v value) error {
		m := wheelForm.FindStringSubmatch(v.text)
		if v.kind != textKind || m == nil {
			return v.wrong(`expected pitches and missing teeth, as in "60-2"`)
		}
		pitches, _ := strconv.Atoi(m[1])
		missing, _ := strconv.Atoi(m[2])
		if pitches > mostTeeth || missing >= pitches {
			return v.wrong(`expected fewer missing teeth than pitches, and at most %d pitches, as in "60-2"`, mostTeeth)
		}
		*into = v.text
		return nil
	}
}

// joint reads a [[joint]].
func (d *decoder) joint(t *table) error {
	var j mark.Joint
	err := t.read(
		field{"carried", name(&j.Carried)},
		field{"carrier", name(&j.Carrier)},
		field{"kind", either(&j.Drive, "joint", false, "drive", true)},
		field{"teeth", whole(&j.Teeth, 1, mostTeeth)},
	)
	switch {
	case err != nil:
		return err
	case !t.has("carried"):
		return t.missing("carried", `carried = "inlet sprocket"`)
	case !t.has("carrier"):
		return t.missing("carrier", `carrier = "crank sprocket"`)
	case d.job.Drive.Layout != "":
		return faultf(t.at, "%s: the drive has a layout already, %q: leave out the one or the other", t.name, d.job.Drive.Layout)
	}
	if len(d.job.Drive.Joints) == mostJoints {
		return faultf(t.at, "%s: more than %d joints: expected those of one engine", t.name, mostJoints)
	}
	d.job.Drive.Joints = append(d.job.Drive.Joints, j)
	d.job.jointLines = append(d.job.jointLines, lineOf(d.doc.data, t.at))
	return nil
}
