package mark_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/marktest"
)

// A member's speed comes from the tree: a gear below a drive turns at cam speed
// whatever it is called, and a camshaft-like name on the crank does not.
func TestSpeedComesFromTheTree(t *testing.T) {
	drive := mark.Drive{Joints: []mark.Joint{{Carried: "cam plate", Carrier: "crank"}, {Carried: "distributor", Carrier: "crank", Drive: true}}}
	for on, want := range map[string]float64{"cam plate": 10, "distributor": 20} {
		f, err := mark.Judge(marktest.PetrolFour, tdc.Result{}, drive, []mark.Mark{{Name: "m", On: on, Off: &mark.Shift{Value: 1, Unit: mark.Teeth, Pitches: 36}}})
		require.NoError(t, err)
		require.InDelta(t, want, f[0].Angle.Degrees(), 1e-9, on)
	}
}

func TestTreeRefusals(t *testing.T) {
	joints := func(list ...mark.Joint) mark.Drive { return mark.Drive{Joints: list} }
	wheel := mark.Joint{Carried: "wheel", Carrier: "crank"}
	for _, c := range []struct {
		drive mark.Drive
		mark  mark.Mark
		says  string
	}{
		{mark.Drive{Layout: "one cam"}, marktest.One("inlet cam", ""), `the drive has no member "inlet cam": expected one of crank, flywheel, pulley, crank wheel, ` +
			"crank sprocket, cam sprocket, cam, cam wheel"},
		{mark.Drive{Layout: "two cams"}, marktest.One("inlet cam", "cam"), `no member "cam"`},
		{mark.Drive{}, marktest.One("fan", ""), `mark "hole": the drive has no member "fan": expected one of crank, flywheel, pulley`},
		{mark.Drive{}, marktest.One("inlet cam", "cam"), "no member \"cam\""},
		{joints(wheel), marktest.One("cam", ""), "expected one of crank, wheel"},
		{joints(wheel, mark.Joint{Carried: "wheel", Carrier: "hub"}), marktest.One("wheel", ""), `"wheel" is carried already, by "crank"`},
		{joints(mark.Joint{Carried: "crank", Carrier: "wheel"}), marktest.One("wheel", ""), "the crank carries the others"},
		{joints(mark.Joint{Carried: "wheel", Carrier: "hub"}), marktest.One("wheel", ""), `carried = "hub"`},
		{joints(mark.Joint{Carried: "a", Carrier: "b"}, mark.Joint{Carried: "b", Carrier: "a"}), marktest.One("a", ""), "it is carried in a circle"},
		{mark.Drive{Layout: "one cam"}, marktest.One("cam", "cam"), "measured against the member it is on"},
		{mark.Drive{Layout: "one cam"}, mark.Mark{Name: "hole", On: "cam", Against: "flywheel", Read: []geometry.Angle{0}}, "leave out against, or give off"},
	} {
		_, err := mark.Judge(marktest.PetrolFour, tdc.Result{}, c.drive, []mark.Mark{c.mark})
		require.ErrorContains(t, err, c.says)
		require.NotContains(t, err.Error(), "\n")
	}
}

// Sensor wheels: a pitch, and the angle across the gap, which with one pitch for
// each other tooth makes the turn (arithmetic: 60-2 has 6 and 18 deg, 36-1 10 and
// 20, 4-1 90 and 180; 36-2-2-2 has 30 edges, 18+9 of 10 deg and three of 30).
func TestWheelPitches(t *testing.T) {
	pitch := func(n int) float64 {
		a, err := mark.Turn(1, mark.Teeth, n, 0)
		require.NoError(t, err)
		return a.Degrees()
	}
	for _, w := range []struct {
		pitches, missing int
		tooth, gap       float64
	}{{60, 2, 6, 18}, {36, 1, 10, 20}, {4, 1, 90, 180}} {
		across, err := mark.Turn(float64(w.missing+1), mark.Teeth, w.pitches, 0)
		require.NoError(t, err)
		require.InDelta(t, w.tooth, pitch(w.pitches), 1e-12)
		require.InDelta(t, w.gap, across.Degrees(), 1e-12)
		require.InDelta(t, 360, across.Degrees()+pitch(w.pitches)*float64(w.pitches-w.missing-1), 1e-9)
	}
	require.InDelta(t, 360, 27*pitch(36)+3*3*pitch(36), 1e-9)
	// a tooth of the crank's sprocket, to the three decimals of 360/z
	for z, want := range map[int]float64{18: 20, 19: 18.947, 20: 18, 21: 17.143, 22: 16.364, 24: 15, 28: 12.857, 33: 10.909} {
		require.InDelta(t, want, pitch(z), 5e-4)
	}
	// and a rim's millimetres a degree: pi d / 360, to the four decimals written
	for d, want := range map[float64]float64{130: 1.1345, 203: 1.7715, 280: 2.4435} {
		require.InDelta(t, want, mark.Amount(marktest.Deg(1), mark.Arc, 0, geometry.Length(d/2)), 5e-5)
	}
}

// Amount is Turn the other way.
func TestAmountUndoesTurn(t *testing.T) {
	for _, unit := range []mark.Unit{mark.CrankDegrees, mark.CamDegrees, mark.Teeth, mark.Arc, mark.Chord} {
		for _, amount := range []float64{-37, -0.2, 0, 3, 41} {
			a, err := mark.Turn(amount, unit, 60, 21)
			require.NoError(t, err)
			require.InDelta(t, amount, mark.Amount(a, unit, 60, 21), 1e-12)
		}
	}
}

// Marks on members of two layouts fit in neither.
func TestMarksOfTwoLayouts(t *testing.T) {
	_, err := mark.Judge(marktest.PetrolFour, tdc.Result{}, mark.Drive{}, []mark.Mark{marktest.One("cam", ""), marktest.One("inlet cam", "")})
	require.ErrorContains(t, err, `both layout "one cam" and "two cams"`)
}

// A gear or second chain hangs the other cam on the first one's sprocket (common practice,
// no source).
func TestSecondCamHangsOnTheFirst(t *testing.T) {
	for layout, path := range map[string][]string{
		"two cams, inlet first":   {"exhaust cam", "exhaust sprocket", "inlet sprocket", "crank sprocket"},
		"two cams, exhaust first": {"inlet cam", "inlet sprocket", "exhaust sprocket", "crank sprocket"},
	} {
		tree, err := mark.TreeFor(mark.Drive{Layout: layout}, nil)
		require.NoError(t, err)
		var carried []string
		for _, j := range tree.Path(path[0]) {
			carried = append(carried, tree.Joints[j].Carried)
		}
		require.ElementsMatch(t, path, carried, layout)
	}
}
