package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/words"
	"evendrop/fit/gum"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
)

// An explanation names its joints and, of those that would have moved the other way,
// which way.
func TestExplanationInWords(t *testing.T) {
	slip := func(off, half float64, opposite []string, joints ...string) joint.Slip {
		return joint.Slip{Joints: joints, Opposite: opposite, Estimate: gum.Estimate{Angle: deg(off), Expanded: deg(half)}}
	}
	for says, slips := range map[string][]joint.Slip{
		"flywheel on crank, 60.0 ± 0.7 deg late":                                          {slip(60, 0.7, nil, "flywheel on crank")},
		"pulley on crank or N itself, 23.0 ± 1.2 deg late":                                {slip(23, 1.2, nil, "pulley on crank", "N itself")},
		"drive, cam (late) or sensor, 12.1 ± 0.9 deg early, and belt, 0.4 ± 0.1 deg late": {slip(-12.1, 0.9, []string{"cam"}, "drive", "cam", "sensor"), slip(0.4, 0.1, nil, "belt")},
	} {
		require.Equal(t, says, words.Explanation(joint.Explanation{Slips: slips}))
	}
}

// How well it fits, for a person and for whoever asks for details. 5 % of 5 degrees
// of freedom is at 11.07 (tables of chi-square).
func TestFits(t *testing.T) {
	for _, c := range []struct {
		chi         float64
		degrees     int
		p           float64
		fits, exact string
	}{
		{0, 0, 0, "", ""},
		{4.3, 5, 0.507, "all marks agree with this", "chi-square 4.3 with 5 degrees of freedom, p = 0.51"},
		{11.07, 5, 0.05, "all marks agree with this", "chi-square 11.1 with 5 degrees of freedom, p = 0.05"},
		{6.635, 1, 0.01, "1 chance in 100 that scatter alone puts the marks so far from it", "chi-square 6.6 with one degree of freedom, p = 0.01"},
		{10.83, 1, 0.001, "1 chance in 1,000 that scatter alone puts the marks so far from it", "chi-square 10.8 with one degree of freedom, p = 0.001"},
		{30, 1, 4.3e-8, "less than 1 chance in 1,000,000 that scatter alone puts the marks so far from it", "chi-square 30.0 with one degree of freedom, p below 0.001"},
	} {
		e := joint.Explanation{ChiSquare: c.chi, DegreesOfFreedom: c.degrees, P: c.p}
		require.Equal(t, c.fits, words.Fits(e))
		require.Equal(t, c.exact, words.ChiSquare(e))
	}
}

// Every look and every reading has its words.
func TestEveryLookInWords(t *testing.T) {
	file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", "..", "..", "tdc", "mark", "joint", "inspect", "parts.go"), nil, 0)
	require.NoError(t, err)
	seen := map[string]bool{}
	ast.Inspect(file, func(n ast.Node) bool {
		spec, is := n.(*ast.ValueSpec)
		if !is || len(spec.Values) == 0 {
			return true
		}
		how, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
		require.NoError(t, err)
		says := words.Look(inspect.Look{How: inspect.How(how), Part: "part", On: "carrier"})
		require.False(t, seen[says], says)
		seen[says] = true
		return true
	})
	require.Len(t, seen, 17)
	require.Equal(t, "check that the fit of the cam on the crank is tight", words.Look(inspect.Look{How: inspect.SitsTight, Part: "cam", On: "crank"}))
	require.Equal(t, "ask what the given angles count from, and read two of the first places of the piston again: where they still fit, the protractor has not moved since",
		words.Look(inspect.Look{How: inspect.PistonAgain, Part: "protractor or pointer"}))
	require.Equal(t, "read the pin again, with a fresh set-up", words.Look(inspect.Look{How: inspect.ReadAgain, Part: "pin"}))
}

// A look names up to four joints, and counts more; a reading that may mistake them says
// how often. Half the separation of 3.0 is exceeded in 6.68 % (tables of the normal
// distribution), 1 in 15.
func TestLooks(t *testing.T) {
	look := inspect.Look{How: inspect.ReadAMark, Part: "éa", Apart: []string{"a", "b", "c"}}
	require.Equal(t, "Read a mark on the éa: tells a, b and c apart.", words.LookApart(look))
	look.Separation = 3
	require.Equal(t, "Read a mark on the éa: tells a, b and c apart (1 chance in 15 of taking one for another).", words.LookApart(look))
	require.Equal(t, "First: count the links or teeth between the timing marks of the drive to the cam, and look at its tensioner and guides, before any part is bought; it tells a and b apart.",
		words.LookFirst(inspect.Look{How: inspect.CountDriveTo, Part: "cam", Apart: []string{"a", "b"}, Teeth: true}))
	require.Equal(t, "Count the links or teeth between the timing marks of the drive to the cam, and look at its tensioner and guides, before any part is bought.",
		words.LookApart(inspect.Look{How: inspect.CountDriveTo, Part: "cam", Teeth: true}))
	look.Separation, look.Apart = 30, []string{"a", "b", "c", "d", "e"}
	require.Equal(t, "Read a mark on the éa: bears on 5 of them.", words.LookApart(look))
}
