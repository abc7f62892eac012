package words

import (
	"fmt"
	"math"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// Finding is a finding in a sentence or two, and what would cure it.
func (b Bench) Finding(f finding.Finding) string {
	switch f := f.(type) {
	case finding.GaugeCountsOtherWay:
		return fmt.Sprintf("The gauge's numbers grow as the piston goes %s, not as stated. They are taken so; correct counts under [gauge].", f.Counts)
	case finding.FewReadings:
		return fmt.Sprintf("%s: too few to show a bad one. Take at least 6, better 12.", Count(f.Readings, "reading"))
	case finding.NotUsed:
		return fmt.Sprintf("Not used, too few beside the pairs to add anything: %s. Take at least %d, or none.", Count(f.Readings, "reading"), f.Least)
	case finding.AllShallow:
		return fmt.Sprintf("All readings lie within %s of the top, where the piston hardly moves: read farther down both flanks, %s to %s.", b.Depth(f.Within), b.Stated(geometry.Millimetre), b.Stated(3*geometry.Millimetre))
	case finding.FlankMissing:
		rests := "the engine's dimensions alone"
		if f.Pairs > 0 {
			rests = "the pairs of angles and the engine's dimensions"
		}
		return fmt.Sprintf("No reading %s: TDC rests on %s. Read that side too.%s", side(f.Side), rests, b.mayBeUnsigned(f.Unsigned))
	case finding.FlankThin:
		return fmt.Sprintf("Only %s %s: take more there.", Count(f.Readings, "reading"), side(f.Side))
	case finding.FlanksLopsided:
		return fmt.Sprintf("The flanks are read to different depths: %s %s, %s on the other side. Read both to the same depth.", b.Drop(f.Deep), side(f.Deeper), b.Drop(f.Shallow))
	case finding.SuspectReading:
		return b.suspect(f)
	case finding.MoreSuspects:
		return fmt.Sprintf("Of %d readings, %d more do not fit: with so many, suspect the set-up or the engine's dimensions before the readings.", f.Of, f.More)
	case finding.WithEveryReading:
		places := Decimals(f.Expanded.Degrees())
		return fmt.Sprintf("With every reading trusted TDC would be at %s ± %s deg.", b.Reads(f.TDC, places), Fixed(f.Expanded.Degrees(), places))
	case finding.AgainstTurn:
		return fmt.Sprintf("%s and the %s below it go against turning %s. If the crank was turned the other way, correct their turn: as they stand, lash is taken the wrong way.",
			b.place(f.Place), Count(f.Steps, "reading"), f.Turn)
	case finding.Scattered:
		return fmt.Sprintf("The readings scatter %.1f times as much as the instruments explain, and the ± is wider for it. Look for a loose pointer, protractor or gauge.", f.Times)
	case finding.FewLieApart:
		return "What was read lies a little apart, and so few readings cannot tell chance from a fault: the ± is much wider for it. Take two more readings."
	case finding.ScaleOff:
		return fmt.Sprintf("The gauge shows %.3f times the travel computed from stroke and rod: check stroke and rod, and whether the gauge stands straight.", f.Scale)
	case finding.StrokeUnknown:
		return "The stroke is unknown: how fast the piston drops is taken from the readings alone."
	case finding.RodAssumed:
		return fmt.Sprintf("The rod's length is unknown: %s is assumed.", b.LengthWithin(f.Rod, f.KnownTo))
	case finding.OffsetUnstated:
		places := Decimals(f.Expanded.Degrees())
		return fmt.Sprintf("How far the bore and the piston pin stand off the crank is not stated, so up to %s is allowed for. With pin_offset and bore_offset under [engine] TDC would be good to ± %s deg instead of ± %s.",
			b.Stated(f.KnownTo), Fixed(f.Stated.Degrees(), places), Fixed(f.Expanded.Degrees(), places))
	case finding.PairMisfit:
		return fmt.Sprintf("%s does not fit: its midpoint is %.2f deg %s, %.0f times its expected error. Look at it again.",
			f.Pair, math.Abs(f.Off.Degrees()), Later(f.Off), f.Times)
	case finding.PairScatter:
		return fmt.Sprintf("%s: its repeats lie %.2f deg apart, more than the protractor's step explains; the uncertainty allows for it.", f.Pair, f.Apart.Degrees())
	case finding.DwellOneWay:
		return "The dwell was seen turning one way only. Lash and the eye's lag make it late: where it is safe, turn back and look again the other way."
	case finding.MethodApart:
		if f.Moved {
			return fmt.Sprintf("The %s put TDC %.2f deg %s than the other evidence, as they do if they were seen before the protractor moved: look at them again.",
				evidenceOf(f.Method), math.Abs(f.Off.Degrees()), Later(f.Off))
		}
		return fmt.Sprintf("The %s put TDC %.2f deg %s than the other evidence, and up to %.2f deg could be chance: check them.",
			evidenceOf(f.Method), math.Abs(f.Off.Degrees()), Later(f.Off), f.Limit.Degrees())
	case finding.MaybeBottom:
		return "These readings are too coarse to tell TDC from BDC by their shape: make sure that the piston was at the top of its stroke."
	case finding.RowUnsigned:
		return fmt.Sprintf("%s fits on the other side of the protractor's zero, and not where it was typed: if it was read there, write %s.",
			b.place(f.Place), b.otherSide(f.Angle))
	case finding.FlankUnsigned:
		if f.File != "" { // it begins with the file's name, as it is spelt
			return b.flankUnsigned(f) + "."
		}
	}
	if text := b.ofSession(f); text != "" {
		return text
	}
	if text := b.untold(f); text != "" {
		return Capital(text) + "."
	}
	return b.ofWheel(f)
}

// evidenceOf is what a method rests on, more than one of it.
func evidenceOf(method string) string {
	switch method {
	case "stops":
		return "stop contacts"
	case "dwell":
		return "dwell pairs"
	}
	return method
}

// side names a side of TDC.
func side(s finding.Side) string {
	if s == finding.Rising {
		return "before TDC (piston rising)"
	}
	return "after TDC (piston falling)"
}

// place names a reading as its user would find it, in the file and at the bench.
func (b Bench) place(p finding.Place) string {
	at := fmt.Sprintf("(%s deg, %s)", b.Reads(p.Angle, AsRead([]float64{b.Protractor.Shows(p.Angle).Degrees()}, b.Protractor.Step.Degrees())), p.Turn)
	if p.File == "" {
		return fmt.Sprintf("Reading %d %s", p.Line, at)
	}
	return fmt.Sprintf("%s line %d %s", p.File, p.Line, at)
}

func (b Bench) suspect(f finding.SuspectReading) string {
	kept := "It has been left out"
	if f.Weight > 0.005 {
		kept = fmt.Sprintf("It counts for %.0f %% of a reading", 100*f.Weight)
	}
	text := fmt.Sprintf("%s does not fit: it is off by %s, %.0f times its expected error. %s; read it again.",
		b.place(f.Place), b.SignedDepth(f.Off), f.Times, kept)
	if f.DialTurn && !b.Inches { // a dial that shows inches turns once in a tenth or so
		text += " One turn of a dial gauge is 1 mm."
	}
	switch {
	case f.DeeperThan > 0:
		text += fmt.Sprintf(" The piston cannot be there: the stroke is %s in all.", b.Stated(f.DeeperThan))
	case f.AboveTop > 0:
		text += fmt.Sprintf(" The piston cannot be there: that is %s above its highest point.", b.Depth(f.AboveTop))
	}
	return text
}
