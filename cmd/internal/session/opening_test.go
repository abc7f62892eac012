package session_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/session"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/plan"
)

// The first readings that are asked for are the plan's, at its very drops: the first of it,
// and those of its that determine TDC.
func TestOpeningIsThePlans(t *testing.T) {
	for _, oneWay := range []bool{false, true} {
		s, _ := sitting(true)
		s.Width, s.Ground.OneWay = 200, oneWay
		_, err := s.Open()
		require.NoError(t, err)
		p, err := plan.Advise(s.Job.Setup, s.Ground, plan.Usual)
		require.NoError(t, err)
		standing := s.Standing()
		for i, point := range p.Opening()[:3] {
			if i == 0 {
				require.Equal(t, p.Points[0], point)
			}
			side := map[bool]string{false: "rising", true: "falling"}[point.Angle > 0]
			require.Contains(t, standing, fmt.Sprintf("Next: about %s down on the %s side, turning forward", dropped(point.Drop), side))
			said, _, err := s.Obey(reading(t, point.Angle.Degrees()))
			require.NoError(t, err)
			standing = words(said, session.Answer)
		}
	}
}

// dropped is a drop as it is said.
func dropped(l geometry.Length) string {
	if l < geometry.Millimetre {
		return fmt.Sprintf("%.2f mm", float64(l))
	}
	return fmt.Sprintf("%.1f mm", float64(l))
}

// Through a borescope a view is asked for first, where the plan has it, and then a dwell;
// no depth is, until somebody types one.
func TestBorescopeIsAskedForLooks(t *testing.T) {
	s, _ := sitting(true)
	s.Width = 400
	s.Job.Setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	_, err := s.Open()
	require.NoError(t, err)
	looks, err := plan.Look(s.Job.Setup, s.Ground)
	require.NoError(t, err)
	require.Contains(t, s.Standing(), fmt.Sprintf("Next: an equal view, turning forward. Stop about %.0f deg before TDC", -looks.Views[0].Before.Degrees()))
	require.NotContains(t, s.Standing(), "down on the")

	asked := func() string {
		_, err := s.Open()
		require.NoError(t, err)
		require.NotContains(t, s.Standing(), "down on the")
		return s.Standing()
	}
	for _, turn := range []evidence.TurnDirection{evidence.Forward, evidence.Backward} {
		of := looks.Turned(turn)
		require.NotEmpty(t, of.Views)
		require.NotEmpty(t, of.Dwell)
		first := map[bool]string{true: "Type b first. ", false: ""}[turn == evidence.Backward]
		for _, v := range of.Views {
			require.Contains(t, asked(), "Next: an equal view, turning "+turn.String()+". "+first+"Stop about ")
			s.Job.Cylinders[0].Views = append(s.Job.Cylinders[0].Views, v)
		}
		for _, d := range of.Dwell {
			require.Contains(t, asked(), "Next: a dwell, turning slowly "+turn.String()+". "+first+"Type dwell")
			s.Job.Cylinders[0].Dwell = append(s.Job.Cylinders[0].Dwell, d)
		}
	}
	require.Contains(t, asked(), "All looks that were planned are taken")

	s, _ = sitting(true)
	s.Job.Setup.Gauge = evidence.DefaultGauge(evidence.Borescope)
	_, err = s.Open()
	require.NoError(t, err)
	said, _, err := s.Obey(reading(t, -25))
	require.NoError(t, err)
	require.Contains(t, words(said, session.Answer), "down on the", "who judges depths is asked for them")
}
