package interview

import (
	"cmp"
	"fmt"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/evidence"
)

const (
	unknown  = "unknown"
	notTried = "not tried"
)

// topics are the questions, in their order: the engine, the protractor, what reads the
// piston, the marks, a customer's sheet.
var topics = append([]topic{
	{name: "name", asks: fixed("Engine's name", "none"), take: takeName, help: help{says: "What you call this engine, for the head of the answer."}},
	{name: "stroke", asks: asksStroke, take: stroke.take, help: strokeHelp},
	{name: "unit", asks: fixed("Do you read the gauge in inches too? y or n", "y"), when: func(f Facts) bool { return f.inches }, take: takeUnit, help: unitHelp},
	{name: "bore", asks: asksLength("Bore"), take: bore.take, help: boreHelp},
	{name: "rod", asks: asksLength("Connecting rod between its centres"), take: rod.take, help: rodHelp},
	{name: "offset", asks: asksOffset, take: takeOffset, help: offsetHelp},

	{name: "counts", asks: fixed("Turn the crank a little by hand, the way the engine runs.\nDid the protractor's number rise? y or n", notTried), take: takeTurned, help: countsHelp},
	{name: "wraps", asks: fixed("What does it read a little before and after the top?", notTried), take: takeAround, help: aroundHelp},
	{name: "wraps", asks: fixed("Is that right? y or n", "y"), when: func(f Facts) bool { return f.understood }, take: takeRight, help: rightHelp},
	{name: "counts", asks: fixed("As the engine runs, do its numbers rise? y or n", notTried), when: func(f Facts) bool { return f.contradicted }, take: takeTurned, help: countsHelp},
	{name: "wraps", asks: fixed("At the bottom, half a turn on, does it read 0 or 180?", "0"), when: func(f Facts) bool { return f.Sides }, take: takeBottom, help: wrapsHelp},
	{name: "wraps", asks: fixed("Where does its scale come round? 360, 180, 90 or 720", "360"), when: func(f Facts) bool { return f.Scale == 0 && !f.Sides }, take: takeWraps, help: wrapsHelp},

	{name: "gauge", asks: fixed("Piston read by? dial, rod, borescope, stop, dwell, several", "dial"), take: takeMeans, help: meansHelp},
	{name: "dwell", asks: fixed("Note dwell too, where the piston stands and moves again? y or n", "y"), when: func(f Facts) bool { return f.Gauge == "borescope" && !f.Beside.Dwell }, take: takeDwell, help: dwellHelp},
	{name: "gauge-counts", asks: asksCounts, when: func(f Facts) bool { return f.Gauge != "" }, take: takeCounts, help: gaugeHelp},

	{name: "marks", asks: fixed("What is to be judged?\nChoose by number, or type names, with commas between.", "none yet"), choices: usualNames(), take: takeMarks, help: marksHelp},
}, sheetTopics()...)

// asksStroke asks for the first length, and says how a unit is typed.
func asksStroke(f Facts) (text, usual string) {
	if f.Unit == "in" {
		return "Stroke in inches, or with its unit, as in 81.4 mm", unknown
	}
	return "Stroke in mm, or with its unit, as in 3.2 in", unknown
}

// asksLength asks for a length in the unit of the job.
func asksLength(name string) func(Facts) (string, string) {
	return func(f Facts) (string, string) { return name + ", " + f.Unit, unknown }
}

// asksOffset asks how far pin or bore stand off the crank.
func asksOffset(f Facts) (text, usual string) {
	return "Piston pin or bore off centre? no, or " + f.exampleOffset(), unknown
}

// asksCounts asks which way the gauge's number goes.
func asksCounts(f Facts) (text, usual string) {
	number := map[evidence.GaugeKind]string{evidence.DepthRod: "the number on the rod", evidence.Borescope: "the depth you judge"}[f.Gauge]
	return "As the piston goes down, does " + cmp.Or(number, "the dial's number") + " rise? y or n", "y"
}

const longestName = 60

// takeName takes any name.
func takeName(f Facts, answer string) (Facts, string, error) {
	if len([]rune(answer)) > longestName {
		return f, "", fmt.Errorf("a name has at most %d characters: type a shorter one", longestName)
	}
	f.Name = legible.Plain(answer)
	return f, "", nil
}
