package words_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/evidence"
	"evendrop/tdc/finding"
)

var place = finding.Place{File: "r.csv", Line: 4, Angle: 23 * geometry.Degree, Turn: evidence.Forward}

var moment = finding.Moment{Place: place, After: 13, Probability: 0.85}

// said is every kind of finding and what its words must hold.
var said = []struct {
	finding finding.Finding
	words   []string
}{
	{finding.GaugeCountsOtherWay{Counts: evidence.Up}, []string{"numbers grow as the piston goes up", "correct counts under [gauge]"}},
	{finding.FewReadings{Readings: 5}, []string{"5 readings", "at least 6"}},
	{finding.NotUsed{Readings: 2, Least: 3}, []string{"too few beside the pairs to add anything: 2 readings. Take at least", "at least 3"}},
	{finding.AllShallow{Within: 0.12}, []string{"within 0.12 mm of the top"}},
	{finding.FlankMissing{Side: finding.Rising}, []string{"No reading before TDC", "TDC rests on the engine's dimensions alone", "Read that side too."}},
	{finding.FlankMissing{Side: finding.Rising, Pairs: 2}, []string{"No reading before TDC", "TDC rests on the pairs of angles and the engine's dimensions."}},
	{finding.FlankMissing{Side: finding.Falling, Unsigned: &place}, []string{"No reading after TDC", "their sign was left out: write 23 BTDC, or 337", "r.csv line 4"}},
	{finding.FlankThin{Side: finding.Falling, Readings: 1}, []string{"Only one reading after TDC"}},
	{finding.FlanksLopsided{Deeper: finding.Rising, Deep: 9.76, Shallow: 3.1}, []string{"9.8 mm before TDC", "3.1 mm on the other side"}},
	{finding.SuspectReading{Place: place, Off: 1, Times: 50, DialTurn: true}, []string{"r.csv line 4 (23 deg, forward)", "+1.00 mm", "50 times", "left out", "One turn of a dial gauge is 1 mm."}},
	{finding.SuspectReading{Place: place, Off: -0.1, Times: 5, Weight: 0.31}, []string{"-0.10 mm", "31 % of a reading"}},
	{finding.SuspectReading{Place: place, Off: 99, Times: 900, DeeperThan: 86}, []string{"The piston cannot be there: the stroke is 86 mm in all."}},
	{finding.SuspectReading{Place: place, Off: -9, Times: 90, AboveTop: 5}, []string{"that is 5.00 mm above its highest point."}},
	{finding.MoreSuspects{More: 6, Of: 81}, []string{"Of 81 readings, 6 more do not fit"}},
	{finding.WithEveryReading{TDC: 3 * geometry.Degree, Expanded: 0.3 * geometry.Degree}, []string{"3.00 ± 0.30 deg"}},
	{finding.AgainstTurn{Place: place, Steps: 7}, []string{"r.csv line 4 (23 deg, forward) and the 7 readings below it", "go against turning forward"}},
	{finding.Scattered{Times: 1.7}, []string{"1.7 times"}},
	{finding.FewLieApart{}, []string{"so few readings cannot tell chance from a fault", "Take two more"}},
	{finding.ScaleOff{Scale: 1.21}, []string{"1.210 times the travel computed from stroke and rod"}},
	{finding.StrokeUnknown{}, []string{"stroke is unknown"}},
	{finding.RodAssumed{Rod: 146, KnownTo: 34}, []string{"146 ± 34 mm"}},
	{finding.PairMisfit{Pair: "Stop 1", Off: -1.5 * geometry.Degree, Times: 9}, []string{"Stop 1", "1.50 deg earlier", "9 times"}},
	{finding.PairScatter{Pair: "Stop 1", Apart: 2 * geometry.Degree}, []string{"2.00 deg apart"}},
	{finding.DwellOneWay{}, []string{"where it is safe, turn back"}},
	{finding.MethodApart{Method: "dwell", Off: 1.5 * geometry.Degree, Limit: 0.5 * geometry.Degree}, []string{"dwell pairs put TDC 1.50 deg later", "0.50 deg could be chance"}},
	{finding.MethodApart{Method: "dwell", Off: 1.5 * geometry.Degree, Limit: 0.5 * geometry.Degree, Moved: true}, []string{"dwell pairs put TDC 1.50 deg later", "if they were seen before the protractor moved: look at them again"}},
	{finding.MethodApart{Method: "equal views", Off: 1, Limit: 1}, []string{"The equal views put"}},
	{finding.MethodApart{Method: "stops", Off: 1, Limit: 1}, []string{"The stop contacts put"}},
	{finding.MaybeBottom{}, []string{"TDC from BDC"}},
	{finding.NotSettled{Status: "stalled"}, []string{"The curve fit did not settle (stalled)."}},
	{finding.OffsetUnstated{KnownTo: 14, Expanded: 0.116 * geometry.Degree, Stated: 0.103 * geometry.Degree}, []string{"up to 14 mm", "pin_offset and bore_offset", "± 0.10 deg instead of ± 0.12"}},
	{finding.PairContradicts{Pair: "Stop 1", Off: -147.67 * geometry.Degree}, []string{"Stop 1 puts it 147.67 deg earlier", "too few to overrule it", "at least three"}},
	{finding.BeyondReason{Times: 40}, []string{"scatter 40 times as much as the instruments explain"}},
	{finding.TooVague{Expanded: 12 * geometry.Degree}, []string{"anywhere within 12 deg"}},
	{finding.CountsContradicted{Counts: evidence.With}, []string{`contradicts counts = "with"`, "by hand, the way it runs", `If its numbers fall, type counts = "against"`, "If they rise, correct the turn of the readings."}},
	{finding.CountsContradicted{Counts: evidence.Against, Pairs: true}, []string{`If its numbers rise, type counts = "with"`, "which angle of a pair is which"}},
	{finding.SidesContradicted{}, []string{"swap them in every angle"}},
	{finding.FlankUnsigned{Place: place, Lines: []finding.Lines{{From: 2, To: 6}, {From: 12, To: 14}}}, []string{"r.csv lines 2 to 6, 12 to 14 go against", "write 23 BTDC, or 337, in line 4"}},
	{finding.FlankUnsigned{Place: finding.Place{Line: 2}, Lines: []finding.Lines{{From: 2, To: 6}}}, []string{"Readings 2 to 6 go against", "in reading 2"}},
	{finding.RowUnsigned{Place: place}, []string{"fits on the other side of the protractor's zero", "write 23 BTDC, or 337."}},
	{finding.WrongUnit{Misread: finding.DepthsMetres, Times: 1000, Stroke: 86}, []string{"1000 times as much as a stroke of 86 mm makes them"}},
	{finding.WrongUnit{Misread: finding.DepthsMillimetresAsInches, Times: 25.4, Stroke: 86}, []string{"25 times as much as a stroke of 86 mm", `unit = "mm"`}},
	{finding.WrongUnit{Misread: finding.DepthsInches, Times: 0.0394, Stroke: 86}, []string{"look like inches", "depth_in"}},
	{finding.WrongUnit{Misread: finding.DepthsThou, Times: 39.4, Stroke: 86}, []string{"0.384 in for 384"}},
	{finding.WrongUnit{Misread: finding.DepthsPointLost, Times: 10, Stroke: 86}, []string{"divided by 10"}},
	{finding.WrongUnit{Misread: finding.DepthsCentimetres, Times: 0.1, Stroke: 86}, []string{"times 10"}},
	{finding.WrongUnit{Misread: finding.DepthsHundredths, Times: 100, Stroke: 86}, []string{"9.76 for 976"}},
	{finding.WrongUnit{Misread: finding.DepthsThousandths, Times: 1000, Stroke: 86}, []string{"0.384 for 384"}},
	{finding.WrongUnit{Misread: finding.DepthsMetres, Times: 0.001, Stroke: 86}, []string{"each in mm"}},
	{finding.WrongUnit{Misread: finding.StrokeInches, Times: 25.4, Stroke: 3.386, Meant: 86}, []string{`stroke = "3.386 in"`}},
	{finding.WrongUnit{Misread: finding.StrokeCentimetres, Times: 10, Stroke: 8.6, Meant: 86}, []string{"look like centimetres", "stroke = 86."}},
	{finding.WrongUnit{Misread: finding.StrokeMetres, Times: 1000, Stroke: 0.086, Meant: 86}, []string{"look like metres", "stroke = 86."}},
	{finding.WrongUnit{Misread: finding.StrokeMillimetresAsInches, Times: 1 / 25.4, Stroke: 2184.4, Meant: 86}, []string{`stroke = "86 mm"`}},
	{finding.ProtractorMoved{Moment: moment, By: 1.02 * geometry.Degree, Expanded: 0.4 * geometry.Degree},
		[]string{"After reading 13 (r.csv line 4) the protractor reads 1.0 ± 0.4 deg more: is the pointer loose", "TDC is given for the protractor as it stands now.", "It is 85 % sure that something moved."}},
	{finding.ProtractorMoved{Moment: finding.Moment{After: 9, Probability: 0.4}, By: -3 * geometry.Degree, Expanded: geometry.Degree},
		[]string{"After reading 9 the protractor reads 3.0 ± 1.0 deg less", "A step so great is hardly chance."}},
	{finding.GaugeMoved{Moment: finding.Moment{After: 9, Probability: 0.9999}, By: -0.104, Expanded: 0.04},
		[]string{"After reading 9 the gauge shows 0.10 ± 0.04 mm less", "It is more than 99 % sure that something moved."}},
	{finding.GaugeMoved{Moment: finding.Moment{After: 9, Or: &finding.Instead{Angle: -geometry.Degree, After: 12}}, By: -0.104, Expanded: 0.04},
		[]string{"The readings do not show what moved: it may also be that the protractor reads 1.0 deg less after reading 12. Look at both, then read both flanks again."}},
	{finding.ProtractorMoved{Moment: finding.Moment{After: 9, Or: &finding.Instead{Depth: 0.21, After: 12}}, By: 0.1, Expanded: 0.04},
		[]string{"it may also be that the gauge shows 0.21 mm more after reading 12."}},
	{finding.TurnSwapped{From: 13, To: 24, Or: &finding.Instead{After: 12, To: 18}},
		[]string{"it may also be that readings 13 to 18 were turned the other way than written."}},
	{finding.TurnSwapped{Place: place, From: 13, To: 24, Probability: 0.9}, []string{"Readings 13 to 24, from r.csv line 4 on, fit as turned the other way", "correct their turn"}},
	{finding.TurnSwapped{Place: finding.Place{Line: 13}, From: 13, To: 24}, []string{"Readings 13 to 24, from reading 13 on,"}},
	{finding.MovedOneWay{Moment: moment}, []string{"Something moved while they were taken, after reading 13 (r.csv line 4),", "turned one way only they cannot show", "where that is safe turn back and read again."}},
	{finding.MovedOneWay{Moment: finding.Moment{Place: place}}, []string{"Something moved while they were taken, from the first reading on, and turned one way only"}},
	{finding.OneWayOnly{}, []string{"All readings were turned one way", "moved between the two flanks cannot be seen that way", "Where it is safe, turn back"}},
	{finding.LashBeyond{Lash: 0.42, Expanded: 0.05, Stated: 0.06, KnownTo: 0.06}, []string{"Lash of 0.42 ± 0.05 mm, where 0.06 ± 0.06 mm was stated: worn bearings, or readings whose turn is written wrongly."}},
	{finding.WrongUnit{Misread: finding.StrokePointLost, Times: 0.1, Stroke: 860, Meant: 86}, []string{"decimal point seems lost in stroke and rod"}},
}

var bench = words.Bench{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}

// Every finding has its sentence, which begins and ends as one.
func TestFindings(t *testing.T) {
	for _, c := range said {
		text := bench.Finding(c.finding)
		require.Regexp(t, `^[A-Z0-9r].*\.$`, text, "%T", c.finding)
		require.NotContains(t, text, "%!", "%T", c.finding)
		for _, w := range c.words {
			require.Contains(t, text, w, "%T", c.finding)
		}
	}
}

// No kind is without words in the list above: every struct of tdc/finding with a Cure
// is in it, every misread unit, and no two kinds have one name.
func TestEveryKindIsSaid(t *testing.T) {
	listed, misread, kind := map[string]bool{}, map[string]bool{}, map[string]string{}
	every := []finding.Finding{}
	for _, c := range said {
		every = append(every, c.finding)
	}
	for _, c := range toldOfMarks {
		every = append(every, c.finding)
	}
	for _, c := range toldOfLobes {
		every = append(every, c.finding)
	}
	for _, f := range every {
		c := struct{ finding finding.Finding }{f}
		name := reflect.TypeOf(c.finding).Name()
		listed[name] = true
		if other, ok := kind[c.finding.Kind()]; ok {
			require.Equal(t, other, name, "two kinds named %q", c.finding.Kind())
		}
		kind[c.finding.Kind()] = name
		if unit, ok := c.finding.(finding.WrongUnit); ok {
			misread[string(unit.Misread)] = true
		}
	}
	files, err := filepath.Glob(filepath.Join("..", "..", "..", "tdc", "finding", "*.go"))
	require.NoError(t, err)
	kinds, units := 0, 0
	for _, file := range files {
		if filepath.Base(file) == "wheel.go" {
			continue // TestWheelWords has those
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(parsed, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Name.Name == "Cure" {
					kinds++
					require.True(t, listed[n.Recv.List[0].Type.(*ast.Ident).Name], "%s is not in the list", n.Recv.List[0].Type)
				}
			case *ast.ValueSpec:
				if of, ok := n.Type.(*ast.Ident); ok && of.Name == "Misread" {
					units++
					require.True(t, misread[strings.Trim(n.Values[0].(*ast.BasicLit).Value, `"`)], "%s is not in the list", n.Names[0])
				}
			}
			return true
		})
	}
	require.Equal(t, len(listed), kinds)
	require.Equal(t, len(misread), units)
}

// A finding in JSON has its kind, its words and its numbers, angles in degrees.
func TestFindingsInJSON(t *testing.T) {
	for _, c := range said {
		data, err := json.Marshal(form.Findings([]finding.Finding{c.finding}, bench.Finding))
		require.NoError(t, err)
		var got []map[string]any
		require.NoError(t, json.Unmarshal(data, &got))
		require.Equal(t, c.finding.Kind(), got[0]["kind"])
		require.Equal(t, bench.Finding(c.finding), got[0]["words"])
	}
	data, err := json.Marshal(form.Findings([]finding.Finding{
		finding.MethodApart{Method: "dwell", Off: -1.5 * geometry.Degree, Limit: 0.5 * geometry.Degree},
		finding.SuspectReading{Place: place, Off: 1, Times: 50, DialTurn: true},
	}, bench.Finding))
	require.NoError(t, err)
	require.JSONEq(t, `[
		{"kind": "method apart", "words": "The dwell pairs put TDC 1.50 deg earlier than the other evidence, and up to 0.50 deg could be chance: check them.",
		 "method": "dwell", "off_deg": -1.5, "limit_deg": 0.5},
		{"kind": "suspect reading", "words": "r.csv line 4 (23 deg, forward) does not fit: it is off by +1.00 mm, 50 times its expected error. It has been left out; read it again. One turn of a dial gauge is 1 mm.",
		 "file": "r.csv", "line": 4, "off_mm": 1, "times_expected": 50, "weight": 0, "one_dial_turn": true}]`, string(data))
}

// A refusal that is a finding is said in its words; another error keeps its own.
func TestRefused(t *testing.T) {
	err := bench.Refused(finding.Refusal{Finding: finding.WrongUnit{Misread: finding.DepthsInches, Times: 0.0394, Stroke: 86}})
	require.ErrorContains(t, err, "the depths change 0.039 times as much as a stroke of 86 mm makes them: they look like inches")
	require.NoError(t, bench.Refused(nil))
}

// In inches a reading is off by ten thousandths, and a dial's turn is no millimetre.
func TestInInches(t *testing.T) {
	inches := bench
	inches.Inches = true
	require.Equal(t, "-0.0004 in", inches.Residual(-0.0004*25.4))
	require.Equal(t, "+0.01 mm", bench.Residual(0.01))
	require.NotContains(t, inches.Finding(finding.SuspectReading{Place: place, Off: 1, Times: 50, DialTurn: true}), "mm")
}
