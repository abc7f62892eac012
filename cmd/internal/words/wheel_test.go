package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/geometry"
	"evendrop/tdc/finding"
	"evendrop/tdc/wheel/fault"
)

const deg = geometry.Degree

// late is 18 crank deg, three pitches of 60-2.
var late = finding.Move{Off: 18 * deg, Expanded: 0.34 * deg, Pitches: 3, Wheel: "60-2"}

// wheelWords is something that each kind of finding about a capture has to say.
var wheelWords = []struct {
	finding finding.Finding
	says    string
}{
	{finding.TimeUnitAssumed{}, "seconds are assumed (--time-unit ms"},
	{finding.LastLineCut{}, "The last line is cut short"},
	{finding.TimesRounded{}, "taken as evenly spaced"},
	{finding.UsedInPart{Seconds: 517.24, Edges: 1_000_000}, "Only the first 517 s of the capture were used: no more than 1,000,000 edges"},
	{finding.BounceIgnored{Changes: 2}, "2 changes of level left out as bounce"},
	{finding.BounceIgnored{Changes: 1}, "One change of level left out as bounce"},
	{finding.WheelFromSignal{Wheel: "60-2"}, "No --wheel was given: 60-2 is what repeats"},
	{finding.GapsElsewhere{Wheel: "36-2-2-2", Usual: "18x10", Seen: "9x10"}, "36-2-2-2 usually has its gaps at 18x10. The signal has them at 9x10"},
	{finding.GapsFromSignal{Wheel: "36-2-2", Seen: "16x10"}, "36-2-2 does not tell where its gaps are: they were taken where the signal has them, 16x10."},
	{finding.PartsByCams{Parts: 3}, "3 equal parts, which look alike: the cams tell"},
	{finding.PartsUntold{Parts: 3, Period: 240 * deg}, "from 0 to 240 deg. Add the cams' columns with --cam."},
	{finding.PartsUntold{Parts: 3, Period: 240 * deg, Cams: 1}, "Add another cam's column with --cam."},
	{finding.MaybeThirds{Wheel: "12-2", Thirds: "36-2-2-2"}, "does not tell 12-2 from 36-2-2-2 in three equal parts"},
	{finding.CamsInThirds{Wheel: "12-2"}, "repeat every two thirds of a turn"},
	{finding.LeadsReversed{}, "rises through zero where a tooth passes"},
	{finding.RoughTooth{Tooth: 21, Off: -1 * deg}, "Tooth 21 stands 1.0 deg early of where"},
	{finding.RoughTooth{Tooth: 21, Off: 1 * deg}, "Tooth 21 stands 1.0 deg late of where"},
	{finding.ManyTurnsLeftOut{Wheel: "60-2", LeftOut: 5, Used: 6}, "their teeth are not those of 60-2"},
	{finding.CoarseTimes{Step: 0.48 * deg}, "A sample lasts 0.48 deg of crank"},
	{finding.CoarseTimes{Step: 0.48 * deg, Digits: true}, "Times are written to 0.48 deg of crank"},
	{finding.OneTurnOnly{}, "angles are within one turn, 0 to 360 deg"},
	{finding.NoCamEdge{Column: 3}, "Column 3 has no edge that repeats"},
	{finding.EdgeWanders{Column: 3, Edge: "rising", Angle: 40 * deg, Deviation: 2.5 * deg}, "The rising edge of column 3 at 40.0 deg wanders by some 2.5 deg from turn to turn"},
	{finding.StrayPassings{Passings: 1}, "One passing of the cam signals"},
	{finding.StrayPassings{Passings: 2}, "2 passings of the cam signals"},
	{finding.LeadsDiffer{Before: "rising", After: "falling"}, "leads with its rising edge in one capture and its falling edge in the other"},
	{finding.SpeedsDiffer{Before: 800, After: 1500}, "at different speeds (about 800 and 1500 rev/min)"},
	{finding.EdgeCountsDiffer{Column: 3, Before: 6, After: 5}, "Column 3 has 6 edges in one capture and 5 in the other"},
	{finding.EdgeKindsDiffer{Column: 3}, "Column 3 has edges of other kinds"},
	{finding.KnownGoodSilent{}, "does not state speed or leads"},
	{finding.ShiftsUnsure{}, "Too few turns to say how sure"},
	{finding.NoEdgeMoved{}, "No cam edge moved by more than chance explains."},
	{finding.AllCamsMoved{Move: late}, "All edges of all cams moved together, by 18.0 ± 0.3 crank deg late (3.0 pitches of 60-2)."},
	{finding.OnlyCamMoved{Move: finding.Move{Off: -12 * deg, Expanded: 0.01 * deg, Pitches: 2, Wheel: "60-2"}}, "by 12.0 ± 0.1 crank deg early (2.0 pitches of 60-2). With one cam a capture cannot tell"},
	{finding.OneCamMoved{Column: 4, Move: late}, "One cam alone moved, column 4, by 18.0 ± 0.3 crank deg late"},
	{finding.OneEdgeMoved{Column: 3, Edge: "falling", Angle: 140 * deg}, "One edge alone moved, the falling one of column 3 at 140.0 deg. This points to a damaged tooth"},
	{finding.CamUneven{Column: 3}, "The edges of column 3 moved by different amounts"},
	{finding.CamsApart{Cams: []finding.CamMove{{Column: 3, Move: &late}, {Column: 4}}}, "column 3 by 18.0 ± 0.3 crank deg late (3.0 pitches of 60-2); column 4 unevenly."},
}

func TestWheelFindings(t *testing.T) {
	worded := map[string]bool{}
	for _, c := range wheelWords {
		require.Contains(t, Bench{}.Finding(c.finding), c.says)
		require.NotContains(t, Bench{}.Finding(c.finding), "%!")
		worded[reflect.TypeOf(c.finding).Name()] = true
	}
	for _, kind := range kindsIn(t, "../../../tdc/finding/wheel.go") {
		require.True(t, worded[kind], "%s has no words here", kind)
	}
}

// kindsIn are the types of a file that have a Kind.
func kindsIn(t *testing.T, path string) (kinds []string) {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	require.NoError(t, err)
	for _, d := range file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == "Kind" {
			kinds = append(kinds, f.Recv.List[0].Type.(*ast.Ident).Name)
		}
	}
	require.NotEmpty(t, kinds)
	return kinds
}

// What to type follows what is wrong; another wheel is named without the words.
func TestFaults(t *testing.T) {
	f := fault.Errorf("column 2 does not tell its wheel").Or(fault.AddCams).OrWheel("12-2").
		OrTry(fault.Try{Say: fault.TheWheel, Wheel: "9x15,45,9x15,45", Name: "24-2-2", Parts: 2})
	require.Equal(t, "column 2 does not tell its wheel: add the cams' columns with --cam or type the wheel that the engine is known to have: --wheel 12-2, "+
		"or --wheel 9x15,45,9x15,45 (24-2-2 in 2 equal parts, at 1/2 of the speed)", Fault(f))
	require.Equal(t, "the file is empty", Fault(fault.Errorf("the file is empty")))
	require.Equal(t, "x: if that is the wheel, type --wheel 60-2", Fault(fault.Errorf("x").OrWheel("60-2")))
	for say := fault.Columns; say <= fault.MoreTurns; say++ {
		require.Greater(t, len(Fault(fault.Errorf("x").Or(say))), len("x: "), "%d", say)
	}
}

// Every kind of finding about a capture is in the list.
func TestEveryKindOfACaptureIsSaid(t *testing.T) {
	said := map[string]bool{}
	for _, c := range wheelWords {
		said[c.finding.Kind()] = true
	}
	text, err := os.ReadFile(filepath.Join("..", "..", "..", "tdc", "finding", "wheel.go"))
	require.NoError(t, err)
	kinds := regexp.MustCompile(`Kind\(\) string \{ return "(.*)" \}`).FindAllStringSubmatch(string(text), -1)
	require.NotEmpty(t, kinds)
	for _, kind := range kinds {
		require.True(t, said[kind[1]], "%q is not in the list", kind[1])
	}
}
