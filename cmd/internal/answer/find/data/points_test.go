package data

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/answer/find/found"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

// The format has one name for all that the marks are compared with, whatever is said of it.
func TestOneNameForTheZero(t *testing.T) {
	f := found.All{Diagnosis: joint.Diagnosis{Tried: 1, Explanations: []joint.Explanation{
		{Slips: []joint.Slip{{Joints: []string{seen.Protractor}}, {Joints: []string{"pulley on crank", "cam on cam sprocket"}, Opposite: []string{"cam on cam sprocket"}}}},
	}}}
	slips := Explanations(f)[0].Slips
	require.Equal(t, []string{"TDC of cylinder 1"}, slips[0].Joints)
	require.Empty(t, slips[0].Opposite)
	require.Equal(t, []string{"pulley on crank", "cam on cam sprocket"}, slips[1].Joints)
	require.Equal(t, []string{"cam on cam sprocket"}, slips[1].Opposite)
	require.Equal(t, seen.Protractor, f.Diagnosis.Explanations[0].Slips[0].Joints[0], "a person is told of the protractor still")
}
