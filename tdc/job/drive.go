package job

import (
	"evendrop/tdc/mark"
	"evendrop/tdc/wheel"
)

// mostTeeth is more than any wheel of an engine has.
const mostTeeth = 1000

// drive reads [drive].
func (d *decoder) drive(t *table) error {
	v := &d.job.Drive
	return t.read(
		field{"layout", oneOf(&v.Layout, mark.Layouts...)},
		field{"crank_sprocket", whole(&v.CrankSprocket, 1, mostTeeth)},
		field{"crank_wheel", crankWheel(v)},
		field{"crank_wheel_on", oneOf(&v.CrankWheelOn, "flywheel", "pulley", "crank")},
		field{"cam_wheel_on", oneOf(&v.CamWheelOn, "cam", "sprocket")},
		field{"flywheel_bolts", whole(&v.FlywheelBolts, 1, mostTeeth)},
	)
}

// crankWheel takes the crank's sensor wheel.
func crankWheel(into *mark.Drive) func(value) error {
	return func(v value) error {
		if v.kind != textKind {
			return v.wrong(`expected pitches and missing teeth, as in "60-2"`)
		}
		w, err := wheel.Parse(v.text)
		if err != nil {
			return v.wrong("%v", err)
		}
		into.CrankWheel, into.CrankPitches = w.Name, w.Pitches()
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
