package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

type findingJSON struct {
	Kind, Words string
	Numbers     map[string]any // and names: all that it holds
}

// The findings of marks and slips in JSON are what notes and to_settle say, with the
// numbers that the words round. A chain that jumped one tooth of 20 is 360/20 = 18 deg
// late; a pin half a degree within its limit and known to half a degree is not called.
func TestFindingsInJSON(t *testing.T) {
	decode := func(into any, args ...string) {
		code, out, errs := ev(append(args, "--as", "json")...)
		require.Equal(t, answered, code, errs)
		require.NoError(t, json.Unmarshal([]byte(out), into))
	}
	var out struct {
		Marks []struct {
			Name     string
			Notes    []string
			ToSettle *string `json:"to_settle"`
			Findings []findingJSON
		}
		Explanations []struct {
			Slips []struct {
				Notes    []string
				Findings []findingJSON
			}
		}
		Looks []struct {
			Kind, What, Part string
			On               *string
			Cost             int
		}
		Findings []findingJSON
	}
	decode(&out, "find", engine(t, "job.toml", 0.9, 0, 18, 18, 18, 18))
	top := 0
	for _, m := range out.Marks {
		words := m.Notes
		if m.ToSettle != nil {
			words = append(words, *m.ToSettle)
		}
		require.Len(t, m.Findings, len(words))
		for i, f := range m.Findings {
			require.Equal(t, words[i], f.Words)
			require.Equal(t, f.Kind, out.Findings[top].Kind)
			require.Equal(t, m.Name+": "+f.Words, out.Findings[top].Words)
			top++
		}
	}
	pin := out.Marks[0].Findings
	last := pin[len(pin)-1]
	require.Equal(t, "better measured settles it", last.Kind)
	require.Equal(t, "P", last.Numbers["mark"])
	require.InDelta(t, 0.1, last.Numbers["known_to_deg"], 0.01)

	var teeth []findingJSON
	for _, e := range out.Explanations {
		for _, s := range e.Slips {
			require.Len(t, s.Findings, len(s.Notes))
			for i, f := range s.Findings {
				require.Equal(t, s.Notes[i], f.Words)
				require.Equal(t, f, out.Findings[top])
				top++
				if f.Kind == "whole steps" {
					teeth = append(teeth, f)
				}
			}
		}
	}
	require.Len(t, out.Findings, top)
	require.NotEmpty(t, teeth)
	require.Equal(t, []any{"drive on crank sprocket", 1., "tooth", 20.},
		[]any{teeth[0].Numbers["joint"], teeth[0].Numbers["count"], teeth[0].Numbers["step"], teeth[0].Numbers["steps_in_turn"]})
	require.InDelta(t, 18, teeth[0].Numbers["shift_deg"], 0.2)
	require.NotEmpty(t, out.Looks)
	require.Equal(t, "links of the drive", out.Looks[0].Kind)
	require.Equal(t, "crank sprocket", *out.Looks[0].On)
	require.Contains(t, out.Looks[0].What, "count the links or teeth")

	var again struct {
		Back     []string
		Findings []findingJSON
	}
	decode(&again, "recheck", engine(t, "a.toml", 0, 0, 18, 18, 18, 18), engine(t, "b.toml", 0, 0, 0, 0, 0, 0))
	require.Len(t, again.Findings, 1)
	require.Equal(t, again.Back, []string{again.Findings[0].Words})
	require.Equal(t, "nothing moved", again.Findings[0].Numbers["now"])
	before := again.Findings[0].Numbers["before"].(map[string]any)
	require.InDelta(t, 18, before["shift_deg"], 0.2)
}

// UnmarshalJSON keeps what a finding of any kind holds.
func (f *findingJSON) UnmarshalJSON(data []byte) error {
	if err := json.Unmarshal(data, &f.Numbers); err != nil {
		return err
	}
	f.Kind, f.Words = f.Numbers["kind"].(string), f.Numbers["words"].(string)
	return nil
}
