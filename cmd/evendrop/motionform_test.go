package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// Lists go one with one, a list of one with all; the first engine is at the top.
func TestMotionLists(t *testing.T) {
	got := move(t, "--stroke 86 --rod 133,145 --pin-offset 0,0.8")
	require.Len(t, got.Engines, 2)
	require.Equal(t, 133.0, got.Engines[0].Engine.Rod)
	require.Equal(t, 0.0, *got.Engines[0].Engine.PinOffset)
	require.Equal(t, 145.0, got.Engines[1].Engine.Rod)
	require.Equal(t, 0.8, *got.Engines[1].Engine.PinOffset)
	require.Equal(t, 86.0, got.Engines[1].Engine.Stroke)
	require.Equal(t, got.motionOfOne, got.Engines[0])
	require.Equal(t, got.Engines[1].Rows, move(t, "--stroke 86 --rod 145 --pin-offset 0.8").Rows)

	require.Len(t, move(t, "--stroke 86,92,81.4 --rod 146,144,133").Engines, 3)
	require.Len(t, move(t, "--stroke 86 --rod 146 --rod 172").Engines, 2)
	semicolons := move(t, "--stroke 81,4;86 --rod 133;300,5")
	require.Equal(t, 81.4, semicolons.Engines[0].Engine.Stroke)
	require.Equal(t, 300.5, semicolons.Engines[1].Engine.Rod)
	require.Len(t, move(t, "--stroke 86 --rod 146").Engines, 1)
}

// Angles as they are typed, without the crumbs of radians.
func TestMotionAngles(t *testing.T) {
	angles := func(line string) (out []float64) {
		for _, r := range move(t, "--stroke 86 --rod 146 "+line).Rows {
			out = append(out, r.Angle)
		}
		return out
	}
	require.Equal(t, []float64{-30, -25, -20, -15, -10, -5, 0, 5, 10, 15, 20, 25, 30}, angles(""))
	require.Equal(t, []float64{-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3}, angles("--from -0.3 --to 0.3 --by 0.1"))
	require.Equal(t, []float64{-30, 30}, angles("--by 60"))
	require.Equal(t, []float64{-20, 20}, angles("--from 20BTDC --to 20ATDC --by 40"))
	require.Equal(t, []float64{160, 200}, angles("--from 20BBDC --to 20ABDC --by 40"))
	require.Equal(t, []float64{10, 13, 16, 19}, angles("--from 10 --to 20 --by 3"))
}

// A wrong command line is status 2 with one line that says what to type.
func TestMotionMisuse(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"", "type for example evendrop motion --stroke 86 --rod 146"},
		{"--stroke 86", "motion needs --stroke and --rod"},
		{"--stroke 86 --rod 146 100", "flags alone"},
		{"--stroke 86 --rod 146 --as pdf", "expected text, markdown, json or csv"},
		{"--stroke 86 --rod 40", "rod 40 mm is too short"},
		{"--stroke 86 --rod 146 --pin-offset 110", "offset -110 mm is too big"},
		{"--stroke 0 --rod 146", "--stroke 0: expected a length above zero"},
		{"--stroke x --rod 146", "--stroke x: expected a length"},
		{"--stroke 81,4 --rod 133", "write 81.4 with a point"},
		{"--stroke 86 --rod 133,5", "a comma parts engines"},
		{"--stroke 86,92 --rod 133,145,150", "--stroke lists 2 and --rod lists 3"},
		{"--stroke 86,92,90 --rod 133,145", "--stroke lists 3 and --rod lists 2"},
		{"--stroke 86 --rod 140,141,142,143,144,145,146", "at most 6"},
		{"--stroke 86 --rod 146 --unit ft", "expected mm or in"},
		{"--stroke 86 --rod 146 --from 10 --to 10", "--from to be the earlier"},
		{"--stroke 86 --rod 146 --from 30 --to -30", "--from to be the earlier"},
		{"--stroke 86 --rod 146 --from x", "--from x: expected crank degrees"},
		{"--stroke 86 --rod 146 --to 800", "at most 720 deg"},
		{"--stroke 86 --rod 146 --by 0", "above zero"},
		{"--stroke 86 --rod 146 --by -5", "above zero"},
		{"--stroke 86 --rod 146 --by 5ATDC", "--by 5ATDC: expected"},
		{"--stroke 86 --rod 146 --by 0.001", "bigger step"},
		{"--stroke 86 --rod 146 --within 0", "above zero"},
		{"--stroke 86 --rod 146 --within 1,5", `write 1.5 with a point, or "1;5" for several`},
		{"--stroke 86 --rod 146 --bore 86 --compression 10,5 --liquid 60", `write 10.5 with a point, or "10;5" for several`},
		{"--stroke 86 --rod 146 --pin-offset 0,8", `write 0.8 with a point, or "0;8" for several`},
		{"--stroke 86 --rod 146 --within 87", "no more than the stroke"},
		{"--stroke 86 --rod 146 --within x", "--within x"},
		{"--stroke 86 --rod 146 --rpm NaN", "turns a minute"},
		{"--stroke 86 --rod 146 --rpm -1", "turns a minute"},
		{"--stroke 86 --rod 146 --compression 10", "--compression needs --bore"},
		{"--stroke 86 --rod 146 --bore 86 --compression 1", "a ratio above 1"},
		{"--stroke 86 --rod 146 --bore 86 --liquid 20", "--liquid needs --bore and --compression"},
		{"--stroke 86 --rod 146 --bore 86 --compression 10 --liquid inf", "millilitres"},
		{"--stroke 86 --rod 146 --bore 86 --compression 10 --liquid 0", "millilitres"},
		{"--stroke 86 --rod 146 --replace", "--replace goes with --picture"},
	} {
		code, out, errs := ev(append([]string{"motion"}, strings.Fields(c.line)...)...)
		require.Equal(t, wrongUse, code, c.line)
		require.Empty(t, out, c.line)
		require.Contains(t, errs, c.says, c.line)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
	}
}

// Everything on a terminal fits 80 columns, is for one engine or six, and has the
// caution; liquid has its own.
func TestMotionText(t *testing.T) {
	for _, line := range []string{
		"--stroke 86 --rod 146 --bore 86 --compression 10.5 --rpm 3000 --liquid 60",
		"--stroke 2000 --rod 2000 --bore 500 --compression 12 --rpm 100 --bore-offset 20",
		"--stroke 86 --rod 140,142,144,146,148,150 --bore 86 --compression 10.5 --rpm 3000 --liquid 60",
		"--stroke 86,86 --rod 146,146 --pin-offset -10.25 --bore 86",
		"--stroke 0.5 --rod 1",
	} {
		code, out, errs := ev(append([]string{"motion"}, strings.Fields(line)...)...)
		require.Equal(t, answered, code, errs)
		for text := range strings.Lines(out) {
			require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimSuffix(text, "\n")), 79, text)
		}
		require.Contains(t, out, "Caution: turn by hand only")
		require.Contains(t, out, "drop, mm\n")
		if strings.Contains(line, "--liquid") {
			require.Contains(t, unwrapped(out), "two full turns by hand first")
			require.Contains(t, unwrapped(out), "12.3 deg before TDC")
		}
	}
	code, out, errs := ev("motion", "--stroke", "86", "--rod", "146", "--as", "markdown")
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "| -30        |   7.3526 |")
	require.Equal(t, 2, strings.Count(out, "```"))
	code, out, _ = ev("motion", "--help")
	require.Equal(t, answered, code)
	require.Contains(t, out, "evendrop motion --stroke MM --rod MM")
}

// A sentence for what liquid does that does not fill the space, and one for too
// much of it.
func TestMotionLiquidInWords(t *testing.T) {
	line := strings.Fields("motion --stroke 86 --rod 146 --bore 86 --compression 10.5 --liquid")
	_, little, _ := ev(append(line, "20")...)
	require.Contains(t, unwrapped(little), "does not fill the 52.6 cm3 left at TDC, but makes a compression of 10.5 into 16.3")
	_, much, _ := ev(append(line, "600")...)
	require.Contains(t, unwrapped(much), "more than the cylinder holds at BDC, 552.1 cm3")
}

// CSV is RFC 4180 with as many cells a row, and each is a number, a name of ours
// or nothing, so no spreadsheet takes one for a formula.
func TestMotionCSV(t *testing.T) {
	code, out, errs := ev(strings.Fields("motion --stroke 86 --rod 133,146 --pin-offset -1 --bore 86 --compression 10 --liquid 70 --rpm 900 --as csv")...)
	require.Equal(t, answered, code, errs)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+2*(13+3+1))
	kinds := map[string]int{}
	for _, row := range rows[1:] {
		kinds[row[0]+row[1]]++
		for _, cell := range row[2:] {
			if cell != "" {
				_, err := strconv.ParseFloat(cell, 64)
				require.NoError(t, err)
			}
		}
	}
	require.Equal(t, map[string]int{"rowA": 13, "rowB": 13, "dwellA": 3, "dwellB": 3, "liquidA": 1, "liquidB": 1}, kinds)
	column := func(name string) int {
		for i, heading := range rows[0] {
			if heading == name {
				return i
			}
		}
		t.Fatal(name)
		return 0
	}
	got := move(t, "--stroke 86 --rod 133 --pin-offset -1 --bore 86 --compression 10 --liquid 70 --rpm 900")
	for name, want := range map[string]float64{
		"angle_deg": -30, "drop_mm": got.Rows[0].Drop, "volume_cm3": *got.Rows[0].Volume, "speed_m_per_s": *got.Rows[0].Speed,
		"rise_from_bdc_mm": got.Rows[0].AtBDC, "offset_mm": 1,
	} {
		require.Equal(t, strconv.FormatFloat(want, 'g', -1, 64), rows[1][column(name)], name)
	}
	require.Equal(t, strconv.FormatFloat(got.Dwell[0].AtBDC, 'g', -1, 64), rows[14][column("bdc_total_deg")])
	require.Equal(t, strconv.FormatFloat(*got.Liquid.FullAt, 'g', -1, 64), rows[17][column("full_at_deg")])
}

// The picture is whole SVG; one that is there stays unless --replace is typed,
// and then nothing is answered.
func TestMotionPicture(t *testing.T) {
	path := filepath.Join(t.TempDir(), "rods.svg")
	line := strings.Fields("motion --stroke 86 --rod 120,146 --picture " + path)
	code, out, errs := ev(line...)
	require.Equal(t, answered, code, errs)
	require.NotEmpty(t, out)
	first, err := os.ReadFile(path)
	require.NoError(t, err)
	elements(t, string(first))
	for _, words := range []string{"<title>", "<desc>", "rod 120 mm", "rod 146 mm", "pure cosine", "prefers-color-scheme"} {
		require.Contains(t, string(first), words)
	}

	code, out, errs = ev(append(line, "--from", "-10")...)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "--replace")
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, first, kept)

	code, _, errs = ev(append(line, "--from", "-10", "--replace")...)
	require.Equal(t, answered, code, errs)
	second, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NotEqual(t, first, second)

	one := strings.Fields("motion --stroke 86 --rod 146 --replace --picture " + path)
	for from, shaded := range map[string]bool{"-30": true, "-5": false} {
		code, _, errs = ev(append(one, "--from", from)...)
		require.Equal(t, answered, code, errs)
		svg, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, shaded, strings.Contains(string(svg), "within 1 mm: 21.8 deg"), "the dwell is shaded where it is whole")
	}

	code, out, errs = ev("motion", "--stroke", "86", "--rod", "40", "--picture", path+"2")
	require.Equal(t, wrongUse, code)
	require.Empty(t, out)
	require.NotEmpty(t, errs)
	require.NoFileExists(t, path+"2")
}
