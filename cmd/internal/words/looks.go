package words

import (
	"fmt"
	"math"

	"evendrop/tdc/mark/joint/inspect"
)

// Look is what to look at or read next.
func Look(l inspect.Look) string {
	switch l.How {
	case inspect.AtItsSeat:
		return fmt.Sprintf("look at the boss, pointer, bracket or seat of the %s, and whether the right hole or tooth was used", l.Part)
	case inspect.AtItsEdges:
		return fmt.Sprintf("look at the teeth of the %s for a bent or dirty edge, and whether the right edges were meant", l.Part)
	case inspect.AtFollower:
		return fmt.Sprintf("look at the follower, rocker and lash of the %s, and at the lobe for wear", l.Part)
	case inspect.AtSensor:
		return "look at the " + l.Part + "'s bracket and gap"
	case inspect.PistonAgain:
		return "ask what the given angles count from, and " + ReadPiston
	case inspect.OtherCylinder:
		return "find the piston's TDC in another cylinder, and ask whether the given angles count from the piston or from the throw"
	case inspect.CountDrive:
		return "count the links or teeth between the timing marks of the crank sprocket and the cams', and look at the drive's tensioner and guides"
	case inspect.CountDriveTo:
		return "count the links or teeth between the timing marks of the drive to the " + l.Part + ", and look at its tensioner and guides"
	case inspect.AcrossPulley:
		return "see whether a line drawn across the pulley's hub, rubber and ring still meets, and whether its key is whole"
	case inspect.AtSprocket:
		return "look at what holds the crank sprocket to the crank: key, washer, bolt"
	case inspect.AtFlywheel:
		return "see whether the flywheel's dowel and bolts sit in their own holes"
	case inspect.WheelTrue:
		return fmt.Sprintf("check that the fit of the %s on the %s is tight and true", l.Part, l.On)
	case inspect.RockIt:
		return fmt.Sprintf("where the maker allows it, rock the %s on the %s gently by hand, the engine still: an unlocked phaser or a loose bolt gives; look at dowel or key", l.Part, l.On)
	case inspect.SitsTight:
		return fmt.Sprintf("check that the fit of the %s on the %s is tight", l.Part, l.On)
	case inspect.ReadAgain:
		return fmt.Sprintf("read the %s again, with a fresh set-up", l.Part)
	case inspect.ReadAMark:
		return "read a mark on the " + l.Part
	case inspect.ReadAnother:
		return "read another mark on the " + l.Part
	}
	panic(fmt.Sprintf("no words for a look %q", l.How)) // a test words every look
}

// mostNamed is how many joints a look names.
const mostNamed = 4

// LookApart is the same in a sentence, with what it tells apart.
func LookApart(l inspect.Look) string {
	text := Capital(Look(l))
	switch n := len(l.Apart); {
	case n > mostNamed:
		text += fmt.Sprintf(": bears on %d of them", n)
	case n > 0:
		text += ": tells " + And(l.Apart) + " apart"
	}
	if p := mistaken(l.Separation); l.Separation > 0 && p > 0.001 {
		text += " (" + chance(p) + " of taking one for another)"
	}
	return text + sooner(l) + "."
}

// LookFirst is the look to begin with, and what it tells apart.
func LookFirst(l inspect.Look) string {
	text := "First: " + Look(l) + sooner(l)
	if n := len(l.Apart); n > 0 && n <= mostNamed {
		text += "; it tells " + And(l.Apart) + " apart"
	}
	return text + "."
}

// sooner is said of a look at what may have jumped by whole teeth.
func sooner(l inspect.Look) string {
	if !l.Teeth {
		return ""
	}
	return ", before any part is bought"
}

// mistaken is the chance that a reading whose two answers lie so many standard
// uncertainties apart comes out nearer to the wrong one.
func mistaken(separation float64) float64 { return math.Erfc(separation/2/math.Sqrt2) / 2 }

// ReadPiston tells a protractor that moved after the piston was read from parts that did.
const ReadPiston = "read two of the first places of the piston again: where they still fit, the protractor has not moved since"

// ReadOutside is what to do before parts come apart where no look tells more, and StartNot
// what not to do where a drive may have jumped.
const (
	ReadOutside = "Read what is outside again, with a fresh set-up."
	StartNot    = "Do not start the engine before the drive is looked at."
)
