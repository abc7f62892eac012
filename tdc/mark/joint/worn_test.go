package joint_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/finding"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/inspect"
	"evendrop/tdc/mark/marktest"
)

// worn is what is said of a drive worn long, nil for nothing.
func worn(d joint.Diagnosis) *finding.WornLong {
	for _, n := range d.Notes {
		if w, is := n.(finding.WornLong); is {
			return &w
		}
	}
	return nil
}

// inLayout is the workshop's drive in a layout.
func inLayout(layout string) mark.Drive {
	d := marktest.TwoCams
	d.Layout = layout
	return d
}

// A belt or chain worn long holds back both cams and the farther one more. Of flats and
// edges known to 0.5 and made within 1, the exhaust's 2 deg more than the inlet's are
// beyond what limits make (u of each mark 0.645, of the difference of two pairs as much:
// 1.3 at 95 %).
func TestADriveWornLong(t *testing.T) {
	shown := marks(t, six(0, .1, 4.1, 6.1, 3.9, 5.9))
	for layout, told := range map[string]bool{"two cams": false, "two cams, inlet first": true} {
		w := worn(explain(t, marktest.PetrolFour, inLayout(layout), shown))
		require.NotNil(t, w, layout)
		require.Equal(t, []any{"inlet sprocket", "exhaust sprocket", told, true}, []any{w.Nearer, w.Farther, w.Told, w.Beyond}, layout)
		require.InDelta(t, 4, w.Late.Degrees(), 1e-9)
		require.InDelta(t, 2, w.More.Degrees(), 1e-9)
		require.InDelta(t, 1.26, w.MoreExpanded.Degrees(), 0.05)
	}
	w := worn(explain(t, marktest.PetrolFour, inLayout("two cams, exhaust first"), marks(t, six(0, .1, 6.1, 4.1, 5.9, 3.9))))
	require.NotNil(t, w)
	require.Equal(t, []any{"exhaust sprocket", "inlet sprocket", true}, []any{w.Nearer, w.Farther, w.Told})
	// of limits of 3 the same marks, better known, may be made so
	for i := range shown {
		shown[i].Limit, shown[i].Off.KnownTo = marktest.Deg(3), 0.1
	}
	w = worn(explain(t, marktest.PetrolFour, inLayout("two cams, inlet first"), shown))
	require.NotNil(t, w)
	require.False(t, w.Beyond)
}

// What is no worn drive: whole teeth; early cams; the nearer cam later, where the layout
// tells which it is; far more of the farther than of the nearer; one cam alone; a difference
// that was not measured; nothing outside its limit; another joint that has moved too.
func TestNoDriveWornLong(t *testing.T) {
	for name, shown := range map[string]map[string]float64{
		"a tooth":      six(0, .1, 18, 20, 18, 20),
		"early":        six(0, .1, -4, -6, -4, -6),
		"nearer later": six(0, .1, 6, 4, 6, 4),
		"far more":     six(0, .1, 2.5, 8, 2.5, 8),
		"one cam":      six(0, .1, 0, 5, 0, 5),
		"all alike":    six(0, .1, 5, 5.2, 5, 5.2),
		"within":       six(0, .1, .2, .4, .2, .4),
		"flywheel too": six(9, .1, 4.1, 6.1, 3.9-9, 5.9-9),
		"pulley too":   six(0, 2.4, 4.1, 6.1, 3.9, 5.9),
	} {
		require.Nil(t, worn(explain(t, marktest.PetrolFour, inLayout("two cams, inlet first"), marks(t, shown))), name)
	}
	fine := inLayout("two cams, inlet first")
	fine.CrankSprocket = 60 // 6 deg a tooth
	require.Nil(t, worn(explain(t, marktest.PetrolFour, fine, marks(t, six(0, .1, 6, 8, 6, 8)))), "the nearer by a tooth")
	require.Nil(t, worn(explain(t, marktest.PetrolFour, fine, marks(t, six(0, .1, 4, 6, 4, 6)))), "the farther by a tooth")
	vague := marks(t, six(0, .1, 2.2, 3.4, 2.2, 3.4)) // made within 3, the nearer may be right: 1.96*3/sqrt(3)/sqrt(2) = 2.4
	for i := range vague {
		vague[i].Limit, vague[i].Off.KnownTo = marktest.Deg(3), 0.1
	}
	d := explain(t, marktest.PetrolFour, inLayout("two cams, inlet first"), vague)
	require.Positive(t, d.Tried)
	require.Nil(t, worn(d), "the nearer may be right")
	require.Nil(t, worn(explain(t, marktest.PetrolFour, inLayout("one cam"), []mark.Mark{{Name: "lock", On: "cam", Limit: marktest.Deg(1), HasLimit: true,
		Off: &mark.Shift{Value: 5, Unit: mark.CrankDegrees, KnownTo: 0.5}}})))
}

// With a cam a whole tooth out and nothing else in question, links are counted before
// anything is bought.
func TestTeethAreCountedWhereNothingElseIsInQuestion(t *testing.T) {
	d := marktest.TwoCams
	d.CamWheelOn = "sprocket"
	got := explain(t, marktest.PetrolFour, d, marks(t, six(.1, .3, 18.1, .2, 17.9, -.1)))
	require.Equal(t, []string{"drive to inlet sprocket"}, got.Explanations[0].Slips[0].Joints)
	require.Equal(t, inspect.CountDriveTo, got.TellApart[0].How)
	require.Equal(t, "inlet sprocket", got.TellApart[0].Part)
	require.True(t, got.TellApart[0].Teeth)
	require.Empty(t, got.TellApart[0].Apart)
	got = explain(t, marktest.PetrolFour, d, marks(t, six(.1, .3, 9.1, .2, 8.9, -.1)))
	for _, l := range got.TellApart {
		require.False(t, l.Teeth)
	}
}
