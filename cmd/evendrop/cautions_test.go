package main

import (
	"encoding/json"
	"html"
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The hazards of the trade that an answer has to speak of (HSE HSG261; the rest common
// practice, no source), each by the words that a reader cannot do without.
var (
	byHand   = []string{"by hand only", "cannot start", "the maker's data and procedure come first", "evendrop cautions"}
	turnBack = []string{"turn back only where the maker allows it", "tensioners", "belt", "key"}
	aStop    = []string{"a stop can crack a piston or bend a valve", "hand force only", "never the starter", "take it out"}
)

func requireSays(t *testing.T, text string, words []string, what ...any) {
	t.Helper()
	for _, w := range words {
		require.Contains(t, lowered(unwrapped(text)), lowered(w), what...)
	}
}

// Every answer that sends somebody to an engine says how to be safe there.
func TestEveryAnswerHasItsCautions(t *testing.T) {
	job := invention{tdc: 3, rest: pinAt(3)}.job(t)
	dir := t.TempDir()
	lesson := filepath.Join(dir, "lesson")
	answerOf(t, "rehearse", lesson, "--seed", "3")
	for _, args := range [][]string{
		{"find", job}, {"plan", job}, {"recheck", job, job}, {"keep", job, filepath.Join(dir, "good.toml")}, {"halve", "350", "12"},
		{"motion", "--stroke", "86", "--rod", "146"}, {"begin", filepath.Join(dir, "new")}, {"rehearse", "--check", lesson, "--tdc", "3"},
	} {
		for _, as := range []string{"text", "markdown"} {
			if args[0] == "begin" && as == "markdown" {
				continue
			}
			if args[0] == "keep" {
				args = []string{"keep", job, filepath.Join(dir, as+".toml")}
			}
			whole := args
			if args[0] != "begin" {
				whole = append(append([]string{}, args...), "--as", as)
			}
			requireSays(t, answerOf(t, whole...), byHand, whole)
		}
	}
	_, errs, err := jotting(t, job, "done")
	require.NoError(t, err)
	requireSays(t, errs, byHand)
	capture := answerOf(t, edgesOf(invented(t, dir, "c.csv", 0, 0))...)
	requireSays(t, capture, []string{"never start or crank an engine for a capture where its drive may have slipped", "keep clear of what turns", "the maker's data come first", "condemn nothing by it before TDC is found", "evendrop cautions"})
}

// Where an answer asks to turn back, or an instrument can do harm, it says so; and
// where it does not, it does not cry wolf.
func TestCautionsOfWhatIsAskedFor(t *testing.T) {
	wide := "[gauge]\nlash = 0.2\nlash_known_to = 0.2\n[protractor]\nstep = 0.1\nerror = 0.1\n"
	oneWay := invention{lash: 0.2, rest: wide}.says(t, "find")
	require.Regexp(t, `turn (the engine )?back`, oneWay)
	requireSays(t, oneWay, turnBack)
	require.NotContains(t, lowered(oneWay), "a stop can")
	both := invention{lash: 0.06, ways: bothWays}.says(t, "find")
	require.NotContains(t, lowered(both), "turn back")

	requireSays(t, invention{rest: "stops = [[330, 30]]\n"}.says(t, "find"), aStop)
	halved := answerOf(t, "halve", "350", "12")
	requireSays(t, halved, aStop)
	requireSays(t, halved, turnBack)
	require.Contains(t, halved, "come late") // lash, in the direction of turning

	jobFile, _ := newJob(t)
	bench := []string{"turn back only where the maker allows it", "tensioners", "front bolt", "go well past"}
	plan := answerOf(t, "plan", jobFile)
	require.Contains(t, plan, "turning backward")
	requireSays(t, plan, bench)
	requireSays(t, strings.Join(planOf(t, jobFile).Cautions, " "), append(bench, "by hand only"))
	oneWay = answerOf(t, "plan", jobFile, "--one-way")
	require.NotContains(t, lowered(oneWay), "turn back only")
	require.Contains(t, oneWay, "never back")
	require.NotContains(t, lowered(plan), "never back")
	requireSays(t, strings.Join(planOf(t, jobFile, "--one-way").Cautions, " "), []string{"by hand only"})
}

// jot warns once, when it is told of turning back and when it asks for it itself.
func TestJotWarnsBeforeTurningBack(t *testing.T) {
	const caution = "turn back only where the maker allows it"
	jobFile, _ := newJob(t)
	_, errs, err := jotting(t, jobFile, typedReading(-25, "f"))
	require.NoError(t, err)
	require.NotContains(t, errs, caution)
	_, errs, err = jotting(t, jobFile, "b", "f", "b", "b")
	require.NoError(t, err)
	require.Equal(t, 1, strings.Count(unwrapped(errs), caution), errs)

	jobFile, _ = newJob(t)
	var lines []string
	for _, u := range []float64{-28, -24, -20, -16, -12, 12, 16, 20, 24, 28} {
		lines = append(lines, typedReading(u, "f"))
	}
	out, errs, err := jotting(t, jobFile, lines...)
	require.NoError(t, err)
	require.Contains(t, out, "turning backward", "one flank after the other read, the other way tells more")
	require.Equal(t, 1, strings.Count(unwrapped(errs), caution), errs)
	require.Contains(t, unwrapped(errs), "Go well past")
}

// The safety page names the hazards, each with what to do about it, and JSON and the
// page for the customer carry the same.
func TestSafetyPage(t *testing.T) {
	page := answerOf(t, "cautions")
	requireSays(t, page, []string{
		"disable ignition and injection", "disconnect the battery", "orange cables", "turn two full turns by hand", "never try a suspect engine with the starter",
		"stop at any hard resistance", "no air tools", "take the bar off", "turn back only where the maker allows it", "valves can meet pistons", "out of gear", "stop at the first resistance", "pins, stops and gauges out first; then two full turns",
		"draw a borescope back before turning", "not for holding a bolt's torque", "no sparks", "go through skin", "jack alone",
		"count tools and parts before the engine is started", "no torque figures and no repair procedures",
	})
	job := invention{tdc: 3}.job(t)
	code, out, errs := ev("find", job, "--as", "json")
	require.Equal(t, answered, code, errs)
	var got struct{ Cautions []string }
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Cautions, strings.Count(page, " - ")) // an item a hazard
	_, out, _ = ev("motion", "--stroke", "86", "--rod", "146", "--as", "json")
	var motion struct{ Cautions []string }
	require.NoError(t, json.Unmarshal([]byte(out), &motion))
	require.Equal(t, got.Cautions, motion.Cautions)
	shown := html.UnescapeString(pageOf(t, job))
	for _, c := range got.Cautions {
		require.Contains(t, page, c)
		_, advice, ok := strings.Cut(c, ": ")
		require.True(t, ok)
		require.Contains(t, unwrapped(shown), advice)
	}
	liquid := answerOf(t, "motion", "--stroke", "86", "--rod", "146", "--bore", "86", "--compression", "10", "--liquid", "60")
	requireSays(t, liquid, []string{"liquid does not give", "never tried with the starter", "two full turns by hand", "stop at any hard resistance"})
}

// At a terminal nothing is written before the cautions were read. They stand on one
// screen of 80 columns and 24 lines, with the question that has them acknowledged.
func TestBeginShowsTheCautionsFirst(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new")
	_, errs, err := begun(t, true, "no\nYES!\n", dir)
	require.ErrorIs(t, err, errNoAnswer)
	requireSays(t, errs, []string{"by hand only", "never try a suspect engine with the starter", "nothing is written before that", "evendrop cautions"})
	require.NoDirExists(t, dir)
	screen, _, ok := strings.Cut(errs, "y or n: ")
	require.True(t, ok)
	require.Less(t, strings.Count(screen, "\n"), 24, screen)
	within80(t, screen)
	require.Equal(t, strings.Count(unwrapped(answerOf(t, "cautions")), " - "), strings.Count(screen, "\n- "), "a line for each hazard")
	require.NoError(t, runBegin([]string{dir, "--yes"}, newConsole(strings.NewReader(""), io.Discard, io.Discard, false)))
	require.FileExists(t, filepath.Join(dir, "job.toml"))
	_, errs, err = begun(t, false, "", filepath.Join(t.TempDir(), "piped"))
	require.NoError(t, err)
	require.Contains(t, unwrapped(errs), unwrapped(answerOf(t, "cautions")), "through a pipe they are printed in full")
}
