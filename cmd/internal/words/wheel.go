package words

import (
	"fmt"
	"math"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/fault"
)

// ofWheel is a finding about a capture of a sensor wheel.
func (b Bench) ofWheel(f finding.Finding) string {
	switch f := f.(type) {
	case finding.TimeUnitAssumed:
		return "No row tells the unit of time: seconds are assumed (--time-unit ms, us, ns or samples says otherwise)."
	case finding.LastLineCut:
		return "The last line is cut short and left out."
	case finding.TimesRounded:
		return "The time column has too few digits to tell neighbouring rows apart: they are taken as evenly spaced."
	case finding.UsedInPart:
		return fmt.Sprintf("Only the first %s s of the capture were used: no more than %s edges are kept at once.", geometry.Decimal(f.Seconds, 3), thousands(f.Edges))
	case finding.BounceIgnored:
		return fmt.Sprintf("%s of level left out as bounce or a disturbance: within microseconds of another.", Capital(Count(f.Changes, "change")))
	case finding.LeadsReversed:
		return "The crank signal rises through zero where a tooth passes, and a sensor is commonly wired to fall there. Its leads, or the scope's, " +
			"may be reversed. A control unit that counts the other crossing reads half a pitch off and sees no proper gap. " +
			"The angles here count from the teeth all the same."
	case finding.RoughTooth:
		return fmt.Sprintf("Tooth %d stands %.1f deg %s of where its neighbours put it, and was not used: look for damage or dirt. (The first tooth after the gap "+
			"of an inductive sensor can read off by up to 1 deg without damage.)", f.Tooth, math.Abs(f.Off.Degrees()), Way(f.Off))
	case finding.ManyTurnsLeftOut:
		return fmt.Sprintf("Many turns were left out since their teeth are not those of %s: look at the crank signal.", f.Wheel)
	case finding.CoarseTimes:
		if f.Digits {
			return fmt.Sprintf("Times are written to %.2f deg of crank: export more digits to time single edges better than that.", f.Step.Degrees())
		}
		return fmt.Sprintf("A sample lasts %.2f deg of crank: sample faster to time single edges better than that.", f.Step.Degrees())
	}
	return b.ofGaps(f)
}

// ofGaps is a finding about a wheel's gaps and what they leave open.
func (b Bench) ofGaps(f finding.Finding) string {
	switch f := f.(type) {
	case finding.WheelFromSignal:
		return fmt.Sprintf("No --wheel was given: %s is what repeats in the crank signal. Compare it with the wheel itself.", f.Wheel)
	case finding.GapsElsewhere:
		return fmt.Sprintf("%s usually has its gaps at %s. The signal has them at %s, which was taken: make sure that this is the wheel.", f.Wheel, f.Usual, f.Seen)
	case finding.GapsFromSignal:
		return fmt.Sprintf("%s does not tell where its gaps are: they were taken where the signal has them, %s.", f.Wheel, f.Seen)
	case finding.PartsByCams:
		return fmt.Sprintf("The crank wheel has %d equal parts, which look alike: the cams tell which is which.", f.Parts)
	case finding.PartsUntold:
		more := "Add another cam's column with --cam."
		if f.Cams == 0 {
			more = "Add the cams' columns with --cam."
		}
		return fmt.Sprintf("The crank wheel has %d equal parts, which look alike, and nothing here tells which is which. Tooth 1 is the first after any of the gaps "+
			"that look so, and angles count from 0 to %.0f deg. %s", f.Parts, f.Period.Degrees(), more)
	case finding.MaybeThirds:
		return fmt.Sprintf("The crank signal alone does not tell %s from %s in three equal parts of a turn, at a third of the speed. Make sure of the wheel, "+
			"or add the cams' columns with --cam.", f.Wheel, f.Thirds)
	case finding.CamsInThirds:
		return fmt.Sprintf("The cams repeat every two thirds of a turn, as three equal cam teeth do: without such teeth, --wheel %s is not the wheel.", f.Wheel)
	}
	return b.ofCams(f)
}

// ofCams is a finding about the cams' edges in one capture.
func (b Bench) ofCams(f finding.Finding) string {
	switch f := f.(type) {
	case finding.OneTurnOnly:
		return "The cam signals do not tell one turn of the crank from the next, or no two turns in a row could be used. So angles are within one turn, 0 to 360 deg."
	case finding.NoCamEdge:
		return fmt.Sprintf("Column %d has no edge that repeats from turn to turn: look at the signal, or at --cam.", f.Column)
	case finding.EdgeWanders:
		return fmt.Sprintf("The %s edge of column %d at %.1f deg wanders by some %.1f deg from turn to turn. That may be a loose drive, a phaser at work, or a poor signal.",
			f.Edge, f.Column, f.Angle.Degrees(), f.Deviation.Degrees())
	case finding.StrayPassings:
		if f.Passings == 1 {
			return "One passing of the cam signals that does not repeat was left out: a disturbance, or a cam that wanders."
		}
		return fmt.Sprintf("%d passings of the cam signals that do not come once a turn were left out: disturbances, or a cam that wanders.", f.Passings)
	}
	return b.ofCaptures(f)
}

// ofCaptures is a finding about two captures.
func (b Bench) ofCaptures(f finding.Finding) string {
	switch f := f.(type) {
	case finding.LeadsDiffer:
		return fmt.Sprintf("The crank signal leads with its %s edge in one capture and its %s edge in the other. If leads or probes were changed "+
			"between, all edges may shift for that alone.", f.Before, f.After)
	case finding.SpeedsDiffer:
		return fmt.Sprintf("The captures are at different speeds (about %.0f and %.0f rev/min): sensor lag and phasers shift edges with speed. "+
			"Compare at equal speeds before you rely on it.", f.Before, f.After)
	case finding.EdgeCountsDiffer:
		return fmt.Sprintf("Column %d has %d edges in one capture and %d in the other: they are not compared.", f.Column, f.Before, f.After)
	case finding.EdgeKindsDiffer:
		return fmt.Sprintf("Column %d has edges of other kinds in the other capture: they are not compared.", f.Column)
	case finding.KnownGoodSilent:
		return "The known-good file does not state speed or leads: compare at the speed and with the leads that it was made with."
	}
	return b.ofMoves(f)
}

// ofMoves is what the shifts from one capture to another point to.
func (b Bench) ofMoves(f finding.Finding) string {
	switch f := f.(type) {
	case finding.ShiftsUnsure:
		return "Too few turns to say how sure the shifts are. Ten turns or more would tell, where the engine may safely turn."
	case finding.NoEdgeMoved:
		return "No cam edge moved by more than chance explains."
	case finding.AllCamsMoved:
		return fmt.Sprintf("All edges of all cams moved together, %s. This points to what they share. Either the crank wheel or its sensor moved the other way, "+
			"or the drive that all cams share moved this way. A capture cannot tell which: find TDC, and see where the crank wheel stands from it.", moved(f.Move))
	case finding.OnlyCamMoved:
		return fmt.Sprintf("All edges of the one cam captured moved together, %s. With one cam a capture cannot tell that cam's side (drive, phaser, "+
			"cam, its wheel or sensor) from the crank wheel's. Capture another cam too, or find TDC.", moved(f.Move))
	case finding.OneCamMoved:
		return fmt.Sprintf("One cam alone moved, column %d, %s, and the others did not. This points to that cam: its drive, phaser, fastening, wheel or sensor.",
			f.Column, moved(f.Move))
	case finding.OneEdgeMoved:
		return fmt.Sprintf("One edge alone moved, the %s one of column %d at %.1f deg. This points to a damaged tooth of that cam's wheel or a doubtful signal, not to the drive.",
			f.Edge, f.Column, f.Angle.Degrees())
	case finding.CamUneven:
		return fmt.Sprintf("The edges of column %d moved by different amounts: look at that cam's wheel, its sensor and their signal before its drive.", f.Column)
	case finding.CamsApart:
		return "Edges moved by different amounts: more than one thing moved, or the captures differ. Take each cam by itself: " + byCam(f.Cams) + "."
	}
	return b.ofMark(f)
}

func byCam(cams []finding.CamMove) string {
	var parts []string
	for _, c := range cams {
		how := "unevenly"
		if c.Move != nil {
			how = moved(*c.Move)
		}
		parts = append(parts, fmt.Sprintf("column %d %s", c.Column, how))
	}
	return strings.Join(parts, "; ")
}

// leastMove is the least uncertainty that a shift of cams is said with, deg.
const leastMove = 0.1

// moved is a common shift in degrees and pitches.
func moved(m finding.Move) string {
	return fmt.Sprintf("by %.1f ± %.1f crank deg %s (%.1f pitches of %s)", math.Abs(m.Off.Degrees()), math.Max(m.Expanded.Degrees(), leastMove),
		Way(m.Off), m.Pitches, m.Wheel)
}

// Fault is what is wrong with a capture, and what to type instead.
func Fault(f *fault.Fault) string {
	var say, wheels []string
	for _, t := range f.Try {
		if t.Wheel != "" {
			wheels = append(wheels, wheelFlag(t))
		} else {
			say = append(say, tries[t.Say])
		}
	}
	switch len(wheels) {
	case 0:
	case 1:
		say = append(say, "if that is the wheel, type "+wheels[0])
	default:
		say = append(say, "type the wheel that the engine is known to have: "+strings.Join(wheels, ", or "))
	}
	if len(say) == 0 {
		return f.Problem
	}
	return f.Problem + ": " + Or(say)
}

// tries are what to type for what can be said of a capture.
var tries = map[fault.Say]string{
	fault.Columns:     "name columns that the file has, such as --time 1 --crank 2 --cam 3",
	fault.TimeColumn:  "choose another time column with --time",
	fault.CrankColumn: "choose another column with --crank",
	fault.CamColumns:  "give both captures the same --cam columns",
	fault.AddCams:     "add the cams' columns with --cam",
	fault.TimeUnit:    "check --time-unit",
	fault.Rate:        "type how many samples there are a second, as in --rate 50000",
	fault.TheWheel:    "say with --wheel what wheel it is",
	fault.NoCrankEdge: "leave --crank-edge out",
	fault.MoreTurns:   "capture two turns or more",
}

// wheelFlag is a wheel to type.
func wheelFlag(t fault.Try) string {
	text := "--wheel " + t.Wheel
	if t.Parts > 0 {
		text += fmt.Sprintf(" (%s in %d equal parts, at 1/%d of the speed)", t.Name, t.Parts, t.Parts)
	}
	return text
}
