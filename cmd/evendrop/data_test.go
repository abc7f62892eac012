package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

// Another program reads depths as the gauge showed them, whichever way it counts, and
// what the midpoints do under its own name, the other unknown.
func TestDataAreAsTheyWereRead(t *testing.T) {
	type data struct {
		Cylinders []struct {
			Readings []struct {
				Depth float64 `json:"depth_mm"`
			}
			Midpoints struct {
				Pattern string
				Lash    *float64 `json:"lash_mm"`
				Growth  *float64 `json:"growth_deg_per_mm"`
			}
		}
	}
	of := func(in invention) (got data) {
		code, out, errs := ev("find", in.job(t), "--as", "json")
		require.Equal(t, answered, code, errs)
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		return got
	}
	up := invention{scale: -1, zero: 20, rest: "[gauge]\ncounts = \"up\"\n"}
	require.InDelta(t, 20-up.drop(-35), of(up).Cylinders[0].Readings[0].Depth, 5e-4) // written to a micrometre
	down := invention{zero: 20}
	require.InDelta(t, 20+down.drop(-35), of(down).Cylinders[0].Readings[0].Depth, 5e-4)

	lash := of(invention{lash: 0.3, rest: "[protractor]\nstep = 0.05\nerror = 0.02\n[gauge]\nlash = 0\nlash_known_to = 0.5\n"}).Cylinders[0].Midpoints
	require.Equal(t, "shrinking with drop", lash.Pattern)
	require.NotNil(t, lash.Lash)
	require.InDelta(t, 0.3, *lash.Lash, 0.05)
	require.Nil(t, lash.Growth)
}

// A sheet runs a cell that begins with one of = + - @ unless it is a number (OWASP, CSV
// injection, from memory).
func TestCSVRunsNothing(t *testing.T) {
	mark := "[[mark]]\nname = \"=1+1\"\non = \"flywheel\"\nread = [3]\n"
	code, out, errs := ev("find", invention{tdc: 3, rest: mark}.job(t), "--as", "csv")
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, ",'=1+1,")
	require.NotContains(t, out, ",=1+1")
	code, out, errs = ev("find", invention{tdc: 5, rest: pinAt(3)}.job(t), "--as", "csv")
	require.Equal(t, answered, code, errs)
	require.Regexp(t, `(?m)^mark,,pin,-[12]\.`, out) // a number below zero stays one
}
