package words_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/form"
	"evendrop/cmd/internal/words"
	"evendrop/geometry"
	"evendrop/tdc/finding"
)

var (
	inletLobe = finding.Mark{Name: "inlet lobe"}
	low, high = geometry.Length(0.76), geometry.Length(3)
)

// toldOfLobes is findings of cam lobes, at least one of every kind, in words.
var toldOfLobes = []struct {
	finding finding.Finding
	words   string
}{
	{finding.LobeFewReadings{Mark: inletLobe, Readings: 3, Least: 4}, "3 readings with a lift above zero: too few for an opening and a closing. Take at least 4, better 11: on each side two about the checking lift and three higher up, and the top."},
	{finding.RoundTwice{Mark: inletLobe, Place: place}, "In the order that they stand in, the rows go round more than one turn, to r.csv line 4 (23 deg, forward). Laid on one turn their lifts do not rise to one top and fall from it. A row is mistyped, or is of the other turn: read again what does not fit."},
	{finding.BackwardRows{Mark: inletLobe, Place: place, Rows: 2}, "Left out, for they were read turning backward, with the slack of the drive on the other side: 2 rows, the first at r.csv line 4 (23 deg, forward). Go back well beyond them, and read them again turning forward."},
	{finding.LiftsRunBack{Mark: inletLobe, Place: place, Rows: 4}, "From r.csv line 4 (23 deg, forward) on 4 rows follow one another as the crank turns backward. If it was turned back, write b under turn, and read them again turning forward; if not, check counts under [protractor]. Until then the lobe says nothing of a cam that has moved."},
	{finding.LiftOutOfLine{Mark: inletLobe, Place: place, Lift: 2, LeftOut: true}, "r.csv line 4 (23 deg, forward): its lift of 2.00 mm does not lie between those beside it, so it is left out. Look at it again: was the angle or the lift mistyped?"},
	{finding.LiftOutOfLine{Mark: inletLobe, Place: place, Lift: 2}, "The lifts do not rise to one top and fall from it. Look again at r.csv line 4 (23 deg, forward), a lift of 2.00 mm, and at the rows beside it. Until then they say nothing of a cam that has moved."},
	{finding.LiftNotStraddled{Mark: inletLobe, Flank: finding.OpeningFlank, Lift: 1}, "The checking lift of 1.00 mm was not read across on the opening side, where nothing was read, so its opening and closing cannot be determined. Read below and above it, within 5 deg."},
	{finding.LiftNotStraddled{Mark: inletLobe, Flank: finding.ClosingFlank, Lift: 1, Above: &high}, "The checking lift of 1.00 mm was not read across on the closing side, where the lowest reading is 3.00 mm, so its opening and closing cannot be determined. Read below and above it, within 5 deg."},
	{finding.LiftNotStraddled{Mark: inletLobe, Flank: finding.ClosingFlank, Lift: 1, Below: &low}, "The checking lift of 1.00 mm was not read across on the closing side, where the highest reading is 0.76 mm, so its opening and closing cannot be determined. Read below and above it, within 5 deg."},
	{finding.LiftNotStraddled{Mark: inletLobe, Flank: finding.ClosingFlank, Lift: 1, Below: &low, Above: &high}, "The checking lift of 1.00 mm was not read across on the closing side: the nearest readings are 0.76 mm and 3.00 mm, so its opening and closing cannot be determined. Read below and above it, within 5 deg."},
	{finding.StraddledWide{Mark: inletLobe, Flank: finding.OpeningFlank, Lift: 1, Apart: deg(9)}, "On the opening side the readings below and above the checking lift of 1.00 mm lie 9.0 deg apart. The lobe is not straight between them: read two within 5 deg."},
	{finding.FlanksUnlike{Mark: inletLobe, Flank: finding.OpeningFlank, Lift: 1, Times: 7.1, Steep: [2]finding.Place{place, {File: "r.csv", Line: 5}}, Other: [2]finding.Place{{File: "r.csv", Line: 12}, {File: "r.csv", Line: 13}}}, "At 1.00 mm the opening side is 7.1 times as steep as the other: a lift or an angle beside it was mistyped. Look again at r.csv line 4 and r.csv line 5; if they are right, at r.csv line 12 and r.csv line 13."},
	{finding.OnRamp{Mark: inletLobe, Flank: finding.ClosingFlank, Lift: 0.15, Slope: 0.0083}, "On the closing side 0.15 mm lies on the ramp, where the lift changes by 0.008 mm a degree. The centre is good to 2 or 3 deg there and says nothing of a cam that has moved. Use a card with a greater checking lift, such as 1 mm, and read across that."},
	{finding.OtherValve{Mark: inletLobe, Valve: "inlet", Centre: deg(-93)}, "The centre lies 93 deg before TDC, and that of an inlet lobe comes after it. This may be the exhaust lobe. Check which valve the gauge stands on, and counts under [protractor]."},
	{finding.OtherValve{Mark: inletLobe, Valve: "exhaust", Centre: deg(108)}, "The centre lies 108 deg after TDC, and that of an exhaust lobe comes before it. This may be the inlet lobe. Check which valve the gauge stands on, and counts under [protractor]."},
	{finding.HeelNotZero{Mark: inletLobe, Lift: 0.2}, "The gauge shows +0.20 mm on the heel, and all lifts are off by that: set it to zero beside both ramps, and read again."},
	{finding.TopOff{Mark: inletLobe, Top: 13.8, Meant: 9.2, Times: 1.5}, "The greatest lift is 13.80 mm, and the card makes it 9.20 mm, 1.5 times as much. Check that it is this lobe, the unit, the ratio of lobe to gauge, and that the top was read."},
	{finding.TopOff{Mark: inletLobe, Top: 0.362, Meant: 9.2, Times: 0.362 / 9.2}, "The greatest lift is 0.36 mm, and the card makes it 9.20 mm: the lifts look like inches. Write lift_in in the header row."},
	{finding.TopOff{Mark: inletLobe, Top: 233.7, Meant: 9.2, Times: 25.4}, "The greatest lift is 233.70 mm, and the card makes it 9.20 mm: the lifts look like millimetres taken as inches. Write lift_mm in the header row."},
	{finding.TopOff{Mark: inletLobe, Top: 920, Meant: 9.2, Times: 100}, "The greatest lift is 920.00 mm, and the card makes it 9.20 mm: the lifts look like hundredths of a millimetre. Write 9.20 for 920."},
	{finding.LevelApart{Mark: inletLobe, Place: place, Lift: 3, By: deg(-2)}, "At 3.00 mm the middle lies 2.0 deg earlier than the line of the other lifts: read that lift again on both sides, from r.csv line 4 (23 deg, forward) on."},
	{finding.LobeLeans{Mark: inletLobe, Lambda: -0.034, Uncertainty: 0.0016}, "Its flanks are unlike: the middle moves by -3.4 deg for each 100 deg of duration, so compare it at the card's lift only. It was ground so, or has a finger follower, and that alone is not a fault."},
	{finding.LiftOffset{Mark: inletLobe, Offset: 0.2, Expanded: 0.04}, "It lifts 0.20 mm ± 0.04 mm less than the card: lash, wear, the gauge's zero, or a card of another cam or lift. That does not come of a moved cam, and the shift allows for it."},
	{finding.LiftOffset{Mark: inletLobe, Offset: -0.2, Expanded: 0.04}, "It lifts 0.20 mm ± 0.04 mm more than the card: the gauge's zero, lash set too small, or a card of another cam or lift. That does not come of a moved cam, and the shift allows for it."},
	{finding.RatioOff{Mark: inletLobe, Times: 1.043, Expanded: 0.012}, "The lifts are 1.043 ± 0.012 times those of the healthy engine, more so the higher. Check the rocker's ratio, the gauge's tilt, and that it is the same lobe."},
	{finding.LobeTopAssumed{Mark: inletLobe, Top: 9}, "Its greatest lift is not stated, and 9 mm is taken for it. The lifts marked shape are a quarter, a half and three quarters of the top. See first what the top is, and type it as top under [[lobe]]."},
	{finding.LobeUncarded{Mark: inletLobe, Lift: 1, Duration: deg(240)}, "It has no opening and closing to compare with, so it is measured only, and where to expect the lifts is not known. Turn until the gauge shows each lift, the same ones on both sides: they tell the middle of each. What that reaches is worked out for a lobe that is open for 240 deg at 1.00 mm."},
	{finding.LobeUncarded{Mark: inletLobe, Centred: true, Lift: 1.27, Duration: deg(240)}, "Its card has a centre and no opening and closing, so only the top's place is known beforehand, and missing lift will not show. Turn until the gauge shows each lift, the same ones on both sides: they tell the middle of each. What that reaches is worked out for a lobe that is open for 240 deg at 1.27 mm."},
	{finding.LobeLowLift{Mark: inletLobe, Lift: 0.15}, "A checking lift of 0.15 mm lies on the ramp of most lobes, where an angle says little of a moved cam. There the ± foreseen do not hold. Where the card has a greater lift, such as 1 mm, use that."},
	{finding.LobeLiftHigh{Mark: inletLobe, Lift: 8, Top: 9}, "Nothing is planned: the checking lift of 8.00 mm lies too near the top of 9.00 mm. Correct lift, top, ratio or lash under [[lobe]]."},
	{finding.LobeLimit{Mark: inletLobe, Known: deg(0.508), Protractor: deg(0.321), Heel: deg(0.236), Gauge: deg(0.199), Rest: deg(0.244), RunOut: 0.02, Moved: deg(0.454), Fine: deg(0.1), Finer: new(deg(0.414))},
		"More readings of the lobe do not shrink the ± 0.51. Of it the protractor makes 0.32, the cam's run-out of 0.02 mm makes 0.24, the gauge on the lobe 0.20, TDC and the rest 0.24. Their squares add up. A protractor read to 0.1 deg and good to that would make it ± 0.41. This one makes it ± 0.45 by the mean of two settings. Move it on the crank by a good part of a turn, and read piston and lobe again, as a [[lobe]] of its own with set = 2. See how far the gauge moves over the heel. Where it is less, say half as much, type gauge = { runout = 0.01 }."},
	{finding.LobeLimit{Mark: inletLobe, Known: deg(0.4), Protractor: deg(0.1), Heel: deg(0.1), Gauge: deg(0.3), Rest: deg(0.19), Slack: deg(1), Moved: deg(0.39), Fine: deg(0.1), Finer: new(deg(0.39))},
		"More readings of the lobe do not shrink the ± 0.40. Of it the protractor makes 0.10, the cam's run-out of 0 mm makes 0.10, the gauge on the lobe 0.30, TDC and the rest 0.19. Their squares add up."},
	{finding.LobeLimit{Mark: inletLobe, Known: deg(0.9), Protractor: deg(0.1), Rest: deg(0.89), Slack: deg(3), Moved: deg(0.89)},
		"More readings of the lobe do not shrink the ± 0.90. Of it the protractor makes 0.10, the cam's run-out of 0 mm makes 0.00, the gauge on the lobe 0.00, TDC and the rest 0.89. Their squares add up. The slack of the drive, 3 deg, is in the rest. Light springs on the valves keep it on one side, and then less may be typed as slack."},
}

// Each is said whole, after the lobe's name, in the job's unit.
func TestLobeWords(t *testing.T) {
	for _, c := range toldOfLobes {
		require.Equal(t, c.words, bench.Finding(c.finding))
		require.Equal(t, "inlet lobe: "+c.words, bench.Named(c.finding))
	}
	inches := words.Bench{Protractor: bench.Protractor, Gauge: bench.Gauge, Inches: true}
	require.Contains(t, inches.Finding(finding.HeelNotZero{Lift: 0.254}), "+0.010 in")
	data, err := json.Marshal(form.Findings([]finding.Finding{finding.LevelApart{Mark: inletLobe, Place: place, Lift: 3, By: deg(-2)}}, func(finding.Finding) string { return "" }))
	require.NoError(t, err)
	require.JSONEq(t, `[{"kind": "level apart", "words": "", "mark": "inlet lobe", "file": "r.csv", "line": 4, "lift_mm": 3, "by_deg": -2}]`, string(data))
}
