package mark

import "slices"

// Drive is how the marks' members hang together, as the job file says it.
type Drive struct {
	Layout        string // one of Layouts, or "" with Joints
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
	Drive            bool // a chain, belt or gear to a shaft that turns at half the speed
	Teeth            int  // of its sprocket on the crank, when it can jump
}

// Name is what the joint is called.
func (j Joint) Name() string {
	if j.Drive {
		return "drive to " + j.Carried
	}
	return j.Carried + " on " + j.Carrier
}

// Jumps tells whether a joint is held by teeth that may jump: a chain, belt or
// gear, at either end.
func (j Joint) Jumps() bool { return j.Drive || j.Carried == DriveMember }

// The members that the layouts share and that the rest of the package knows.
const (
	Crank         = "crank"
	Flywheel      = "flywheel"
	Pulley        = "pulley"
	CrankSprocket = "crank sprocket"
	CrankWheel    = "crank wheel"
	DriveMember   = "drive" // the one belt or chain round several sprockets
)

// The layouts. With one belt or chain round both sprockets either cam can slip on
// it alone; with a gear or a second chain between the cams the second follows the
// first.
const (
	oneCam       = "one cam"
	camInBlock   = "cam in block"
	oneBelt      = "two cams"
	inletFirst   = "two cams, inlet first"
	exhaustFirst = "two cams, exhaust first"
)

// Layouts is what a drive's Layout may be.
var Layouts = []string{oneCam, oneBelt, inletFirst, exhaustFirst, camInBlock}

// guessed is what is tried where no layout is said, of those that differ in their
// members, the simplest first.
var guessed = []string{oneCam, oneBelt}

// joints is the drive's own, or its layout's.
func (d Drive) joints() []Joint {
	if len(d.Joints) > 0 {
		return d.Joints
	}
	list := []Joint{
		{Carried: Flywheel, Carrier: Crank},
		{Carried: Pulley, Carrier: Crank},
		{Carried: CrankWheel, Carrier: orElse(d.CrankWheelOn, Flywheel)},
		{Carried: CrankSprocket, Carrier: Crank},
	}
	z := d.CrankSprocket
	switch d.Layout {
	case oneBelt:
		list = append(list, Joint{Carried: DriveMember, Carrier: CrankSprocket, Teeth: z})
		list = append(list, d.cam("inlet ", DriveMember, z)...)
		return append(list, d.cam("exhaust ", DriveMember, z)...)
	case inletFirst:
		return append(append(list, d.cam("inlet ", CrankSprocket, z)...), d.cam("exhaust ", "inlet sprocket", 0)...)
	case exhaustFirst:
		return append(append(list, d.cam("exhaust ", CrankSprocket, z)...), d.cam("inlet ", "exhaust sprocket", 0)...)
	}
	return append(list, d.cam("cam ", CrankSprocket, z)...)
}

// Members is every member that there is on the drive, the crank first; where neither
// layout nor joints are said, on any drive that is tried.
func (d Drive) Members() []string {
	members := []string{Crank}
	add := func(d Drive) {
		for _, j := range d.joints() {
			if !slices.Contains(members, j.Carried) {
				members = append(members, j.Carried)
			}
		}
	}
	if d.Layout != "" || len(d.Joints) > 0 {
		add(d)
		return members
	}
	for _, layout := range guessed {
		d.Layout = layout
		add(d)
	}
	return members
}

// cam is a cam's sprocket, the cam and its sensor wheel, driven from a member by
// what jumps by the teeth of a sprocket on the crank; zero when that is not how
// it jumps.
func (d Drive) cam(which, from string, teeth int) []Joint {
	sprocket, shaft, wheel := which+"sprocket", which+"cam", which+"wheel"
	if which == "cam " {
		shaft = "cam"
	}
	under := shaft
	if d.CamWheelOn == "sprocket" {
		under = sprocket
	}
	return []Joint{
		{Carried: sprocket, Carrier: from, Drive: true, Teeth: teeth},
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
