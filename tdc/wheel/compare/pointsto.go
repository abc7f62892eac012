package compare

import (
	"math"
	"slices"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/timing"
)

// alikeWithin is how far edges that moved together may differ: cams wander by 0.3
// to 2 deg from turn to turn (common practice, no source), their means by less.
const alikeWithin = 1 * geometry.Degree

func pointsTo(shifts []Shift, w wheel.Wheel) finding.Finding {
	moved := slices.DeleteFunc(slices.Clone(shifts), func(s Shift) bool { return !s.Moved() })
	channels, movedChannels := channelsOfShifts(shifts), channelsOfShifts(moved)
	switch {
	case slices.ContainsFunc(shifts, Shift.unsure):
		return finding.ShiftsUnsure{}
	case len(moved) == 0:
		return finding.NoEdgeMoved{}
	case together(shifts) && len(channels) > 1:
		return finding.AllCamsMoved{Move: move(shifts, w)}
	case together(shifts):
		return finding.OnlyCamMoved{Move: move(shifts, w)}
	case len(movedChannels) == 1:
		return oneCam(shifts, moved, movedChannels[0], w)
	}
	return apart(shifts, channels, w)
}

// oneCam is what shifts in one channel alone point to.
func oneCam(shifts, moved []Shift, channel int, w wheel.Wheel) finding.Finding {
	mine := ofCam(shifts, channel)
	if together(mine) {
		return finding.OneCamMoved{Column: channel, Move: move(mine, w)}
	}
	if len(moved) == 1 {
		e := moved[0].Edge
		return finding.OneEdgeMoved{Column: channel, Edge: string(e.Kind), Angle: e.Angle}
	}
	return finding.CamUneven{Column: channel}
}

// apart is cams that moved by different amounts, each by itself.
func apart(shifts []Shift, channels []int, w wheel.Wheel) finding.CamsApart {
	var f finding.CamsApart
	for _, channel := range channels {
		cam := finding.CamMove{Column: channel}
		if mine := ofCam(shifts, channel); together(mine) {
			cam.Move = new(move(mine, w))
		}
		f.Cams = append(f.Cams, cam)
	}
	return f
}

// move is a common shift.
func move(shifts []Shift, w wheel.Wheel) finding.Move {
	s := Mean(shifts)
	return finding.Move{Off: s.Angle, Expanded: s.Expanded, Pitches: math.Abs(float64(s.Angle / w.Pitch())), Wheel: w.Name}
}

func ofCam(shifts []Shift, channel int) []Shift {
	return slices.DeleteFunc(slices.Clone(shifts), func(s Shift) bool { return s.Edge.Channel != channel })
}

func channelsOfShifts(shifts []Shift) []int {
	var edges []timing.Edge
	for _, s := range shifts {
		edges = append(edges, s.Edge)
	}
	return channelsOf(edges)
}

// together says whether shifts are one shift: each within its own uncertainty of
// their mean, or within what cams wander where the shift is much more than that.
func together(shifts []Shift) bool {
	mean := meanShift(shifts)
	within := math.Min(float64(alikeWithin), math.Abs(float64(mean))/4)
	return !slices.ContainsFunc(shifts, func(s Shift) bool {
		return math.Abs(float64(s.Angle-mean)) > math.Max(float64(s.Expanded), within)
	})
}

func meanShift(shifts []Shift) geometry.Angle {
	sum := geometry.Angle(0)
	for _, s := range shifts {
		sum += s.Angle
	}
	return sum / geometry.Angle(len(shifts))
}
