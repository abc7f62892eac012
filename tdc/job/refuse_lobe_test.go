package job_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
)

// aLobe is the lines of a lobe that lacks nothing, its name and its card last.
const aLobe = "[[lobe]]\non = \"inlet cam\"\nvalve = \"inlet\"\nreadings = \"inlet.csv\"\nlift = 1\n"

// TestRefuseLobe is about [[lobe]]: every key, and what is wrong with a card.
func TestRefuseLobe(t *testing.T) {
	const again = `[[lobe]] / on = "inlet cam" / readings = "inlet.csv" / valve = "inlet" / lift = 1 / name = "a"`
	const angle = `: expected crank degrees from -720 to 720, such as -12.5 or "12.5 BTDC"`
	badLines{
		{``, `job.toml:5:1: [[lobe]]: name is missing: type for example name = "inlet lobe, cylinder 1"`},
		{`name = 5`, `job.toml:10:8: name = 5: expected a text in quotes, as in "text"`},
		{`name = ""`, `job.toml:10:8: name = "": expected a name`},
		{`name = "a" / cylinder = 0`, `job.toml:11:12: cylinder = 0: expected a whole number from 1 to 99`},
		{`name = "a" / cylinder = 2`, `job.toml:11:12: cylinder = 2: the job has no such cylinder: add a [[cylinder]] with this number, or name one that it has`},
		{`name = "a" / set = 0`, `job.toml:11:7: set = 0: expected a whole number from 1 to 20`},
		{`name = "a" / opens = "12 left"`, `job.toml:11:9: opens = "12 left"` + angle},
		{`name = "a" / opens = "-12 BBDC"`, `job.toml:11:9: opens = "-12 BBDC"` + angle},
		{`name = "a" / opens = "600 ABDC"`, `job.toml:11:9: opens = "600 ABDC"` + angle},
		{`name = "a" / closes = true`, `job.toml:11:10: closes = true` + angle},
		{`name = "a" / centre = []`, `job.toml:11:10: centre = [...]` + angle},
		{`name = "a" / opens = "12 BTDC"`, `job.toml:5:1: [[lobe]]: closes is missing: type for example closes = "48 ABDC", or leave out opens`},
		{`name = "a" / closes = "48 ABDC"`, `job.toml:5:1: [[lobe]]: opens is missing: type for example opens = "12 BTDC", or leave out closes`},
		{`name = "a" / opens = "12 BTDC" / closes = "48 ABDC" / centre = 108`, `job.toml:13:10: centre = 108: the lobe has opens or closes as well: leave out centre, or both of them`},
		{`name = "a" / opens = 12 / closes = 48`, `job.toml:12:10: closes = 48: that is less than 60 deg after it opens. Write the side of each, as in opens = "12 BTDC" and closes = "48 ABDC"`},
		{`name = "a" / top = 0`, `job.toml:11:7: top = 0: expected a length above 0, such as 81.4`},
		{`name = "a" / limit = -1`, `job.toml:11:9: limit = -1: expected degrees from 0 to 360, such as 0.5`},
		{`name = "a" / source = 3`, `job.toml:11:10: source = 3: expected a text in quotes, as in "text"`},
		{`name = "a" / ratio = 0`, `job.toml:11:9: ratio = 0: expected a ratio from 0.2 to 5, such as 1.5`},
		{`name = "a" / lash = -1`, `job.toml:11:8: lash = -1: expected a length of 0 or more, such as 0.05`},
		{`name = "a" / lash = 1`, `job.toml:9:8: lift = 1: no lift is left of it on the gauge with this lash: correct lift, ratio or lash`},
		{`name = "a" / slack = "5 ATDC"`, `job.toml:11:9: slack = "5 ATDC": expected degrees from 0 to 360, such as 0.5`},
		{`name = "a" / gauge = 0.01`, `job.toml:11:9: gauge = 0.01: expected a gauge such as { step = 0.01, error = 0.02, runout = 0.02, scale_known_to = 0.015 }`},
		{`name = "a" / gauge = { step = -1 }`, `job.toml:11:18: step = -1: expected a length of 0 or more, such as 0.05`},
		{`name = "a" / gauge = { error = "x" }`, `job.toml:11:19: error = "x": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`name = "a" / gauge = { runout = -1 }`, `job.toml:11:20: runout = -1: expected a length of 0 or more, such as 0.05`},
		{`name = "a" / gauge = { scale_known_to = 1 }`, `job.toml:11:28: scale_known_to = 1: expected a fraction such as 0.07`},
		{`name = "a" / gauge = { step = 0, error = 0 }`, `job.toml:11:9: gauge: step and error are both 0: state at least a step, such as step = 0.01`},
		{`name = "a" / opened = 5`, `job.toml:11:1: opened: unknown key; did you mean "opens"?`},
		{`name = "a" / ` + again, `job.toml:16:8: name = "a": another lobe has this name: expected a name of its own, or set = 2 where it was read again with the protractor moved`},
		{`name = "a" / ` + again + ` / set = 2 / slack = 3`, `job.toml:18:9: slack = 3: the lobe of this name above, of set 1, has not the same: expected the same here, or a name of its own`},
		{`name = "a" / ` + again + ` / set = 2 / limit = 2`, `job.toml:18:9: limit = 2: the lobe of this name above, of set 1, has not the same: expected the same here, or a name of its own`},
		{`name = "a" / ` + again + ` / set = 2 / opens = "12 BTDC" / closes = "48 ABDC"`, `job.toml:18:9: opens = "12 BTDC": the lobe of this name above, of set 1, has not the same: expected the same here, or a name of its own`},
		{`name = "a" / [[mark]] / name = "a" / on = "flywheel" / read = 3`, `job.toml:10:8: name = "a": another mark has this name: expected a name of its own`},
	}.check(t, aCylinder+aLobe)

	badLines{
		{`lobe = 3`, `job.toml:1:8: lobe = 3: expected tables: write [[lobe]] on a line of its own`},
		{`[lobe]`, `job.toml:1:1: [lobe]: there may be more than one: write [[lobe]]`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / readings = "lifts.csv"`, `lifts.csv:3:5: lift "open": expected a length such as 81.4, 81.4 mm or 3.2 in`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / readings = "no.csv"`, `job.toml:5:12: readings = "no.csv": not found in the job's folder: check the name`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / readings = 5`, `job.toml:5:12: readings = 5: expected a text in quotes, as in "text"`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / valve = "poppet"`, `job.toml:5:9: valve = "poppet": expected "inlet" or "exhaust"`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / lift = 0`, `job.toml:5:8: lift = 0: expected a length above 0, such as 81.4`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / on = ""`, `job.toml:5:6: on = "": expected a name`},
		{`[[cylinder]] / number = 1 / stops = [[0, 0]] / [[lobe]] / name = "a" / on = "cam" / valve = "inlet" / readings = "inlet.csv"`,
			`job.toml:4:1: [[lobe]]: lift is missing: type for example lift = 1.0`},
	}.check(t, "")
}

// A job with the same lobes says the same, whatever the lines and notes; another lift is
// another job.
func TestSameLobes(t *testing.T) {
	text := aCylinder + aLobe + "name = \"inlet\"\n"
	a := parsed(t, text)
	b := parsed(t, "# before\n"+text)
	b.Lobes[0].Readings[0].Line, b.Lobes[0].Readings[0].Note = 7, "note"
	require.True(t, job.Same(a, b))
	require.Equal(t, 7, b.Lobes[0].Readings[0].Line)
	b.Lobes[0].Readings[0].Lift += 0.01
	require.False(t, job.Same(a, b))
}

// A lobe that was read again in another set says of its card what the first of its name says,
// or nothing, and has it.
func TestLobeAgain(t *testing.T) {
	text := aCylinder + aLobe + "name = \"a\"\nopens = \"12 BTDC\"\ncloses = \"48 ABDC\"\nlimit = 2\nratio = 1.5\nlash = 0.1\nslack = 3\nsource = \"card\"\ntop = 9\n" +
		aLobe + "name = \"a\"\nset = 2\nlimit = 2\ngauge = { step = 0.02 }\n"
	j, err := job.Parse("job.toml", []byte(text), shelf)
	require.NoError(t, err)
	require.Len(t, j.Lobes, 2)
	first, again := j.Lobes[0], j.Lobes[1]
	require.Equal(t, 2, again.Set)
	require.InDelta(t, 0.02, float64(again.Gauge.Step), 1e-12)
	again.Set, again.Gauge = first.Set, first.Gauge
	require.Equal(t, first, again)
}
