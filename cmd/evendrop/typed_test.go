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
			{"convert", x, "mm", "--radius", "65"}, {"convert", x, "mm", "--radius", "65", "--chord"}, {"halve", x, "33.5"},
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

// No number in text has an exponent, however small or great.
func TestNoExponents(t *testing.T) {
	exponent := regexp.MustCompile(`\d[eE][-+]?\d`)
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "near.csv"), []byte("angle,depth\n359.9,0.00001\n0,0\n0.1,0.00001\n0.2,0.00002\n359.8,0.00002\n"), 0o600))
	near := filepath.Join(dir, "near.csv")
	text := mustRead(t, diagnostician)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), []byte(mustRead(t, story+"cylinder-1.csv")), 0o600))
	for old, new := range map[string]string{"radius = 100": "radius = 0.00001", "limit = 1.0": "limit = 0.00001"} {
		name := filepath.Join(dir, fmt.Sprintf("job%d.toml", len(old)))
		require.NoError(t, os.WriteFile(name, []byte(strings.Replace(text, old, new, 1)), 0o600))
		for _, as := range []string{"text", "markdown"} {
			_, out, errs := ev("find", name, "--every-reading", "--as", as)
			require.NotRegexp(t, exponent, out+errs)
		}
	}
	for _, args := range [][]string{
		{"motion", "--stroke", "86", "--rod", "146", "--by", "0.00001"}, {"motion", "--stroke", "86", "--rod", "146", "--from", "123456789"},
		{"motion", "--stroke", "0.00002", "--rod", "0.00001"}, {"motion", "--stroke", "86", "--rod", "146", "--bore-offset", "99999.125"},
		{"motion", "--stroke", "86", "--rod", "146", "--within", "0.000001", "--within", "0.00001"},
		{"convert", "0.00001", "crank"}, {"convert", "123456789123", "crank"}, {"convert", "--chord", "99999.5", "mm", "--radius", "0.00001"},
		{"find", "--readings", near, "--stroke", "86", "--rod", "146", "--gauge-error", "0.00001", "--gauge-step", "0.00001"},
		{"find", "--readings", near, "--stroke", "86", "--rod", "146", "--every-reading"},
		{"halve", "0.00001", "0.00002"}, {"halve", "0.00001 BTDC", "123456789123"}, {"halve", "-0.00001 BTDC", "3"},
	} {
		_, out, errs := ev(args...)
		require.NotRegexp(t, exponent, strings.ReplaceAll(out+errs, dir, ""), args)
	}
}

// A reading is shown as it was read, and no finer than its instrument can show.
func TestReadingsHaveTheDigitsThatWereRead(t *testing.T) {
	for _, c := range []struct {
		rows, flags string
		want        []string
	}{
		{"angle,depth\n330,9.31\n340.5,4.2\n350,1.15\n10,1.06\n19.5,4.11\n29,8.9\n", "", []string{"330.0 9.31", "340.5 4.20", "29.0 8.90"}},
		{"angle,depth\n330,9.3\n340,4\n350,1.1\n10,1\n19,4.1\n29,8.9\n", "", []string{"330 9.3", "340 4.0"}},
		{"angle,depth\n330.25,9.315\n340,4\n350,1.1\n10,1\n19,4.1\n29,8.9\n", "", []string{"330.25 9.315", "340.00 4.000"}},
		{"angle,depth\n330°20',0.3667 in\n340,0.1654 in\n350,0.0453 in\n10,0.0417 in\n19,0.1618 in\n29,0.3504 in\n", "", []string{"330.3 9.31", "340.0 4.20"}},
		{"angle,depth\n330,9\n340,4\n350,1\n10,1\n19,4\n29,9\n", "--gauge=rod --gauge-step=1 --protractor-step=1", []string{"330 9", "340 4"}},
	} {
		file := filepath.Join(t.TempDir(), "r.csv")
		require.NoError(t, os.WriteFile(file, []byte(c.rows), 0o600))
		args := append([]string{"find", "--readings", file, "--stroke", "86", "--rod", "146", "--every-reading"}, strings.Fields(c.flags)...)
		code, out, errs := ev(args...)
		require.Equal(t, answered, code, errs)
		for _, want := range c.want {
			require.Contains(t, unwrapped(out), "forward "+want+" ", c.rows)
		}
		_, decimals, _ := strings.Cut(strings.Fields(c.want[0])[1], ".")
		require.Regexp(t, fmt.Sprintf(`forward +\S+ +\S+ +([-+]\d+|0)\.\d{%d}( |\n)`, len(decimals)+1), out) // the residual one more
	}
}
