package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// cylinders writes a job of several inventions in one engine, their throws and zeros
// their own; one set-up of the gauge read them all.
func cylinders(t *testing.T, engine string, throws []float64, each []invention) string {
	t.Helper()
	dir := t.TempDir()
	text := "[engine]\nstroke = 86\nrod = 146\n" + engine + "\n[gauge]\nsame_zero = true\n"
	for i, in := range each {
		in.ways, in.lash = bothWays, 0.06
		name := fmt.Sprintf("cylinder-%d.csv", i+1)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(in.rows()), 0o600))
		text += fmt.Sprintf("[[cylinder]]\nnumber = %d\nthrow = %v\nreadings = %q\n", i+1, throws[i], name)
	}
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// Of an invented four, cylinder 2's throw is 3 deg late and 3's crown stands 2 mm lower,
// 4's crown 2 mm higher: each is told by its own word, sign and limit, a fault goes
// before what is fine, and --strict fails.
func TestThrowsAreJudgedByTheTruth(t *testing.T) {
	throws := []float64{0, 180, 180, 0}
	four := []invention{{tdc: 3, zero: 3}, {tdc: 186, zero: 3}, {tdc: 183, zero: 5}, {tdc: 3, zero: 1}}
	job := cylinders(t, "throw_limit = 1\ncrown_limit = 0.8\n", throws, four)
	said := answerOf(t, "find", job)
	require.Regexp(t, `Cylinder 2's throw is \+3\.\d* ± 0\.\d+ deg out of its place: outside its limit of 1 deg`, said)
	require.Regexp(t, `Cylinder 3's crown stands 2\.\d* ± 0\.\d+ mm lower at TDC than the others: outside its limit of 0\.8 mm`, said)
	require.Regexp(t, `Cylinder 4's crown stands 2\.\d* ± 0\.\d+ mm higher at TDC than the others: outside its limit of 0\.8 mm`, said)
	require.NotRegexp(t, `Cylinder 1's throw is|Cylinder 1's crown|Cylinder 3's throw is|Cylinder 2's crown`, said)
	require.Regexp(t, ` 1 +3\.\d+ .* crown within 2 +186\.\d+ +\+3\.\d+ .* throw outside 3 +183\.\d+ .* crown outside 4 +3\.\d+ .* crown outside`, said)
	code, _, _ := ev("find", job, "--strict")
	require.Equal(t, notFine, code)

	early := cylinders(t, "throw_limit = 1\n", throws[:2], []invention{{tdc: 3}, {tdc: 180}})
	require.Regexp(t, `Cylinder 2's throw is -3\.\d* ± 0\.\d+ deg out of its place`, answerOf(t, "find", early))
	code, _, _ = ev("find", early, "--strict")
	require.Equal(t, notFine, code)
	within := cylinders(t, "throw_limit = 5\ncrown_limit = 5\n", throws, four)
	require.NotContains(t, answerOf(t, "find", within), "outside")
	code, _, _ = ev("find", within, "--strict")
	require.Equal(t, answered, code)
	// 3 deg is more than a limit of 2, and less than twice that
	require.Contains(t, answerOf(t, "find", cylinders(t, "throw_limit = 2\n", throws[:2], four[:2])), "outside its limit of 2 deg")
}

// Throws that are all in their places show no error that goes once round; a wheel whose
// numbers lie off by a degree of sine does, and by so much.
func TestOnceRoundIsTheTruth(t *testing.T) {
	throws := []float64{0, 90, 180, 270}
	var right, off []invention
	for _, at := range throws {
		right = append(right, invention{tdc: 3 + at})
		off = append(off, invention{tdc: 3 + at + 2*math.Sin((at+30)*math.Pi/180)})
	}
	require.Contains(t, answerOf(t, "find", cylinders(t, "", throws, right)), "Nothing shows a protractor off its centre")
	said := answerOf(t, "find", cylinders(t, "", throws, off))
	require.InDelta(t, 2, numberIn(t, `errors go once round with (\S+) ± \S+ deg`, said), 0.1)
	// 2 deg of a wheel read at 100 mm: 3.5 mm (arc of a circle)
	require.InDelta(t, 3.5, numberIn(t, `points to a protractor (\S+) mm off its centre`, said), 0.2)
	three := answerOf(t, "find", cylinders(t, "", throws[:3], right[:3]))
	require.Contains(t, three, "cannot be distinguished")
}

// muddle is readings that scatter beyond all reason.
func muddle(rest string) invention {
	in := invention{rest: rest, bad: map[int]float64{}}
	for i := range 14 {
		in.bad[i] = 6 * math.Sin(float64(40*i*i))
	}
	return in
}

// By a TDC that cannot be determined nothing is judged, kept or compared, and it is said so.
func TestNothingRestsOnWhatCannotBeTold(t *testing.T) {
	job := muddle(pinAt(30)).job(t)
	said := answerOf(t, "find", job)
	require.True(t, strings.HasPrefix(said, "True TDC cannot be determined from these readings: "), said)
	require.Contains(t, said, "Do not rely on the figures below")
	require.Contains(t, said, "No mark is judged by it.")
	require.NotContains(t, said, "The pin is")
	require.NotContains(t, said, "Check at the bench")
	code, _, _ := ev("find", job, "--strict")
	require.Equal(t, notFine, code)
	var got struct {
		Cylinders []struct {
			CannotTell *string `json:"cannot_tell"`
		}
		Marks []any
	}
	_, out, _ := ev("find", job, "--as", "json")
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.NotNil(t, got.Cylinders[0].CannotTell)
	require.Empty(t, got.Marks)
	fine := invention{tdc: 3, rest: pinAt(3)}.job(t)
	for _, args := range [][]string{{"keep", job, filepath.Join(t.TempDir(), "k.toml")}, {"recheck", job, fine}, {"recheck", fine, job}} {
		code, out, errs := ev(args...)
		require.Equal(t, failed, code)
		require.Empty(t, out)
		require.Contains(t, errs, "TDC cannot be determined from its readings")
	}
}

// What the interval of JSON and CSV is, is what stands after ± in words.
func TestTheIntervalIsTheSameEverywhere(t *testing.T) {
	job := invention{tdc: 90, ways: bothWays, lash: 0.06, rest: "[protractor]\nstep = 1\nerror = 1\n"}.job(t)
	half := numberIn(t, `True TDC is at \S+ ± (\S+) deg on the protractor \(95 %\)`, answerOf(t, "find", job))
	var got struct {
		Cylinders []struct {
			TDC struct {
				Standard float64    `json:"standard_uncertainty_deg"`
				Interval [2]float64 `json:"interval95_deg"`
			}
		}
	}
	_, out, _ := ev("find", job, "--as", "json")
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	tdc := got.Cylinders[0].TDC
	expanded := (tdc.Interval[1] - tdc.Interval[0]) / 2
	require.InDelta(t, half, expanded, 0.051)      // to the decimal that was printed
	require.Greater(t, expanded, 1.6*tdc.Standard) // a rectangle's is 1.65
	_, out, _ = ev("find", job, "--as", "csv")
	require.InDelta(t, tdc.Standard, numberIn(t, `(?m)^tdc,1,true TDC,[^,]+,([^,]+),`, out), 1e-12)
	require.InDelta(t, expanded, numberIn(t, `(?m)^tdc,1,true TDC,[^,]+,[^,]+,([^,]+),`, out), 1e-12)
	require.Contains(t, pictureOf(t, job, "curve"), fmt.Sprintf("± %.1f deg", half))
}

// Without a job file the flags say what the file would: the pin's limit, and no step
// below zero.
func TestFlagsInPlaceOfAJob(t *testing.T) {
	job := invention{tdc: 5, ways: bothWays, lash: 0.06}.job(t)
	bare := []string{"find", "--readings", filepath.Join(filepath.Dir(job), "cylinder-1.csv"), "--stroke", "86", "--rod", "146"}
	require.Contains(t, answerOf(t, append(bare, "--pin", "8", "--pin-limit", "1")...), "outside the limit of 1 deg")
	require.Contains(t, answerOf(t, append(bare, "--pin", "8")...), "no limit was given")
	for _, flag := range []string{"--protractor-step=-1", "--protractor-error=-1", "--pin-limit=-1", "--protractor-step=1 BTDC"} {
		code, out, errs := ev(append(bare, "--pin", "8", flag)...)
		require.Equal(t, wrongUse, code, flag)
		require.Empty(t, out)
		require.Contains(t, errs, "expected degrees such as 0.5")
	}
	jobFile, _ := newJob(t)
	for _, n := range []string{"11", "4", "7"} {
		code, _, errs := ev("plan", jobFile, "--readings", n)
		require.Equal(t, wrongUse, code, errs)
	}
}
