package caution

import (
	"fmt"

	"evendrop/cmd/internal/doc"
	"evendrop/cmd/internal/form"
)

// Line is the one line under every answer.
var Line = With()

// Sheet is the one line under a customer's sheet.
const Sheet = "Turn by hand only, engine made safe so that it cannot start. The maker's data and procedure come before this sheet."

// With is the caution under an answer, with what else its work asks for.
func With(more ...string) string { return with(more, "evendrop cautions") }

// OnPage is the same on the page of the bench, which has a button where the command line
// has a command.
func OnPage(more ...string) string { return with(more, "Job, Cautions.") }

func with(more []string, all string) string {
	text := "Caution: turn by hand only, engine made safe so that it cannot start; the maker's data and procedure come first. "
	for _, sentence := range more {
		text += sentence + " "
	}
	return text + "All cautions: " + all
}

// What is said besides where a stop was used, where turning back is asked for, and where
// cam lobes were read.
const (
	Stop = "A stop can crack a piston or bend a valve: hand force only, never the starter, and take it out afterwards."
	Back = "Turn back only where the maker allows it: tensioners can let a belt jump, and a nose without a key lose its timing."
	Lobe = "At the cams: never turn the engine by a cam, and never lower a valve onto a piston. Lock phasers in their base position, and keep fingers from springs under load."
)

// caution is a hazard, what is commonly done about it, and a line that stands for both.
type caution struct {
	Hazard, Advice, Short string
}

// List is common practice, no source, unless DEVELOPERS.md names one by
// key: HSG261 for petrol and support of vehicles.
var List = []caution{
	{"Who decides", "The figures here are measured or typed in, never the maker's. The maker's data, local codes and " +
		"licensed practice come first. evendrop gives no torque figures and no repair procedures.",
		"The maker's data, local codes and licensed practice come first."},
	{"An engine that starts", "Disable ignition and injection, disconnect the battery's earth lead, keep key or fob away and hang a " +
		"sign on the wheel. A hybrid or stop-start engine can start by itself: make it safe by the maker's method.",
		"Make it unable to start: ignition, injection and battery off, key away. A hybrid or stop-start engine can start by itself: the maker's method."},
	{"High voltage", "The voltage of a hybrid or electric drive can kill. Leave orange cables, and what they lead to, to trained people, " +
		"and let them say when the drive is dead.",
		"Orange cables are for trained people only."},
	{"Hydraulic lock", "With plugs or injectors out, turn two full turns by hand before anything else. Never try a suspect engine with the starter: " +
		"trapped liquid bends rods. Stop at any hard resistance and find out why.",
		"Plugs or injectors out: first two full turns by hand, as trapped liquid bends rods. Never try a suspect engine with the starter."},
	{"Turning the crank", "Out of gear, wheels chocked. By hand only, by the crank itself, no air tools. Take the bar off before anyone goes near the key.",
		"Out of gear, turn by hand only, by the crank. Stop at any hard resistance."},
	{"Turning backwards", "Turned back, some tensioners let a belt or chain jump. A front bolt can slacken, and a nose without a key then loses the timing. " +
		"Turn back only where the maker allows it.",
		"Turn back only where the maker allows it: a belt can jump."},
	{"Valves and pistons", "With the drive off, turn neither crank nor cams where valves can meet pistons. Where it may have slipped, turn slowly, and stop " +
		"at the first resistance.",
		"Drive off: turn neither crank nor cams where valves can meet pistons."},
	{"Cams and valve springs", "Never turn the engine by a cam: that can let the drive jump. Lock variable phasers in their base position. Light checking springs " +
		"come out again; springs under load fly, so compress them with the right tool, and never lower a valve onto a piston.",
		"Never turn the engine by a cam. Springs under load fly."},
	{"Stops, rods and probes", "A stop or a rod can crack a piston, bend a valve or jam: hand force only, never the starter, and take it out afterwards. " +
		"Draw a borescope back before turning, or clamp it clear of piston and valves.",
		"Stops, rods, probes: hand force only, and take them out again."},
	{"Locking tools", "A locking pin or plate is for position, not for holding a bolt's torque; it can snap or crack a casing.",
		"A locking pin is for position, not for holding a bolt's torque."},
	{"Petrol", "Vapour comes from open plug holes and fuel lines: no sparks, no hot lamps, coils made dead, good ventilation.",
		"Petrol vapour: no sparks, no hot lamps, coils dead, fresh air."},
	{"High-pressure fuel", "A jet can go through skin, a surgical emergency. Do not open a line unless the maker's data say how to make it safe.",
		"High-pressure fuel goes through skin: open no line but by the maker's method."},
	{"Hot, moving, heavy", "Let it cool. Keep clear of fans, which can start with the key off. Never work under a vehicle held by a jack alone.",
		"Keep off hot parts, fans, springs. Never under a car on a jack alone."},
	{"Afterwards", "Pins, stops and gauges out first; then two full turns by hand, read the marks again, count tools and parts before the engine is started.",
		"Last: pins and stops out, two full turns by hand; read again; count tools."},
}

// Page is the safety page, in lines of up to width characters. An error is form.Terminal's.
func Page(width int) ([]byte, error) {
	var d doc.Document
	d.Section("Before you turn an engine")
	var items []string
	for _, c := range List {
		items = append(items, fmt.Sprintf("%s: %s", c.Hazard, c.Advice))
	}
	d.List(items)
	return form.Terminal(d, width)
}

// Screen is the safety page in short, in lines of up to width characters: on a terminal of
// 80 columns and 24 lines it stands whole, with a question below it. An error is
// form.Terminal's.
func Screen(width int) ([]byte, error) {
	var d doc.Document
	d.Section("Before you turn an engine")
	var items []string
	for _, c := range List {
		items = append(items, c.Short)
	}
	d.List(items)
	d.Say("In full: evendrop cautions")
	return form.Terminal(d, width)
}

// TurnBack is said where turning back is asked for.
const TurnBack = "Caution: turn back only where the maker allows it. Some tensioners let a belt or chain jump. A front bolt can " +
	"slacken, and a nose without a key then loses the timing. Go well past, some 30 deg, and come to each reading turning the new way."
