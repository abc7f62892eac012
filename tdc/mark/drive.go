package mark

// Drive is how the marks' members hang together, as the job file says it.
type Drive struct {
	Layout        string // "one cam", "two cams", "cam in block", or "" with Joints
	CrankSprocket int    // teeth
	CrankWheel    string // pitches-missing, such as 60-2
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
