package main

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// blog.decatech.com, degree-wheel page: equal lift at 60 and 145.5, centre 102.75. And
// onallcylinders.com 2023/07/26: inlet 31 BTDC and 63 ABDC, centre 106; exhaust 77 BBDC and
// 29 ATDC, centre 114 BTDC.
func TestHalveALobe(t *testing.T) {
	for _, c := range []struct {
		typed string
		says  string
		after float64
	}{
		{"60,145.5,--lobe,--tdc,0", "That is 102.8 ± 0.4 ATDC", 102.75},
		{"62,147.5,--lobe,--tdc,2", "That is 102.8 ± 0.4 ATDC", 102.75},
		{"298,212.5,--lobe,--tdc,358,--counts,against", "That is 102.8 ± 0.4 ATDC", 102.75},
		{"31 BTDC,63 ABDC,--lobe,--tdc,0", "That is 106.0 ± 0.4 ATDC", 106},
		{"77 BBDC,29 ATDC,--lobe,--tdc,0", "That is 114.0 ± 0.4 BTDC", -114},
	} {
		args := append([]string{"halve"}, strings.Split(c.typed, ",")...)
		code, text, errs := ev(args...)
		require.Equal(t, answered, code, errs)
		require.Contains(t, flat(text), c.says, c.typed)
		require.Contains(t, flat(text), "Whether it is the TDC of overlap or of firing is not known here")
		var out struct {
			Kind   string
			TDC    *float64 `json:"tdc_deg"`
			Centre *float64 `json:"centre_deg"`
			After  *float64 `json:"centre_after_tdc_deg"`
		}
		_, data, _ := ev(append(args, "--as", "json")...)
		require.NoError(t, json.Unmarshal([]byte(data), &out))
		require.Equal(t, "lobe", out.Kind)
		require.Nil(t, out.TDC)
		require.NotNil(t, out.Centre)
		require.InDelta(t, c.after, *out.After, 1e-9)
		_, rows, _ := ev(append(args, "--as", "csv")...)
		require.Contains(t, rows, "\nlobe centre,,,")
		require.Contains(t, rows, "\nlobe centre after tdc,,,")
	}
}

// A lobe's answer has the cautions of cams and none of a piston's words; a wide pair says
// what it would be typed the other way round, midpoints apart what that may be.
func TestHalveALobeSays(t *testing.T) {
	_, text, _ := ev("halve", "68", "152", "--lobe")
	text = flat(text)
	for _, says := range []string{"The lobe's centre, the midpoint of equal lift, is at 110.0 ± 0.4 deg on the protractor",
		"How far that is from TDC is not known here: add --tdc", "turning forward", "the midpoint depends on the lift", "never turn the engine by a cam"} {
		require.Contains(t, text, says)
	}
	for _, not := range []string{"TDC is at", "BDC", "lash", "piston, ", "stop can", "Turn back", "is taken for", "apart"} {
		require.NotContains(t, strings.Split(text, "Caution:")[0], not)
	}
	require.NotContains(t, text, "A stop can crack")
	_, text, _ = ev("halve", "349", "229", "--lobe", "--tdc", "0")
	require.Contains(t, flat(text), "Pair 1 is taken for a valve that is open for 240 deg. If its first angle is the closing one, type the two the other way round: the centre is then at 289.0.")
	_, text, _ = ev("halve", "68", "152", "70", "152", "80", "140", "--lobe")
	require.Contains(t, flat(text), "The midpoints lie 1.0 deg apart, more than the protractor explains. Of several lifts that is a lobe with unlike flanks")
	require.Contains(t, flat(text), "by the scatter of the midpoints")

	for _, c := range [][]string{{"68", "152", "--tdc", "2"}, {"68", "152", "--lobe", "--tdc", ""}, {"68", "152", "--lobe", "--tdc", "x"}, {"68", "--lobe"}} {
		code, text, errs := ev(append([]string{"halve"}, c...)...)
		require.Equal(t, wrongUse, code, c)
		require.Empty(t, text)
		require.NotEmpty(t, errs)
	}
	_, _, errs := ev("halve", "68", "152", "--tdc", "2")
	require.Contains(t, errs, "--tdc goes with --lobe")
}
