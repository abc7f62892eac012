package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What was typed comes out as it was typed, in JSON and CSV, though degrees go through
// radians on the way.
func TestTypedNumbersComeBack(t *testing.T) {
	stray := regexp.MustCompile(`[1-9]0{6,}[1-9]\b|9{7,}`)
	for _, x := range []string{"1.5", "7.5", "14.5", "0.7", "29", "57.3", "111.1"} {
		for _, args := range [][]string{
			{"convert", x, "crank"}, {"convert", x, "cam"}, {"convert", x, "teeth", "--pitches", "42"},
			{"convert", x, "mm", "--radius", "65"}, {"convert", x, "mm", "--radius", "65", "--chord"}, {"halve", x, "29"},
		} {
			for _, as := range []string{"json", "csv"} {
				code, out, errs := ev(append(args, "--as", as)...)
				require.Equal(t, answered, code, errs)
				require.Regexp(t, `(^|[^0-9.])`+regexp.QuoteMeta(x)+`\b`, out, args)
				for line := range strings.Lines(out) {
					if strings.Contains(line, "crank") || strings.Contains(line, "first") {
						require.NotRegexp(t, stray, line, args)
					}
				}
			}
		}
	}
}

// The same of the readings, limits and nominal angles of a job.
func TestTypedNumbersOfAJobComeBack(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), []byte(mustRead(t, story+"cylinder-1.csv")), 0o600))
	text := mustRead(t, diagnostician)
	text = text[:strings.Index(text, "[[mark]]")]
	limits := []float64{1.5, 2.3, 0.7, 3.6, 1.4}
	for i, limit := range limits {
		text += fmt.Sprintf("[[mark]]\nname = \"m%d\"\non = \"pulley\"\nread = 5.5\nshould_be = %v\nlimit = %v\n", i, 10*limit, limit)
	}
	path, good := filepath.Join(dir, "job.toml"), filepath.Join(dir, "good.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	type marks []struct {
		Limit    float64 `json:"limit_deg"`
		Within   float64 `json:"within_deg"`
		ShouldBe float64 `json:"should_be_deg"`
	}
	answer := func(args ...string) (got struct {
		Marks     marks
		Cylinders []struct {
			Readings []struct {
				Angle float64 `json:"angle_deg"`
				Depth float64 `json:"depth_mm"`
			}
		}
	}) {
		_, out, errs := ev(append(args, "--as", "json")...)
		require.NoError(t, json.Unmarshal([]byte(out), &got), errs)
		return got
	}
	found, rechecked, kept := answer("find", path), answer("recheck", path, path), answer("keep", path, good)
	for i, limit := range limits {
		require.Equal(t, limit, found.Marks[i].Limit)
		require.InDelta(t, 10*limit, found.Marks[i].ShouldBe, 0)
		require.Equal(t, limit, rechecked.Marks[i].Within)
		require.Equal(t, limit, kept.Marks[i].Limit)
	}
	againstGood := answer("find", path, "--against", good)
	for i, m := range againstGood.Marks {
		require.Contains(t, mustRead(t, good), fmt.Sprintf("should_be = %v\n", m.ShouldBe), i)
	}
	table := mustRead(t, filepath.Join(dir, "cylinder-1.csv"))
	for _, r := range found.Cylinders[0].Readings {
		require.Regexp(t, fmt.Sprintf(`(?m)^%v(\.0)?,%v0?,`, r.Angle, r.Depth), table)
	}
	_, out, _ := ev("find", path, "--as", "csv")
	require.NotRegexp(t, `,(1\.5|2\.3|0\.7|3\.6|1\.4)0{5,}`, out)
}
