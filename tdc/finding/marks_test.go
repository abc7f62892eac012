package finding_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
)

// Marks that one offset makes off are told of together, to the millimetre; an offset
// that was stated is another thing than one that might be. The list keeps its order.
func TestTogether(t *testing.T) {
	off := func(mark string, mm float64, stated bool) finding.OffsetMakes {
		return finding.OffsetMakes{Marks: []finding.MarkOff{{Mark: mark}}, Offset: geometry.Length(mm), Stated: stated}
	}
	list := []finding.Finding{off("pin", 8.2, false), finding.OnItsLimit{}, off("notch", 7.9, false), off("flats", 6, false), off("gap", 8, true)}
	got := finding.Together(list)
	require.Len(t, got, 4)
	require.Equal(t, finding.OnItsLimit{}, got[0])
	require.Equal(t, []finding.MarkOff{{Mark: "pin"}, {Mark: "notch"}}, got[1].(finding.OffsetMakes).Marks)
	require.Empty(t, got[1].(finding.OffsetMakes).About())
	require.Equal(t, "flats", got[2].(finding.OffsetMakes).About())
	require.True(t, got[3].(finding.OffsetMakes).Stated)
	require.Equal(t, []finding.MarkOff{{Mark: "pin"}}, list[0].(finding.OffsetMakes).Marks, "what was given stays")
}
