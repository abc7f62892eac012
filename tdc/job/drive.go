package job

import (
	"evendrop/tdc/job/toml"
	"evendrop/tdc/mark"
	"evendrop/tdc/names"
	"evendrop/tdc/wheel"
)

// mostTeeth is more than any wheel of an engine has.
const mostTeeth = 1000

func (d *decoder) drive(t *toml.Table) error {
	v := &d.job.Drive
	return t.Read(
		toml.Key("layout", toml.OneOf(&v.Layout, mark.Layouts...)),
		toml.Key("crank_sprocket", toml.Whole(&v.CrankSprocket, 1, mostTeeth)),
		toml.Key("crank_wheel", crankWheel(v)),
		toml.Key("crank_wheel_on", toml.OneOf(&v.CrankWheelOn, "flywheel", "pulley", "crank")),
		toml.Key("cam_wheel_on", toml.OneOf(&v.CamWheelOn, "cam", "sprocket")),
		toml.Key("flywheel_bolts", toml.Whole(&v.FlywheelBolts, 1, mostTeeth)),
	)
}

// crankWheel takes the crank's sensor wheel.
func crankWheel(into *mark.Drive) func(toml.Value) error {
	return func(v toml.Value) error {
		if v.Kind != toml.TextKind {
			return v.Wrong(`expected pitches and missing teeth, as in "60-2"`)
		}
		w, err := wheel.Parse(v.Text)
		if err != nil {
			return v.Wrong("%v", err)
		}
		into.CrankWheel, into.CrankPitches = w.Name, w.Pitches()
		return nil
	}
}

// joints takes the joints, whose carriers are the crank or members that are carried, before
// or after.
func (d *decoder) joints(v toml.Value) error {
	err := toml.Many(d.joint)(v)
	members := d.job.Drive.Members()
	for i := range d.job.Drive.Joints {
		j := &d.job.Drive.Joints[i]
		j.Carrier = names.Settled(j.Carrier, members)
	}
	return err
}

func (d *decoder) joint(t *toml.Table) error {
	var j mark.Joint
	err := t.Read(
		toml.Key("carried", toml.Name(&j.Carried)),
		toml.Key("carrier", toml.Name(&j.Carrier)),
		toml.Key("kind", toml.Either(&j.Drive, "joint", false, "drive", true)),
		toml.Key("teeth", toml.Whole(&j.Teeth, 1, mostTeeth)),
	)
	if err == nil {
		err = t.Needs(`carried = "inlet sprocket"`, `carrier = "crank sprocket"`)
	}
	switch {
	case err != nil:
		return err
	case d.job.Drive.Layout != "":
		return t.Wrong("the drive has a layout already, %q: leave out one of the two", d.job.Drive.Layout)
	}
	if len(d.job.Drive.Joints) == mostJoints {
		return t.Wrong("more than %d joints: expected those of one engine", mostJoints)
	}
	d.job.Drive.Joints = append(d.job.Drive.Joints, j)
	d.job.jointLines = append(d.job.jointLines, d.doc.Line(t))
	return nil
}
