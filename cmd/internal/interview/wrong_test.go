package interview_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The wrong things that a new user types, and what must be said to each: what was wrong
// and what to type. None is taken, and the question stays.
func TestWrongThings(t *testing.T) {
	for _, c := range []struct{ at, typed, says string }{
		{"Engine's name", strings.Repeat("long ", 30), "at most 60 characters"},
		{"Stroke", "y", `"y" is not a length: type it as in 81.4, 81.4 mm or 3.2 in, or press Enter if it is unknown`},
		{"Stroke", "about eighty", "is not a length"},
		{"Stroke", "-81.4", "longer than zero"},
		{"Stroke", "0", "longer than zero"},
		{"Stroke", "8.14 cm", "not in cm: 81.4 mm"},
		{"Stroke", "0.0814 m", "not in m: 81.4 mm"},
		{"Stroke", "3.2", "3.2 mm is not a usual stroke: type 3.2 in if it is in inches, or type it with its unit to keep it, as in 3.2 mm"},
		{"Stroke", "8140", "8140 mm is not a usual stroke: type it with its unit to keep it"},
		{"Stroke", "81.4 x 133", "more than one number"},
		{"Stroke", "81.4, 79, 133", "more than one number"},
		{"Stroke", "3/0 in", "more than one number"},
		{"Stroke", "81.4 feet", "is not a length"},
		{"Stroke", "1e2", "more than one number"},
		{"Bore", "no", "is not a length"},
		{"Bore", "3", "type 3 in if it is in inches"},
		{"Connecting rod", "5.25", "5.25 mm is not a usual rod: type 5.25 in if it is in inches"},
		{"Connecting rod", "long", "is not a length"},
		{"Piston pin or bore", "y", "which one and how far, as in pin 0.8 or bore 8"},
		{"Piston pin or bore", "0.8", "which one and how far"},
		{"Piston pin or bore", "pin a little", "which one and how far"},
		{"Turn the crank", "sideways", "type y or rose, or n or fell"},
		{"Turn the crank", "356", "type y or rose, or n or fell"},
		{"Turn the crank", "clockwise", "type y or rose, or n or fell"},
		{"What does it read", "360", "type two readings, the one before the top first, as in 356 and 4"},
		{"What does it read", "y", "type two readings"},
		{"What does it read", "up and down", "type two readings"},
		{"What does it read", "4 and 4", "both are 4. if it counts up both ways from a zero, type 4 BTDC and 4 ATDC"},
		{"What does it read", "4 BTDC and 4", "write BTDC with the first and ATDC with the second, or neither"},
		{"What does it read", "4 ATDC and 5 BTDC", "the first one is before the top: type 5 BTDC and 4 ATDC"},
		{"What does it read", "-4 BTDC and 4 ATDC", "a minus sign and BTDC"},
		{"What does it read", "4 BBDC and 4 ABDC", "that is at the bottom"},
		{"What does it read", "90 and 270", "lie 180 deg apart"},
		{"What does it read", "60 BTDC and 50 ATDC", "lie 110 deg apart"},
		{"What does it read", "716 and 364", "lie 352 deg apart"},
		{"What does it read", "176 and 4", "after 180, add 180"},
		{"What does it read", "-4 and 356", "are one place"},
		{"What does it read", "3560 and 4", "no protractor shows more than 720"},
		{"Where does its scale", "100", "type 360, 180, 90 or 720"},
		{"Where does its scale", "y", "type 360, 180, 90 or 720"},
		{"Piston read by?", "ruler and eye", `"eye" is none of them: type dial, rod, borescope, stop or dwell`},
		{"Piston read by?", "gauge", "which one: type dial"},
		{"Piston read by?", "1", "is none of them"},
		{"As the piston goes down", "down", "type y or rose, or n or fell"},
		{"As the piston goes down", "up", "type y or rose, or n or fell"},
		{"What is to be judged?", "8", "the list has no mark 8: type a number from 1 to 7, or the name of a mark, such as "},
		{"What is to be judged?", "0", "the list has no mark 0"},
		{"What is to be judged?", "y", "which marks"},
		{"What is to be judged?", strings.Repeat("x", 61), "at most 60 characters"},
		{"What is to be judged?", strings.Join(strings.Split("abcdefghijklmnopqrstu", ""), "!, "), "at most 20"},
	} {
		i := asking()
		reaching(t, i, c.at)
		before, facts := must(i.Question()), i.Facts()
		reply := i.Answer(c.typed)
		require.False(t, reply.Taken, "%s: %s", c.at, c.typed)
		require.Contains(t, strings.ToLower(reply.Says), strings.ToLower(c.says), "%s: %s", c.at, c.typed)
		require.True(t, strings.HasSuffix(reply.Says, "."), reply.Says)
		require.Equal(t, before, must(i.Question()))
		require.Equal(t, facts, i.Facts())
	}
}

// What goes wrong only after something else was said.
func TestWrongAfter(t *testing.T) {
	for _, c := range []struct {
		at    string
		lines []string
		typed string
		says  string
	}{
		{"Stroke", []string{"81.4", ""}, "20", "20 mm is not a usual rod"},
		{"Stroke", []string{"81.4", ""}, "35", "the rod is too short. type it again, or back to correct the one before"},
		{"Stroke", []string{"81.4", ""}, "90", "A rod of 90 mm is unusual for a stroke of 81.4 mm: type it with its unit to keep it"},
		{"Stroke", []string{"81.4", ""}, "20 mm", "cannot turn"},
		{"Stroke", []string{"81.4", "", "133"}, "pin 50", "50 mm is too far off for this engine"},
		{"Stroke", []string{"3.2 in", "y", ""}, "133", "type 133 mm if it is in mm"},
		{"Stroke", []string{"3.2 in"}, "maybe", "type y for inches or n for mm"},
		{"What does it read", []string{"356 and 4"}, "rose", "type y or n"},
		{"What does it read", []string{"4 BTDC 4 ATDC", ""}, "90", `"90" is neither: type 0 or 180`},
		{"What does it read", []string{"356 and 4", "n"}, "up", "type y or rose, or n or fell"},
		{"Piston read by?", []string{"borescope"}, "stop", "type y or n"},
	} {
		i := asking()
		reaching(t, i, c.at)
		answered(t, i, c.lines...)
		before := must(i.Question())
		reply := i.Answer(c.typed)
		require.False(t, reply.Taken, "%v: %s", c.lines, c.typed)
		require.Contains(t, strings.ToLower(reply.Says), strings.ToLower(c.says), "%v: %s", c.lines, c.typed)
		require.Equal(t, before, must(i.Question()))
	}
	i := asking()
	reaching(t, i, "Stroke")
	answered(t, i, "81.4", "", "90 mm") // with its unit it is kept
	require.EqualValues(t, 90, i.Facts().Engine.Rod)
}

func must[T any](v T, ok bool) T {
	if !ok {
		panic("nothing left to ask")
	}
	return v
}
