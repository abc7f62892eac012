package found

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/fit/gum"
	"evendrop/geometry"
	"evendrop/tdc"
	"evendrop/tdc/finding"
	"evendrop/tdc/job"
	"evendrop/tdc/mark"
	"evendrop/tdc/mark/joint"
	"evendrop/tdc/mark/joint/seen"
)

const examples = "../../../../../examples/diagnostician/"

func example(t *testing.T) job.Job {
	t.Helper()
	j, err := job.Open(examples + "job.toml")
	require.NoError(t, err)
	return j
}

// What cannot be asked is an error that names the file and what to do.
func TestQuestionsThatCannotBeAsked(t *testing.T) {
	_, err := Against(example(t), examples+"none.toml")
	require.ErrorContains(t, err, "none.toml")

	dir := t.TempDir()
	other := filepath.Join(dir, "other.toml")
	known, err := os.ReadFile(examples + "known-good.toml")
	require.NoError(t, err)
	spoilt := strings.ReplaceAll(string(known), `name = "`, `name = "another `)
	require.NoError(t, os.WriteFile(other, []byte(spoilt), 0o600))
	_, err = Against(example(t), other)
	require.ErrorContains(t, err, "give the marks the same names in both")

	j := example(t)
	j.Cylinders[0].Number = 2
	_, err = Of(j)
	require.ErrorContains(t, err, "add a [[cylinder]] with number = 1")

	j = example(t)
	j.Cylinders[0].Readings = j.Cylinders[0].Readings[:2]
	_, err = Of(j)
	require.ErrorContains(t, err, "cylinder-1.csv: ")
	require.ErrorContains(t, err, "at least 3")
}

// Each of a mark, a throw, a crown and a TDC is enough for --strict.
func TestStrict(t *testing.T) {
	require.False(t, All{}.Strict())
	for name, f := range map[string]All{
		"TDC":   {Results: []tdc.Result{{}, {CannotTell: finding.TooVague{}}}},
		"mark":  {Marks: []mark.Judged{{Verdict: mark.Within}, {Verdict: mark.TooClose}}},
		"throw": {Throws: []mark.JudgedThrow{{Verdict: mark.Within}, {Verdict: mark.Outside}}},
		"crown": {Throws: []mark.JudgedThrow{{Verdict: mark.Within, CrownVerdict: mark.TooClose}}},
	} {
		require.True(t, f.Strict(), name)
	}
	require.False(t, All{Marks: []mark.Judged{{Verdict: mark.Within}, {Verdict: mark.NoLimitSaid}}}.Strict())
}

// Where marks of several parts are late and one slip of TDC would explain them, the answer says
// that several parts would look the same; of one part, or of parts off both ways, it does not.
func TestPartsAlike(t *testing.T) {
	judged := func(on string, degrees float64) mark.Judged {
		return mark.Judged{Mark: mark.Mark{On: on}, Estimate: gum.Estimate{Angle: geometry.Angle(degrees) * geometry.Degree}, Verdict: mark.Outside}
	}
	tdcAlone := joint.Diagnosis{Explanations: []joint.Explanation{{Slips: []joint.Slip{{Joints: []string{seen.TDC}}}}}}
	const alike = "Several parts that each moved the same way would look the same."
	for _, c := range []struct {
		marks []mark.Judged
		says  bool
	}{
		{[]mark.Judged{judged("pulley", 2.5), judged("cam", 4)}, true},
		{[]mark.Judged{judged("cam", 4), judged("cam", 4)}, false},
		{[]mark.Judged{judged("pulley", 2.5)}, false},
		{[]mark.Judged{judged("pulley", -2.5), judged("cam", 4)}, false},
	} {
		said := All{Marks: c.marks, Diagnosis: tdcAlone}.Never()
		require.Contains(t, said, "make sure of TDC")
		require.Equal(t, c.says, strings.Contains(said, alike), said)
	}
}
