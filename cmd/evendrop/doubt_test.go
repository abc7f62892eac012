package main

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Readings that are nothing but noise are never an answer: TDC cannot be determined, and
// nothing is judged, kept or compared by it.
func TestNoiseIsNoAnswer(t *testing.T) {
	const seed = 20240501
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	dir := t.TempDir()
	path := filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = 81.4\nrod = 133\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n" +
		"[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [3]\nlimit = 1\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	refused, jobs := 0, 60
	if testing.Short() { // under the race detector each takes some five seconds
		jobs = 15
	}
	for range jobs {
		rows := "angle,depth\n"
		for range []int{6, 8, 12, 24, 40}[rng.IntN(5)] {
			rows += fmt.Sprintf("%.1f,%.2f\n", 360*rng.Float64(), 80*rng.Float64())
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(rows), 0o600))
		code, out, errs := ev("find", path, "--as", "json")
		if code == failed {
			require.NotEmpty(t, errs)
			refused++
			continue
		}
		require.Equal(t, answered, code, errs)
		var got struct {
			Cylinders []struct {
				CannotTell *string `json:"cannot_tell"`
			}
			Marks []any
		}
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.NotNil(t, got.Cylinders[0].CannotTell, rows)
		require.Empty(t, got.Marks)
		_, out, _ = ev("find", path)
		out = unwrapped(out)
		require.Contains(t, out, "True TDC cannot be determined from these readings: ")
		require.Contains(t, out, "No mark is judged by it.")
		require.NotContains(t, out, "Go back and see")
		code, _, _ = ev("find", path, "--strict")
		require.Equal(t, notFine, code)
		for _, args := range [][]string{{"keep", path, filepath.Join(dir, "k.toml")}, {"recheck", path, path}} {
			code, _, errs := ev(args...)
			require.Equal(t, failed, code)
			require.Contains(t, errs, "TDC cannot be determined from its readings")
		}
	}
	t.Logf("%d of %d refused", refused, jobs)
	require.Less(t, refused, jobs/2)
}

// The curve's scale is a check on what was typed: depths through a hole at a slant
// come out 1/cos of it too long (1.0642 at 20 deg: geometry), a rod gauge straight
// down does not.
func TestScaleIsTold(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "r.csv")
	told := func(scale float64) string {
		rows := "angle,depth\n"
		for _, u := range []float64{-35, -31, -27, -23, -19, -15, -11, 11, 15, 19, 23, 27, 31, 35} {
			sin, cos := math.Sincos(u * math.Pi / 180)
			rows += fmt.Sprintf("%.1f,%.2f\n", u, scale*(43*(1-cos)+146-math.Sqrt(146*146-43*43*sin*sin)))
		}
		require.NoError(t, os.WriteFile(path, []byte(rows), 0o600))
		code, out, errs := ev("find", "--readings", path, "--stroke", "86", "--rod", "146", "--every-reading", "--details", "--scale-known-to", "0.07", "--pin-offset", "0")
		require.Equal(t, answered, code, errs)
		require.Regexp(t, `\n 2 +forward +325 +\d+\.\d\d +`, out) // no more digits than were typed
		return unwrapped(out)
	}
	require.Contains(t, told(1/math.Cos(20*math.Pi/180)), "The gauge shows 1.06")
	require.Contains(t, told(1/math.Cos(20*math.Pi/180)), "A gauge at a slant of 20 deg would do that")
	require.Regexp(t, `The gauge shows (1\.00\d|0\.99\d) ± 0\.0\d+ times the travel computed from stroke and rod, as it should\.`, told(1))
	require.Contains(t, told(0.95), "A wrong stroke or rod would do that, or a crown that slopes")
}

// Angles typed with their sides are answered so, in every form and on every scale.
func TestHalveWithSides(t *testing.T) {
	_, out, _ := ev("halve", "12 BTDC", "9 ATDC")
	require.Contains(t, out, "TDC is at 1.5 BTDC ± ")
	_, out, _ = ev("halve", "12", "BTDC", "9", "ATDC", "--as", "json")
	require.Regexp(t, `"tdc_deg": -1\.(5|49999999999)`, out)
	require.Regexp(t, `"first_deg": -1(2|1\.9999999)`, out)
	_, out, _ = ev("halve", "12 BTDC", "9 ATDC", "--as", "csv")
	require.Regexp(t, `\ntdc,,,-1\.(5|49999999999)`, out)
	_, out, _ = ev("halve", "348", "9")
	require.Contains(t, out, "TDC is at 358.5 ± ")
}

// Of several cylinders one whose TDC cannot be determined is named as such, and neither its
// throw nor any crown is judged.
func TestACylinderThatCannotBeTold(t *testing.T) {
	dir := t.TempDir()
	readings := "angle,depth\n325,9.8\n331,7.2\n337,4.5\n343,2.5\n349,1\n11,1\n17,2.5\n23,4.5\n29,7.2\n35,9.8\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	path := filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = 86\nrod = 146\nthrow_limit = 0.5\ncrown_limit = 0.01\n[gauge]\nsame_zero = true\n" +
		"[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n" +
		"[[cylinder]]\nnumber = 2\nthrow = 90\n"
	noise := "angle,depth\n10,50\n100,3\n200,60\n300,20\n40,70\n130,44\n250,9\n350,66\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "n.csv"), []byte(noise), 0o600))
	for _, evidence := range []string{"views = [{ before = 359.7, after = 0.3, turn = \"forward\" }]\n", "readings = \"n.csv\"\n"} {
		require.NoError(t, os.WriteFile(path, []byte(text+evidence), 0o600))
		code, out, errs := ev("find", path)
		require.Equal(t, answered, code, errs)
		out = unwrapped(out)
		require.Contains(t, out, "True TDC of cylinder 2 cannot be determined from these readings")
		require.NotContains(t, out, "outside")
		require.Contains(t, out, "Cylinder 1's true TDC is at")
		code, _, _ = ev("find", path, "--strict")
		require.Equal(t, notFine, code)
	}
}

// A mark that nobody said the place of is held against 0, and not in silence: the part
// may be sound and the guess wrong.
func TestUnstatedShouldBeIsSaid(t *testing.T) {
	const stated = "should_be = 0.0\n"
	text := mustRead(t, diagnostician)
	require.Contains(t, text, stated)
	for _, c := range []struct {
		instead, says string
		times         int
		flags         []string
	}{
		{stated, "not stated", 0, nil},
		{"", "locking pin hole: should_be is not stated: compared with the piston's TDC, 0. State it, or should_be = \"unknown\" where nobody knows.", 1, nil},
		{"zero = \"throw\"\n", "locking pin hole: should_be is not stated: compared with the throw along the bore, 0.", 1, nil},
		{"should_be = \"unknown\"\n", "not stated", 0, nil},
		{"", "not stated", 0, []string{"--against", story + "known-good.toml"}},
	} {
		path := jobFile(t, "job.toml", strings.Replace(text, stated, c.instead, 1))
		code, out, errs := ev(append([]string{"find", path}, c.flags...)...)
		require.Equal(t, answered, code, errs)
		require.Equal(t, c.times, strings.Count(unwrapped(out), c.says), "%s", out)
	}
}
