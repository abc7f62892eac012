package mark

// Drive is how the marks' members hang together, as the job file says it.
type Drive struct {
	Layout        string // "one cam", "two cams", "cam in block", or "" with Joints
	CrankSprocket int    // teeth
	CrankWheel    string // its name, such as 60-2
	CrankPitches  int    // of the crank wheel in a turn, gaps counted; 0 when not said
	CrankWheelOn  string // flywheel, pulley or crank
	CamWheelOn    string // cam or sprocket
	FlywheelBolts int
	Joints        []Joint
}

// Joint is a fastening between two members that may have slipped.
type Joint struct {
	Carried, Carrier string
	Drive            bool // a chain, belt or gear rather than a fastening
	Teeth            int  // of its sprocket on the crank, when it can jump
}

// name is what the joint is called.
func (j Joint) name() string {
	if j.Drive {
		return "drive to " + j.Carried
	}
	return j.Carried + " on " + j.Carrier
}

// The members that the layouts share and that the rest of the package knows.
const (
	crank         = "crank"
	flywheel      = "flywheel"
	pulley        = "pulley"
	crankSprocket = "crank sprocket"
	crankWheel    = "crank wheel"
)

// The layouts that differ in their members, the simplest first; a cam in the
// block has those of one cam.
var layouts = []string{"one cam", "two cams"}

// joints is the drive's own, or its layout's.
func (d Drive) joints() []Joint {
	if len(d.Joints) > 0 {
		return d.Joints
	}
	list := []Joint{
		{Carried: flywheel, Carrier: crank},
		{Carried: pulley, Carrier: crank},
		{Carried: crankWheel, Carrier: orElse(d.CrankWheelOn, flywheel)},
		{Carried: crankSprocket, Carrier: crank},
	}
	if d.Layout == "two cams" {
		list = append(list, d.cam("inlet ", crankSprocket)...)
		return append(list, d.cam("exhaust ", "inlet sprocket")...)
	}
	return append(list, d.cam("cam ", crankSprocket)...)
}

// cam is a cam's sprocket, the cam and its sensor wheel, driven from a member.
func (d Drive) cam(which, from string) []Joint {
	sprocket, shaft, wheel := which+"sprocket", which+"cam", which+"wheel"
	if which == "cam " {
		shaft = "cam"
	}
	under := shaft
	if d.CamWheelOn == "sprocket" {
		under = sprocket
	}
	return []Joint{
		{Carried: sprocket, Carrier: from, Drive: true, Teeth: d.CrankSprocket},
		{Carried: shaft, Carrier: sprocket},
		{Carried: wheel, Carrier: under},
	}
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}
