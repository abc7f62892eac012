package flags_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/flags"
	"evendrop/cmd/internal/usage"
	"evendrop/geometry"
	"evendrop/tdc/job/measure"
)

// A number with a minus sign is a value wherever it stands: before, between and after
// flags of either kind, and as a flag's own.
func TestNegativeNumbersAreValues(t *testing.T) {
	for _, c := range []struct{ args, positional []string }{
		{[]string{"-10", "mm", "--chord"}, []string{"-10", "mm"}},
		{[]string{"--chord", "-10", "mm"}, []string{"-10", "mm"}},
		{[]string{"--chord=true", "-10", "--from", "-10", "mm"}, []string{"-10", "mm"}},
		{[]string{"--from=-10", "-10", "--chord", "-10"}, []string{"-10", "-10"}},
		{[]string{"--from", "-10", "9", "-5.2"}, []string{"9", "-5.2"}},
		{[]string{"-.5", "--chord", "-,5", "-12°30'", "- 3"}, []string{"-.5", "-,5", "-12°30'", "- 3"}},
		{[]string{"-0.5in", "--from", "-10", "−4"}, []string{"-0.5in", "−4"}},
		{[]string{"--chord", "--", "-10", "--from"}, []string{"-10", "--from"}},
		{[]string{"-5", "--", "-10"}, []string{"-5", "-10"}},
	} {
		set := flags.New("try", "", "")
		chord, from := set.Bool("chord", ""), set.Text("from", "DEG", "")
		rest, err := set.Parse(c.args)
		require.NoError(t, err, c.args)
		require.Equal(t, c.positional, rest, c.args)
		require.True(t, !set.Given("from") || *from == "-10", c.args)
		require.True(t, *chord || !set.Given("chord"), c.args)
	}
}

// trying is a command with a flag of each kind.
type trying struct {
	*flags.Set
	unit   *string
	stroke *geometry.Length
	rods   *[]geometry.Length
	deep   func(unit string) (geometry.Length, error)
	step   geometry.Angle
	n      *int
	seed   *uint64
	counts *string
	on     *bool
	scale  *float64
	page   *string
}

func newTrying() *trying {
	t := &trying{Set: flags.New("try", "evendrop try X", "What it does."), step: geometry.Degree}
	t.on = t.Bool("on", "a flag without a value")
	t.Length(new(string), "early", measure.AnySize, "")
	t.Heading("Sizes")
	t.unit = t.Unit()
	t.stroke = t.Length(t.unit, "stroke", measure.AboveZero, "twice the crank throw")
	t.rods = t.Lengths(t.unit, "rod", "MM[,MM]", measure.FromZero, "", func(text string) ([]string, error) { return strings.Split(text, ","), nil })
	t.deep = t.JobLength("deepest", "")
	t.Angle(&t.step, "step", "")
	t.n, t.seed = flags.Whole(t.Set, "n", 12, 3, 40, "12", ""), flags.Whole[uint64](t.Set, "seed", 1, 0, math.MaxUint64, "7", "")
	t.counts = t.Choice("counts", "with", "", "with", "against")
	t.scale = t.Number("scale", "FRACTION", func(x float64) bool { return x >= 0 && x <= 1 }, "a fraction such as 0.07", "")
	t.page = t.File("page", flags.Page, "a help text that is so long that it does not go into one line of a terminal")
	t.Choice("gauge", "dial", "what reads", "dial", "rod", "borescope")
	t.Elsewhere("is for find: leave it out", "pin")
	t.Note("Examples come last.")
	return t
}

// Each flag reads what it should; the unit counts wherever it stands.
func TestFlagsRead(t *testing.T) {
	f := newTrying()
	rest, err := f.Parse(strings.Fields("job.toml --stroke 3.2 --rod 5,130mm --rod 0 --unit in --deepest 1 --step 0.25 --n 40 --seed 18446744073709551615 --counts against --on --scale 1 --page a.HTM"))
	require.NoError(t, err)
	require.Equal(t, []string{"job.toml"}, rest)
	require.InDelta(t, 81.28, float64(*f.stroke), 1e-9) // 1 in is 25.4 mm (the international inch, by agreement of 1959; from memory)
	require.InDeltaSlice(t, []float64{127, 130, 0}, []float64{float64((*f.rods)[0]), float64((*f.rods)[1]), float64((*f.rods)[2])}, 1e-9)
	require.Equal(t, geometry.Degree/4, f.step)
	require.Equal(t, []any{40, uint64(math.MaxUint64), "against", true, 1.0, "a.HTM"}, []any{*f.n, *f.seed, *f.counts, *f.on, *f.scale, *f.page})
	for unit, want := range map[string]float64{"mm": 1, "in": 25.4} {
		deep, err := f.deep(unit)
		require.NoError(t, err)
		require.InDelta(t, want, float64(deep), 1e-12)
	}

	f = newTrying()
	_, err = f.Parse(nil)
	require.NoError(t, err)
	require.Equal(t, []any{12, uint64(1), "with", false, "mm", geometry.Degree, geometry.Length(0)}, []any{*f.n, *f.seed, *f.counts, *f.on, *f.unit, f.step, *f.stroke})
	require.False(t, f.Given("n"))

	// set anew, as by questions: the last one counts, and nothing is a length that is not known
	require.NoError(t, f.Set.Set("stroke", "80"))
	require.EqualValues(t, 80, *f.stroke)
	require.NoError(t, f.Set.Set("stroke", ""))
	require.Zero(t, *f.stroke)
	require.EqualError(t, f.Set.Set("counts", "up"), "--counts up: expected with or against")

	// a choice in other words is the choice
	require.NoError(t, f.Set.Set("counts", "AGAINST"))
	require.Equal(t, "against", *f.counts)
	require.NoError(t, f.Set.Set("unit", "inches"))
	require.Equal(t, "in", *f.unit)
}

// What cannot be read is named, with what to type instead; it is wrong use.
func TestFlagsSayWhatToType(t *testing.T) {
	for line, says := range map[string]string{
		"--stroke x":    "--stroke x: expected a length such as 81.4",
		"--stroke -1":   "--stroke -1: expected a length above zero, such as 81.4",
		"--stroke 0":    "--stroke 0: expected a length above zero, such as 81.4",
		"--rod 5,-1":    "--rod -1: expected a length such as 81.4",
		"--unit cm":     "--unit cm: expected mm or in",
		"--gauge dail":  "--gauge dail: did you mean dial?",
		"--gauge depth": "--gauge depth: did you mean rod?",
		"--step -1":     "--step -1: expected degrees such as 0.5",
		"--step 12BTDC": "--step 12BTDC: expected degrees such as 0.5",
		"--n 2":         "--n 2: expected a whole number from 3 to 40, such as 12",
		"--n 41":        "--n 41: expected a whole number from 3 to 40, such as 12",
		"--n 3.5":       "--n 3.5: expected a whole number from 3 to 40, such as 12",
		"--n -5":        "--n -5: expected a whole number from 3 to 40, such as 12",
		"--scale 2":     "--scale 2: expected a fraction such as 0.07",
		"--scale NaN":   "--scale NaN: expected a fraction such as 0.07",
		"--on=maybe":    "--on maybe: expected nothing after it, or =true or =false",
		"--page a.pdf":  "--page a.pdf: pages are HTML: name it a.html, and print it to PDF from a browser",
		"--pin 3":       "--pin 3: is for find: leave it out",
		"--stroek 3":    "unknown flag: --stroek: type evendrop try --help",
		"--stroke":      "flag needs an argument: --stroke: type evendrop try --help",
	} {
		_, err := newTrying().Parse(strings.Fields(line))
		require.EqualError(t, err, says)
		require.ErrorAs(t, err, new(usage.Error))
	}
	f := newTrying()
	flags.Whole(f.Set, "many", 0, 1, flags.Many, "1", "")
	require.EqualError(t, f.Set.Set("many", "0"), "--many 0: expected a whole number from 1 up, such as 1")
	_, err := f.Parse([]string{"--deepest", "0"})
	require.NoError(t, err)
	_, err = f.deep("mm")
	require.EqualError(t, err, "--deepest 0: expected a length above zero, such as 81.4")
	_, err = f.Parse([]string{"--help"})
	require.ErrorIs(t, err, flags.ErrHelp)
}

// The usage text is the flags', in their order, each with its value and its help.
func TestUsage(t *testing.T) {
	f := newTrying()
	require.Equal(t, `evendrop try X

What it does.

  --on                      a flag without a value
  --early MM

Sizes:
  --unit mm|in              of every length that has no unit of its own
  --stroke MM               twice the crank throw
  --rod MM[,MM]
  --deepest MM
  --step DEG
  --n N
  --seed N
  --counts with|against
  --scale FRACTION
  --page FILE.html          a help text that is so long that it does not go
                            into one line of a terminal
  --gauge dial|rod|borescope
                            what reads

Examples come last.
`, f.Usage())
	require.Equal(t, []string{"unit", "stroke", "rod", "deepest", "step", "n", "seed", "counts", "scale", "page", "gauge"}, f.From("Sizes"))
}
