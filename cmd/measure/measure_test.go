package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Rows of tables as the tests print them: names with numbers in them, a dash for no aim,
// remarks behind.
func TestReadTable(t *testing.T) {
	const text = `        Simulated on 2026-11-26 (GOMAXPROCS 2), seed 20240229, 60 jobs a point
        point                                          found     aim      held     aim    before   wrong  silent  untold   U/deg
        24 both .5/.25 any, 0.3 deg at the turn-back    13.3       -      97.7      90      77.0     0.0     0.0     0.0  0.3110
        8 both .5/.25 any, 5.0 deg anywhere             93.0      95      79.0      90      77.0     0.0     0.0     0.0  0.3110 found, held
        12 both .5/.25 any, two typing errors            5.0       -      91.0       -      77.0     0.0     0.0     0.0       -
`
	all := readTable(text, 9)
	require.Len(t, all, 3)
	require.Equal(t, "24 both .5/.25 any, 0.3 deg at the turn-back", all[0].name)
	require.Equal(t, 13.3, all[0].number[0])
	require.Equal(t, 0.3110, all[0].number[8])

	f, err := ask{what: "found", own: true, unit: percent}.table(text, all)
	require.NoError(t, err)
	require.Equal(t, 93.0, f.value)
	require.Equal(t, 95.0, f.aim.low)
	require.Equal(t, "reached but for chance", f.verdict(), "2 %% of 60 jobs: chance makes 8.4")
	f, err = ask{what: "held", column: 2, own: true, unit: percent}.table(text, all)
	require.NoError(t, err)
	require.Equal(t, "reached but for chance", f.verdict(), "11 of 60, chance 11.6")
	f, err = ask{what: "U", rows: "^24", column: 8, aim: atMost(0.3), mean: true, unit: degrees}.table(text, all)
	require.NoError(t, err)
	require.Equal(t, "missed", f.verdict())
	_, err = ask{what: "nothing", rows: "^36", unit: percent}.table(text, all)
	require.Error(t, err)
}

// Sentences give the worst that they say.
func TestSentences(t *testing.T) {
	const text = `healthy                1000 jobs: accused 0.1 %, a wrong joint alone 0.1 %
x.go:1: one slip of 1.5 to 20  1000 jobs: accused 97.4 %, a wrong joint alone 0.3 % (in the
x.go:2: one slip               1000 jobs: accused 97.4 %, a wrong joint alone 2.5 % (in the
`
	f, err := ask{rows: `: one slip .*a wrong joint alone ([\d.]+) %`, aim: atMost(1), unit: percent}.sentences(text)
	require.NoError(t, err)
	require.Equal(t, 2.5, f.value)
	require.Equal(t, "missed", f.verdict())
}

func TestVerdicts(t *testing.T) {
	require.Equal(t, "-", figure{value: 3}.verdict())
	require.Equal(t, "reached", figure{value: 95, aim: between(94, 96)}.verdict())
	require.Equal(t, "missed", figure{value: 97, aim: between(94, 96)}.verdict())
	require.Equal(t, "reached but for chance", figure{value: 97, chance: 1, aim: between(94, 96)}.verdict())
	require.Equal(t, "| a | b | at most 2 | 3 ms | missed |\n", figure{what: "b", aim: atMost(2), value: 3, shown: "3 ms"}.row("a"))
}

// Every part has a name of its own, and a name that is none is refused.
func TestChoose(t *testing.T) {
	all, err := choose(nil)
	require.NoError(t, err)
	require.Len(t, all, len(parts))
	one, err := choose([]string{"page"})
	require.NoError(t, err)
	require.Equal(t, "page", one[0].name)
	_, err = choose([]string{"pages"})
	require.ErrorContains(t, err, "the parts are core, files")
}

func TestDigits(t *testing.T) {
	for x, want := range map[float64]string{1234: "1234", 12.34: "12.3", 1.234: "1.23", 0.1234: "0.123", 0: "0.000"} {
		require.Equal(t, want, digits(x))
	}
	require.InDelta(t, 2, exponent([]int{10, 100, 200}, []float64{1, 5, 20}), 1e-12)
}
