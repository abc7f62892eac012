package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// An invention is an engine whose truth is known, with what its instruments show
// written out anew: 86 mm of stroke, a rod of 146, instruments without error.
type invention struct {
	tdc    float64   // deg on the protractor, whose numbers grow in the running direction
	lash   float64   // mm
	offset float64   // of the bore, mm
	scale  float64   // of the gauge; 0 is 1
	zero   float64   // what the gauge shows with the piston highest, mm
	ways   []string  // forward, backward; none: forward
	at     []float64 // deg from TDC, in the order of turning forward; none: 11 to 35 either side
	bad    map[int]float64
	engine string // more under [engine]
	rest   string // more of the job
}

// drop is how far the piston is down at u deg from its highest place: the throw leans
// by the angle that rod and throw in line make with the bore.
func (in invention) drop(u float64) float64 {
	const r, l = 43.0, 146.0
	height := func(lean float64) float64 {
		sin, cos := math.Sincos(lean)
		return r*cos + math.Sqrt(l*l-(r*sin-in.offset)*(r*sin-in.offset))
	}
	top := math.Asin(in.offset / (r + l))
	return height(top) - height(top+u*math.Pi/180)
}

// rows is the readings file. A piston that rises lags low by half the lash, one that
// falls stands high by it.
func (in invention) rows() string {
	at, ways, scale := in.at, in.ways, in.scale
	if at == nil {
		at = []float64{-35, -31, -27, -23, -19, -15, -11, 11, 15, 19, 23, 27, 31, 35}
	}
	if ways == nil {
		ways = []string{"forward"}
	}
	if scale == 0 {
		scale = 1
	}
	rows := "angle,depth,turn\n"
	line := 0
	for _, way := range ways {
		for i := range at {
			u := at[i]
			if way == "backward" {
				u = at[len(at)-1-i]
			}
			low := in.drop(u) + in.lash/2
			if (u > 0) == (way == "forward") {
				low -= in.lash
			}
			angle := math.Mod(in.tdc+u+720, 360)
			rows += fmt.Sprintf("%.2f,%.3f,%s\n", angle, in.zero+scale*low+in.bad[line], way)
			line++
		}
	}
	return rows
}

// job writes the job and its readings, and names the job.
func (in invention) job(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "cylinder-1.csv"), []byte(in.rows()), 0o600))
	path := filepath.Join(dir, "job.toml")
	text := "[engine]\nstroke = 86\nrod = 146\n" + in.engine + "\n[[cylinder]]\nnumber = 1\nreadings = \"cylinder-1.csv\"\n" + in.rest
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// says is what the command answers to the invented job, on one line.
func (in invention) says(t *testing.T, command string, more ...string) string {
	t.Helper()
	return answerOf(t, append([]string{command, in.job(t)}, more...)...)
}

// answerOf is the answer to a command line, on one line; find's with all its details.
func answerOf(t *testing.T, args ...string) string {
	t.Helper()
	if args[0] == "find" {
		args = append(args, "--details")
	}
	code, out, errs := ev(args...)
	require.Equal(t, answered, code, "%v: %s", args, errs)
	return unwrapped(out)
}

// pictureOf is the named picture of a job.
func pictureOf(t *testing.T, job, name string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "p.svg")
	code, _, errs := ev("find", job, "--picture", file, "--of", name)
	require.Equal(t, answered, code, errs)
	return mustRead(t, file)
}

// pageOf is the page of a job.
func pageOf(t *testing.T, job string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "p.html")
	code, _, errs := ev("find", job, "--page", file)
	require.Equal(t, answered, code, errs)
	return mustRead(t, file)
}

// pinAt is a locking pin that the protractor reads at so many degrees, wanted at TDC.
func pinAt(read float64) string {
	return fmt.Sprintf("[[mark]]\nname = \"pin\"\non = \"flywheel\"\nread = [%.2f]\nshould_be = 0\nlimit = 1\n", math.Mod(read+360, 360))
}

var bothWays = []string{"forward", "backward"}

// lowered is text for words that may begin a sentence.
func lowered(text string) string { return strings.ToLower(text) }
