package job_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job"
	"evendrop/tdc/job/sheet"
)

// aLoosely is a job whose every word is written in another way; aStrictly has the fields'
// own.
const (
	aLoosely = `
unit = "inches"
[protractor]
counts = "Against"
[gauge]
kind = "DTI"
counts = "upwards"
[[cylinder]]
number = 1
dwell = [{ still = 1, moves = 2, turn = "reverse" }]
[drive]
layout = "DOHC"
crank_wheel_on = "crankshaft"
cam_wheel_on = "Sprockets"
[[mark]]
name = "pin"
on = "fly wheel"
read = 3
should_be = "Unknown"
zero = "crank throw"
[[mark]]
name = "pin"
on = "Flywheel"
read = 3
set = 2
[[mark]]
name = "lock"
on = "intake cam"
against = "exh. cam"
off = 1
in = "cam"
[[lobe]]
name = "lobe"
on = "exhaust camshaft"
valve = "exh"
lift = 0.04
readings = "inlet.csv"
`
	aStrictly = `
unit = "in"
[protractor]
counts = "against"
[gauge]
kind = "dial"
counts = "up"
[[cylinder]]
number = 1
dwell = [{ still = 1, moves = 2, turn = "backward" }]
[drive]
layout = "two cams"
crank_wheel_on = "crank"
cam_wheel_on = "sprocket"
[[mark]]
name = "pin"
on = "flywheel"
read = 3
should_be = "unknown"
zero = "throw"
[[mark]]
name = "pin"
on = "flywheel"
read = 3
set = 2
[[mark]]
name = "lock"
on = "inlet cam"
against = "exhaust cam"
off = 1
in = "cam degrees"
[[lobe]]
name = "lobe"
on = "exhaust cam"
valve = "exhaust"
lift = 0.04
readings = "inlet.csv"
`
)

// However a word is written, a job has the field's own.
func TestWordsAreForgiven(t *testing.T) {
	require.Equal(t, parsed(t, aStrictly), parsed(t, aLoosely))
}

// A carrier is the crank or a member that is carried, before it or after; a member of
// one's own is called what one calls it.
func TestMembersOfJoints(t *testing.T) {
	j := parsed(t, aCylinder+`
[[joint]]
carried = "Balance Shaft"
carrier = "idler gear"
[[joint]]
carried = "idler-gear"
carrier = "Crankshaft"
kind = "chain"
[[joint]]
carried = "intake cam"
carrier = "crank"
[[mark]]
name = "lock"
on = "inlet camshaft"
read = 3
[[mark]]
name = "dot"
on = "balance shaft"
against = "Idler Gear"
limit = 1
off = 1
in = "teeth"
pitches = 30
`)
	require.Equal(t, "idler-gear", j.Drive.Joints[0].Carrier)
	require.Equal(t, "crank", j.Drive.Joints[1].Carrier)
	require.True(t, j.Drive.Joints[1].Drive)
	require.Equal(t, []string{"intake cam", "Balance Shaft", "idler-gear"}, []string{j.Marks[0].On, j.Marks[1].On, j.Marks[1].Against})
}

// A member that is none keeps its name, so that readings can be taken all the same. Without
// a layout a name is one of any drive that is tried.
func TestMembersThatAreNone(t *testing.T) {
	for written, want := range map[string]string{"inlet cma": "inlet cma", "rocker": "rocker", "intake cam": "inlet cam", "camshaft": "cam", "sprocket": "sprocket"} {
		j := parsed(t, aCylinder+"[[mark]]\nname = \"a\"\non = \""+written+"\"\nread = 1\n")
		require.Equal(t, want, j.Marks[0].On)
	}
}

// A row that was cut short is none: its turn is a word or an abbreviation that people use,
// never the beginning of one.
func TestTurnsOfReadings(t *testing.T) {
	for turn, want := range map[string]evidence.TurnDirection{"": evidence.Forward, "f": evidence.Forward, "Fwd": evidence.Forward, "forwards": evidence.Forward,
		"B": evidence.Backward, "reverse": evidence.Backward, "BACKWARDS": evidence.Backward} {
		r, err := sheet.ReadReadings("r.csv", []byte("angle,depth,turn\n1,2,"+turn+"\n"), bench(), "mm")
		require.NoError(t, err, turn)
		require.Equal(t, want, r[0].Turn, turn)
	}
	for _, turn := range []string{"forw", "for", "back", "backw", "left", "froward"} {
		_, err := sheet.ReadReadings("r.csv", []byte("angle,depth,turn\n1,2,"+turn+"\n"), bench(), "mm")
		require.EqualError(t, err, `r.csv:2:5: turn "`+turn+`": expected forward or backward, f or b, or nothing for forward`)
	}
}

// A key is none of these words: one that is not known is refused, with the nearest.
func TestKeysAreNotForgiven(t *testing.T) {
	for line, want := range map[string]string{"[engine]\nStroke = 80": `job.toml:2:1: Stroke: unknown key; did you mean "stroke"?`,
		"[gauge]\nkinds = \"dial\"": `job.toml:2:1: kinds: unknown key; did you mean "kind"?`} {
		_, err := job.Parse("job.toml", []byte(line), shelf)
		require.EqualError(t, err, want, strings.ToUpper(line))
	}
}
