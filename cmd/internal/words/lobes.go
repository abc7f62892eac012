package words

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// ofLobe is a finding about a cam lobe, without its name; "" for another.
func (b Bench) ofLobe(f finding.Finding) string {
	switch f := f.(type) {
	case finding.LobeFewReadings:
		return fmt.Sprintf("%s with a lift above zero: too few for an opening and a closing. Take at least %d, better 11: on each side two about the checking lift and three higher up, and the top.",
			Capital(Count(f.Readings, "reading")), f.Least)
	case finding.RoundTwice:
		return fmt.Sprintf("In the order that they stand in, the rows go round more than one turn, to %s. Laid on one turn their lifts do not rise to one top and fall from it. A row is mistyped, or is of the other turn: read again what does not fit.", b.place(f.Place))
	case finding.BackwardRows:
		return fmt.Sprintf("Left out, for they were read turning backward, with the slack of the drive on the other side: %s, the first at %s. Go back well beyond them, and read them again turning forward.",
			Count(f.Rows, "row"), b.place(f.Place))
	case finding.LiftsRunBack:
		return fmt.Sprintf("From %s on %s follow one another as the crank turns backward. If it was turned back, write b under turn, and read them again turning forward; if not, check counts under [protractor]. Until then the lobe says nothing of a cam that has moved.",
			b.place(f.Place), Count(f.Rows, "row"))
	case finding.LiftOutOfLine:
		if f.LeftOut {
			return fmt.Sprintf("%s: its lift of %s does not lie between those beside it, so it is left out. Look at it again: was the angle or the lift mistyped?", b.place(f.Place), b.Depth(f.Lift))
		}
		return fmt.Sprintf("The lifts do not rise to one top and fall from it. Look again at %s, a lift of %s, and at the rows beside it. Until then they say nothing of a cam that has moved.", b.place(f.Place), b.Depth(f.Lift))
	case finding.LiftNotStraddled:
		return b.notStraddled(f)
	case finding.StraddledWide:
		return fmt.Sprintf("On the %s side the readings below and above the checking lift of %s lie %s deg apart. The lobe is not straight between them: read two within 5 deg.",
			f.Flank, b.Depth(f.Lift), tenths(f.Apart))
	case finding.FlanksUnlike:
		return fmt.Sprintf("At %s the %s side is %.1f times as steep as the other: a lift or an angle beside it was mistyped. Look again at %s and %s; if they are right, at %s and %s.",
			b.Depth(f.Lift), f.Flank, f.Times, b.line(f.Steep[0]), b.line(f.Steep[1]), b.line(f.Other[0]), b.line(f.Other[1]))
	case finding.OnRamp:
		return fmt.Sprintf("On the %s side %s lies on the ramp, where the lift changes by %s a degree. The centre is good to 2 or 3 deg there and says nothing of a cam that has moved. Use a card with a greater checking lift, such as %s, and read across that.",
			f.Flank, b.Depth(f.Lift), b.fine(f.Slope), b.Stated(geometry.Millimetre))
	case finding.OtherValve:
		return otherValve(f)
	case finding.HeelNotZero:
		return fmt.Sprintf("The gauge shows %s on the heel, and all lifts are off by that: set it to zero beside both ramps, and read again.", b.SignedDepth(f.Lift))
	case finding.TopOff:
		return b.topOff(f)
	case finding.LevelApart:
		return fmt.Sprintf("At %s the middle lies %s deg %s than the line of the other lifts: read that lift again on both sides, from %s on.",
			b.Depth(f.Lift), tenths(f.By), Later(f.By), b.place(f.Place))
	case finding.LobeLeans:
		return fmt.Sprintf("Its flanks are unlike: the middle moves by %s deg for each 100 deg of duration, so compare it at the card's lift only. It was ground so, or has a finger follower, and that alone is not a fault.",
			Signed(100*f.Lambda, 1))
	case finding.LiftOffset:
		return b.liftOffset(f)
	case finding.RatioOff:
		return fmt.Sprintf("The lifts are %.3f ± %.3f times those of the healthy engine, more so the higher. Check the rocker's ratio, the gauge's tilt, and that it is the same lobe.", f.Times, f.Expanded)
	}
	return b.ofLobePlan(f)
}

// fine is a small slope, in the job's unit.
func (b Bench) fine(slope float64) string {
	return Fixed(b.In(geometry.Length(slope)), b.depthPlaces()+1) + " " + b.Unit()
}

// notStraddled is what is missing about a checking lift, and where to read.
func (b Bench) notStraddled(f finding.LiftNotStraddled) string {
	lift := b.Depth(f.Lift)
	text := fmt.Sprintf("The checking lift of %s was not read across on the %s side", lift, f.Flank)
	switch {
	case f.Below == nil && f.Above == nil:
		text += ", where nothing was read"
	case f.Below == nil:
		text += fmt.Sprintf(", where the lowest reading is %s", b.Depth(*f.Above))
	case f.Above == nil:
		text += fmt.Sprintf(", where the highest reading is %s", b.Depth(*f.Below))
	default:
		text += fmt.Sprintf(": the nearest readings are %s and %s", b.Depth(*f.Below), b.Depth(*f.Above))
	}
	return text + ", so its opening and closing cannot be determined. Read below and above it, within 5 deg."
}

// otherValve is a lobe on the other side of TDC.
func otherValve(f finding.OtherValve) string {
	comes, should, other := "before", "after", "exhaust"
	if f.Valve == "exhaust" {
		comes, should, other = "after", "before", "inlet"
	}
	return fmt.Sprintf("The centre lies %s deg %s TDC, and that of an %s lobe comes %s it. This may be the %s lobe. Check which valve the gauge stands on, and counts under [protractor].",
		Fixed(math.Abs(f.Centre.Degrees()), 0), comes, f.Valve, should, other)
}

// topOff is a top that is not the card's, by what makes it so.
func (b Bench) topOff(f finding.TopOff) string {
	text := fmt.Sprintf("The greatest lift is %s, and the card makes it %s", b.Depth(f.Top), b.Depth(f.Meant))
	const near = 0.08 // of the factor that another unit makes
	for _, of := range []struct {
		times float64
		cure  string
	}{
		{1 / geometry.Inch.Millimetres(), "the lifts look like inches. Write lift_in in the header row"},
		{geometry.Inch.Millimetres(), "the lifts look like millimetres taken as inches. Write lift_mm in the header row"},
		{100, "the lifts look like hundredths of a millimetre. Write 9.20 for 920"},
	} {
		if math.Abs(f.Times/of.times-1) < near {
			return text + ": " + of.cure + "."
		}
	}
	return text + fmt.Sprintf(", %s times as much. Check that it is this lobe, the unit, the ratio of lobe to gauge, and that the top was read.", geometry.Decimal(f.Times, 2))
}

// liftOffset is lift that is missing or too much all over the lobe.
func (b Bench) liftOffset(f finding.LiftOffset) string {
	what, causes := "less", "lash, wear, the gauge's zero, or a card of another cam or lift"
	if f.Offset < 0 {
		what, causes = "more", "the gauge's zero, lash set too small, or a card of another cam or lift"
	}
	return fmt.Sprintf("It lifts %s ± %s %s than the card: %s. That does not come of a moved cam, and the shift allows for it.",
		b.Depth(geometry.Length(math.Abs(float64(f.Offset)))), b.Depth(f.Expanded), what, causes)
}
