package interview_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
)

// What two readings about the top tell of a protractor: its sense, where it comes round,
// and what is left to ask.
func TestScale(t *testing.T) {
	const none = evidence.Scale(0)
	for _, c := range []struct {
		typed string
		sense evidence.Sense
		scale evidence.Scale // none: asked for
		sides bool
		says  string
	}{
		{"356 and 4", evidence.With, evidence.Full, false, "rise as the engine runs, and 0 comes after 360"},
		{"356 4", evidence.With, evidence.Full, false, "rise"},
		{"356,4", evidence.With, evidence.Full, false, "rise"},
		{"356, 4", evidence.With, evidence.Full, false, "rise"},
		{"356.5 / 4,5", evidence.With, evidence.Full, false, "rise"},
		{"356 to 4", evidence.With, evidence.Full, false, "rise"},
		{"356° and 4°", evidence.With, evidence.Full, false, "rise"},
		{"4 and 356", evidence.Against, evidence.Full, false, "fall as the engine runs"},
		{"176 and 184", evidence.With, evidence.Full, false, "rise"},
		{"184 176", evidence.Against, evidence.Full, false, "fall"},
		{"350 and 360", evidence.With, evidence.Full, false, "rise"},
		{"-4 and 4", evidence.With, evidence.Halves, false, "to 180 both ways, with a minus sign on one side"},
		{"4 and -4", evidence.Against, evidence.Halves, false, "fall"},
		{"176 and -178", evidence.With, evidence.Halves, false, "rise"},
		{"-178 and 176", evidence.Against, evidence.Halves, false, "fall"},
		{"-12 and -4", evidence.With, evidence.Halves, false, "rise"},
		{"356 and 364", evidence.With, evidence.Cycle, false, "both turns of a cycle"},
		{"716 and 4", evidence.With, evidence.Cycle, false, "rise"},
		{"4 and 716", evidence.Against, evidence.Cycle, false, "fall"},
		{"-364 and -356", evidence.With, evidence.Cycle, false, "rise"},
		{"88 and 96", evidence.With, none, false, "Understood: its numbers rise as the engine runs."},
		{"96 and 88", evidence.Against, none, false, "Understood: its numbers fall as the engine runs."},
		{"4 BTDC and 4 ATDC", evidence.With, none, true, "counts up both ways from a zero"},
		{"4 btdc 5 atdc", evidence.With, none, true, "counts up both ways"},
		{"4 before and 4 after", evidence.With, none, true, "counts up both ways"},
	} {
		i := asking()
		reaching(t, i, "What does it read")
		reply := i.Answer(c.typed)
		require.True(t, reply.Taken, "%s: %s", c.typed, reply.Says)
		require.Contains(t, reply.Says, c.says, c.typed)
		f := i.Facts()
		require.True(t, f.Tried)
		require.Equal(t, c.sense, f.Sense, c.typed)
		require.Equal(t, c.scale, f.Scale, c.typed)
		require.Equal(t, c.sides, f.Sides, c.typed)
		answered(t, i, "y")
		q, _ := i.Question()
		require.Equal(t, c.scale == none, q.Topic == "wraps", c.typed)
	}
}

// What was understood may be contradicted: then way and scale are asked one at a time.
func TestContradicted(t *testing.T) {
	i := asking()
	reaching(t, i, "What does it read")
	answered(t, i, "5 and 3", "no") // on a scale that counts up both ways
	require.False(t, i.Facts().Tried)
	require.Zero(t, i.Facts().Scale)
	q, _ := i.Question()
	require.Contains(t, q.Text, "do its numbers rise?")
	answered(t, i, "y", "90")
	require.Equal(t, evidence.With, i.Facts().Sense)
	require.Equal(t, evidence.Quadrants, i.Facts().Scale)
}

// Its number falls to the zero and rises again: neither y nor n, and what it reads about the
// top tells.
func TestFallsAndRises(t *testing.T) {
	for _, typed := range []string{"both", "Both ways."} {
		i := asking()
		reaching(t, i, "Turn the crank")
		require.Contains(t, i.Answer("?").Says, "type both")
		answered(t, i, typed, "7.5 BTDC and 2.5 ATDC", "y")
		require.True(t, i.Facts().Sides)
		require.Equal(t, evidence.With, i.Facts().Sense)
	}
}

// A scale that counts up both ways comes down again to zero at the bottom, or goes on.
func TestBothWays(t *testing.T) {
	for typed, want := range map[string]evidence.Scale{"": evidence.Quadrants, "0": evidence.Quadrants, "180": evidence.Halves} {
		i := asking()
		reaching(t, i, "What does it read")
		answered(t, i, "4 BTDC and 4 ATDC", "", typed)
		require.Equal(t, want, i.Facts().Scale, typed)
		require.True(t, i.Facts().Sides)
		q, _ := i.Question()
		require.Equal(t, "gauge", q.Topic)
	}
}

// Where the number went and what it reads about the top must be of one mind.
func TestTurnedAndRead(t *testing.T) {
	for turned, pairs := range map[string][2]string{"rose": {"356 and 4", "4 and 356"}, "fell": {"4 and -4", "-4 and 4"}} {
		i := asking()
		reaching(t, i, "Turn the crank")
		answered(t, i, turned)
		reply := i.Answer(pairs[1])
		require.False(t, reply.Taken)
		require.Contains(t, reply.Says, "when you turned the crank the number "+turned)
		answered(t, i, pairs[0])
		require.Equal(t, turned == "fell", i.Facts().Sense == evidence.Against)
	}
}
