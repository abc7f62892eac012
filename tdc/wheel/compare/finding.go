package compare

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"evendrop/geometry"
	"evendrop/tdc/wheel"
	"evendrop/tdc/wheel/timing"
)

// alikeWithin is how far edges that moved together may differ: cams wander by 0.3
// to 2 deg from turn to turn (common practice, no source), their means by less.
const alikeWithin = 1 * geometry.Degree

// finding says what the shifts point to.
func finding(shifts []Shift, w wheel.Wheel) string {
	for _, s := range shifts {
		if math.IsInf(float64(s.Expanded), 1) {
			return "Too few turns to say how sure the shifts are: capture more, ten at least."
		}
	}
	moved := slices.DeleteFunc(slices.Clone(shifts), func(s Shift) bool { return !s.Moved() })
	channels := channelsOfShifts(shifts)
	movedChannels := channelsOfShifts(moved)
	switch {
	case len(moved) == 0:
		return "No cam edge moved by more than chance explains."
	case together(shifts) && len(channels) > 1:
		return fmt.Sprintf("All edges of all cams moved alike, %s. This points to what they share: the crank wheel or its sensor moved the other way, "+
			"or the drive that all cams share moved this way. A capture cannot tell between them: find TDC, and look where the crank wheel stands against it.", amount(shifts, w))
	case together(shifts):
		return fmt.Sprintf("All edges of the one cam captured moved alike, %s. With one cam a capture cannot tell between that cam's side (drive, phaser, "+
			"cam, its wheel or sensor) and the crank wheel's: capture another cam too, or find TDC.", amount(shifts, w))
	case len(movedChannels) == 1:
		return oneCam(shifts, moved, movedChannels[0], w)
	}
	return "Edges moved by different amounts: more than one thing moved, or the captures are not alike. Take each cam by itself: " + byCam(shifts, channels, w) + "."
}

// oneCam is what to say of shifts in one channel alone.
func oneCam(shifts, moved []Shift, channel int, w wheel.Wheel) string {
	mine := ofCam(shifts, channel)
	if together(mine) {
		return fmt.Sprintf("One cam alone moved, column %d, %s, and the others did not. This points to that cam: its drive, phaser, fastening, wheel or sensor.",
			channel, amount(mine, w))
	}
	if len(moved) == 1 {
		return fmt.Sprintf("One edge alone moved, the %s one of column %d at %.1f deg: this points to a damaged tooth of that cam's wheel or a doubtful signal, not to the drive.",
			moved[0].Edge.Kind, channel, moved[0].Edge.Angle.Degrees())
	}
	return fmt.Sprintf("The edges of column %d moved by different amounts: look at that cam's wheel, its sensor and their signal before its drive.", channel)
}

func byCam(shifts []Shift, channels []int, w wheel.Wheel) string {
	var parts []string
	for _, channel := range channels {
		mine := ofCam(shifts, channel)
		how := "unevenly"
		if together(mine) {
			how = amount(mine, w)
		}
		parts = append(parts, fmt.Sprintf("column %d %s", channel, how))
	}
	return strings.Join(parts, "; ")
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
	for _, s := range shifts {
		if math.Abs(float64(s.Angle-mean)) > math.Max(float64(s.Expanded), within) {
			return false
		}
	}
	return true
}

func meanShift(shifts []Shift) geometry.Angle {
	sum := geometry.Angle(0)
	for _, s := range shifts {
		sum += s.Angle
	}
	return sum / geometry.Angle(len(shifts))
}

// amount says a common shift in degrees and pitches.
func amount(shifts []Shift, w wheel.Wheel) string {
	s := Mean(shifts)
	return fmt.Sprintf("by %.1f ± %.1f crank deg %s (%.1f pitches of %s)", math.Abs(s.Angle.Degrees()), math.Max(s.Expanded.Degrees(), 0.1),
		timing.LateOrEarly(s.Angle), math.Abs(float64(s.Angle/w.Pitch())), w.Name)
}
