package seen_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint/seen"
	"evendrop/tdc/mark/marktest"
)

func systemOf(t *testing.T, d mark.Drive, marks []mark.Mark) *seen.System {
	t.Helper()
	judged := make([]mark.Judged, len(marks))
	for i, m := range marks {
		judged[i].Mark = m
	}
	s, err := seen.Of(d, judged, nil)
	require.NoError(t, err)
	return s
}

func rank(s *seen.System) int {
	m := mat.NewDense(len(s.Shows), len(s.Parts), slices.Concat(s.Shows...))
	var svd mat.SVD
	svd.Factorize(m, mat.SVDNone)
	return svd.Rank(1e-9)
}

func groupNames(s *seen.System) [][]string {
	var all [][]string
	for _, g := range s.Groups {
		var names []string
		for _, j := range g.Parts {
			names = append(names, s.Parts[j].Name)
		}
		all = append(all, names)
	}
	return all
}

// geared is the faults of an engine whose second cam is driven from the first: what
// drives the first moves both, and what drives the second only that.
func geared(first, second string, ofFirst, ofSecond []float64) []marktest.Fault {
	return []marktest.Fault{
		{Joints: []string{"crank sprocket on crank", "drive to " + first + " sprocket"}, Shows: []float64{0, 0, 0, 1, 1, 1, 1}},
		{Joints: []string{first + " cam on " + first + " sprocket"}, Shows: ofFirst},
		{Joints: []string{"drive to " + second + " sprocket", second + " cam on " + second + " sprocket"}, Shows: ofSecond},
		{Joints: []string{"P itself"}, Shows: []float64{1, 0, 0, 0, 0, 0, 0}},
	}
}

// Every fault shows as the table says, and in the group it says.
func TestIncidenceIsTheFaultTable(t *testing.T) {
	inlet, exhaust := []float64{0, 0, 0, 1, 0, 1, 0}, []float64{0, 0, 0, 0, 1, 0, 1}
	for layout, table := range map[string][]marktest.Fault{
		"two cams":                marktest.Faults,
		"two cams, inlet first":   geared("inlet", "exhaust", inlet, exhaust),
		"two cams, exhaust first": geared("exhaust", "inlet", exhaust, inlet),
	} {
		d := marktest.TwoCams
		d.Layout = layout
		s := systemOf(t, d, marktest.Seven(false))
		require.Empty(t, s.Unseen)
		require.Len(t, s.Groups, len(marktest.Faults)+3, layout) // and G, CI and CE themselves
		for _, f := range table {
			found := false
			for k, names := range groupNames(s) {
				if names[0] == f.Joints[0] {
					found = true
					require.ElementsMatch(t, f.Joints, names, layout)
					require.Equal(t, f.Shows, s.Groups[k].Column, f.Joints[0])
				}
			}
			require.True(t, found, "%s: %s", layout, f.Joints[0])
		}
	}
}

// Where the cams' sensor wheels are clamped with the sprockets, a cam that slips on
// its sprocket shows in its flats alone.
func TestWheelsOnTheSprockets(t *testing.T) {
	d := marktest.TwoCams
	d.CamWheelOn = "sprocket"
	s := systemOf(t, d, marktest.Seven(false))
	for k, names := range groupNames(s) {
		switch names[0] {
		case "inlet cam on inlet sprocket":
			require.Equal(t, []float64{0, 0, 0, 1, 0, 0, 0}, s.Groups[k].Column)
			require.Contains(t, names, "CI itself")
		case "drive to inlet sprocket":
			require.Equal(t, []float64{0, 0, 0, 1, 0, 1, 0}, s.Groups[k].Column)
			require.Equal(t, []string{"drive to inlet sprocket"}, names)
		}
	}
	require.Contains(t, groupNames(s), []string{"inlet wheel on inlet sprocket", "inlet cam sensor", "WI itself"})
}

// Fifteen joints in seven marks, worked out on paper: ten columns that differ, of
// rank seven, and the groups named. The sensors of the two cam wheels, which stand
// with their wheels, make it seventeen.
func TestRanksOfSevenMarks(t *testing.T) {
	marks := marktest.Seven(true)
	marks[1].On = "ring"
	joints := []mark.Joint{
		{Carried: "flywheel", Carrier: "crank"}, {Carried: "crank wheel", Carrier: "flywheel"},
		{Carried: "hub", Carrier: "crank"}, {Carried: "ring", Carrier: "hub"},
		{Carried: "crank sprocket", Carrier: "crank"},
		{Carried: "inlet sprocket", Carrier: "crank sprocket", Drive: true},
		{Carried: "inlet cam", Carrier: "inlet sprocket"}, {Carried: "inlet wheel", Carrier: "inlet cam"},
		{Carried: "exhaust sprocket", Carrier: "inlet sprocket", Drive: true},
		{Carried: "exhaust cam", Carrier: "exhaust sprocket"}, {Carried: "exhaust wheel", Carrier: "exhaust cam"},
	}
	s := systemOf(t, mark.Drive{Joints: joints}, marks)
	require.Len(t, s.Parts, 17)
	require.Equal(t, 7, rank(s))
	require.ElementsMatch(t, [][]string{
		{"flywheel on crank"}, {"crank wheel on flywheel", "crank sensor"},
		{"hub on crank", "ring on hub", "N itself"},
		{"crank sprocket on crank", "drive to inlet sprocket"},
		{"drive to exhaust sprocket", "exhaust cam on exhaust sprocket"},
		{"inlet cam on inlet sprocket"}, {"P itself"}, {"TDC of cylinder 1"},
		{"inlet wheel on inlet cam", "inlet cam sensor"}, {"exhaust wheel on exhaust cam", "exhaust cam sensor"},
	}, groupNames(s))

	// With the wheel on the pulley, nothing tells the flywheel from the pin's boss,
	// and the hub shows in notch, gap and both cam edges.
	onPulley := marktest.TwoCams
	onPulley.CrankWheelOn = "pulley"
	s = systemOf(t, onPulley, marktest.Seven(true))
	require.Contains(t, groupNames(s), []string{"flywheel on crank", "P itself"})
	require.Equal(t, []float64{0, 1, 1, 0, 0, -1, -1}, s.Groups[1].Column)

	// A scope alone: later cams and an earlier crank wheel are one line.
	s = systemOf(t, marktest.TwoCams, marktest.Seven(true)[5:])
	require.Equal(t, 2, rank(s))
	require.Contains(t, groupNames(s), []string{"flywheel on crank", "crank wheel on flywheel", "crank sprocket on crank",
		"drive on crank sprocket", "crank sensor"})
	require.Equal(t, []float64{1, 1, -1, -1, 1}, s.Groups[0].Signs)
}

// Every joint of a drive is a part by its name, and so is a mark's other half; a mark on what
// the drive does not have is refused.
func TestJointsAreTheParts(t *testing.T) {
	s := systemOf(t, mark.Drive{CrankWheelOn: "pulley"}, []mark.Mark{{Name: "pin", On: "flywheel"}, {Name: "lock", On: "exhaust cam"}})
	var names []string
	for _, p := range s.Parts {
		names = append(names, p.Name)
	}
	hung := []string{"crank"}
	for _, j := range s.Tree.Joints {
		require.Contains(t, names, j.Name())
		require.Contains(t, hung, j.Carrier)
		hung = append(hung, j.Carried)
	}
	require.Contains(t, names, "crank wheel on pulley")
	require.Contains(t, names, "drive to exhaust sprocket")
	require.Contains(t, names, s.Marks[0].Itself())
	require.Contains(t, hung, "exhaust cam")

	_, err := seen.Of(mark.Drive{}, []mark.Judged{{Mark: mark.Mark{Name: "pin", On: "gearbox"}}}, nil)
	require.ErrorContains(t, err, "gearbox")
}
