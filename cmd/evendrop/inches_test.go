package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// jobIn is an invented engine of 86 mm stroke and 146 mm rod as a job in mm or in inches,
// its pin so many degrees late.
func jobIn(t *testing.T, unit, name string, late float64) string {
	t.Helper()
	size := map[string]float64{"mm": 1, "in": 25.4}[unit]
	dir := t.TempDir()
	rows := "angle,depth\n"
	for _, u := range []float64{-35, -29, -23, -17, -12, 12, 17, 23, 29, 35} {
		sin, cos := math.Sincos(u * math.Pi / 180)
		drop := 43*(1-cos) + 146 - math.Sqrt(146*146-43*43*sin*sin)
		rows += fmt.Sprintf("%v,%.9f\n", math.Mod(u+360, 360), drop/size)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(rows), 0o600))
	text := fmt.Sprintf("title = %q\nunit = %q\n[engine]\nstroke = %.9f\nrod = %.9f\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n"+
		"[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = %v\nshould_be = 0\nlimit = 2\n", name, unit, 86/size, 146/size, late)
	path := filepath.Join(dir, name+".toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// A job in inches is planned, compared and kept in inches: no word of it is in
// millimetres. Its JSON is that of the same job in millimetres, but for the places of a
// plan, which are round in the job's unit.
func TestInchJobs(t *testing.T) {
	const plans = 2
	millimetres := regexp.MustCompile(`\bmm\b|millimetre`)
	answers := func(unit, as string) (out []string) {
		before, after, good := jobIn(t, unit, "before", 3), jobIn(t, unit, "after", 0.2), filepath.Join(t.TempDir(), "good.toml")
		for _, args := range [][]string{ // as many plans first as plans says
			{"plan", before}, {"plan", before, "--target", "0.2"}, {"recheck", before, after}, {"keep", before, after, good},
		} {
			out = append(out, answerOf(t, append(args, "--as", as)...))
		}
		return out
	}
	for _, as := range []string{"text", "markdown"} {
		for _, text := range answers("in", as) {
			require.NotRegexp(t, millimetres, text)
		}
		require.Regexp(t, millimetres, strings.Join(answers("mm", as), " "))
	}
	inches, mm := answers("in", "json"), answers("mm", "json")
	for i := range inches {
		var a, b any
		require.NoError(t, json.Unmarshal([]byte(inches[i]), &a))
		require.NoError(t, json.Unmarshal([]byte(mm[i]), &b))
		if i < plans {
			samePlan(t, a.(map[string]any), b.(map[string]any))
			continue
		}
		sameNumbers(t, "answer", a, b)
	}
}

// samePlan holds two plans to reach the same, to the 2 % that round drops may cost either,
// each at drops that are round in its own unit: 0.004 in and 0.1 mm at the finest.
func samePlan(t *testing.T, inches, mm map[string]any) {
	t.Helper()
	reach := func(p map[string]any) float64 {
		return p["reach"].(map[string]any)["with_protractor_expanded_deg"].(float64)
	}
	require.InEpsilon(t, reach(mm), reach(inches), 0.02)
	require.Len(t, inches["readings"], len(mm["readings"].([]any)))
	for _, unit := range []struct {
		plan map[string]any
		step float64
	}{{inches, 0.004 * 25.4}, {mm, 0.1}} {
		for _, r := range unit.plan["readings"].([]any) {
			drop := r.(map[string]any)["drop_mm"].(float64) / unit.step
			require.InDelta(t, math.Round(drop), drop, 1e-6)
		}
	}
}

// sameNumbers holds two values of JSON to be one, to a ten thousandth of their numbers:
// sizes were written to nine decimals of an inch. Texts, which may name a folder, are
// not compared.
func sameNumbers(t *testing.T, at string, a, b any) {
	t.Helper()
	switch a := a.(type) {
	case float64:
		require.InDelta(t, a, b, 1e-4*(1+math.Abs(a)), at)
	case []any:
		require.Len(t, b, len(a), at)
		for i := range a {
			sameNumbers(t, fmt.Sprintf("%s[%d]", at, i), a[i], b.([]any)[i])
		}
	case map[string]any:
		require.Len(t, b, len(a), at)
		for key := range a {
			sameNumbers(t, at+"."+key, a[key], b.(map[string]any)[key])
		}
	}
}

// What was typed in inches is answered in inches: of a piston and of a wheel. A radius
// of 2.5 in and an arc of 0.5 in are 0.2 rad, 11.459 deg.
func TestInchesTypedAreInchesRead(t *testing.T) {
	text := answerOf(t, "motion", "--stroke", "3.4", "--rod", "5.7", "--unit", "in", "--bore", "3.4", "--rpm", "3000")
	require.Contains(t, text, "Stroke 3.4 in, rod 5.7 in")
	require.Contains(t, text, "0.0005 in")
	require.Contains(t, text, "mean speed is 1700 ft/min") // 2 * 3.4/12 ft * 3000
	require.NotRegexp(t, `\bmm\b|cm3|m/s`, text)
	text = answerOf(t, "convert", "0.5", "in", "--radius", "2.5 in")
	require.Regexp(t, `crank degrees +11\.4592 .*in along the arc at radius 2\.5 in +0\.5$`, text)
	require.NotRegexp(t, `\bmm\b`, text)
	require.Regexp(t, `mm along the arc at radius 65 mm +4$`, answerOf(t, "convert", "4", "mm", "--radius", "65"))
}
