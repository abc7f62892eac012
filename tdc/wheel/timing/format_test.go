package timing_test

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/fault"
)

// The same capture in the ways scopes write: each gives the same edges.
func TestEveryTable(t *testing.T) {
	e := idlingEngine()
	e.turns = 4.7
	in := func(per float64, places int) func(int, float64) string {
		return func(_ int, t float64) string { return strconv.FormatFloat((t-0.02)*per, 'f', places, 64) }
	}
	count := func(row int, _ float64) string { return strconv.Itoa(row) }
	for _, c := range []struct {
		name  string
		table table
		q     capture.Request
		notes int
	}{
		{"units row", plainTable(), columns(1), 0},
		{"no header", table{separator: ","}, columns(1), 1},
		{"byte order mark, no header", table{header: "\ufeff", separator: ","}, columns(1), 1},
		{"semicolons, decimal commas, ms", table{header: "Zeit;Kurbel;Nocke\n(ms);(V);(V)\n\n", separator: ";", comma: true, time: in(1e3, 4)}, columns(1), 0},
		{"semicolons, decimal points", table{header: "t/s;a;b\n", separator: ";"}, columns(1), 0},
		{"tabs, us", table{header: "Time (µs)\tA\tB\n", separator: "\t", time: in(1e6, 1)}, columns(1), 0},
		{"tabs, decimal commas, Latin-1", table{header: "Time [\xb5s]\tA\tB\n", separator: "\t", comma: true, time: in(1e6, 1)}, columns(1), 0},
		{"long header with numbers in it", table{
			header: "Model,scope 1\nRecord,100000\nInterval,0.00001\n\"Note, quoted\",1,x\nTime,CH1,CH2\nSecond,Volt,Volt\n", separator: ",",
		}, columns(1), 0},
		{"headings asked for", table{header: "Time_ns,Inlet,x,Crank\n", separator: ",", time: in(1e9, 0)}, capture.Request{Time: "time_ns", Crank: "inlet", Cams: []string{"x"}}, 0},
		{"ms by word", table{header: "a,b,c\n", separator: ",", time: in(1e3, 4)}, capture.Request{Time: "1", Crank: "2", Cams: []string{"3"}, Unit: capture.Milliseconds}, 0},
		{"sample numbers", table{header: "Sample,b,c\n", separator: ",", time: count}, capture.Request{Time: "1", Crank: "2", Cams: []string{"3"}, Rate: e.rate}, 0},
		{"rows alone", table{separator: ",", time: count}, capture.Request{Crank: "2", Cams: []string{"3"}, Rate: e.rate}, 0},
		{"scientific", table{header: "s,V,V\n", separator: ",", time: func(_ int, t float64) string { return strconv.FormatFloat(t, 'E', 9, 64) }}, columns(1), 0},
		{"too few digits", table{header: "s,V,V\n", separator: ",", time: in(1, 4)}, columns(1), 1},
		{"blank tail", table{header: "s,V,V\n", separator: ",", tail: ",,\n,,\n\n\r\n , ,\n"}, columns(1), 0},
		{"cut short", table{header: "s,V,V\n", separator: ",", tail: "0.14"}, columns(1), 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := e.capture(c.table)
			if c.name == "units row" {
				data = bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))
			}
			r, err := measure(data, "60-2", c.q)
			require.NoError(t, err)
			requireEdges(t, e, r, idleTolerance)
			require.Len(t, r.Notes, c.notes, r.Notes)
			// 760 to 840 is what was simulated; a tenth of a tooth's 0.6 ms is
			// what a stamp of four decimals could be out by
			require.InDelta(t, 760, r.RPMMin, 3)
			require.InDelta(t, 840, r.RPMMax, 3)
		})
	}
}

// What cannot be read is refused by line and column, with what to type.
func TestRefused(t *testing.T) {
	row := "0.001,1,2\n0.002,3,1\n0.003,1,2\n0.004,2,4\n"
	for _, c := range []struct{ text, crank, says string }{
		{"", "2", "the file is empty"},
		{" \n\n", "2", "the file is empty"},
		{"\xff\xfea\x00b\x00", "2", "UTF-16"},
		{row, "7", "columns 1, 7, 3; this line has 3 columns with comma between"},
		{"a,b,c\n" + row, "nix", "line 1: no column is headed \"nix\": expected one of a, b, c"},
		{"t,Crank (V),c\n" + row, "crank", "column 2 has 2 teeth in all"}, // found, its unit left out
		{"t,Crank [V],Crank (A)\n" + row, "crank [v]", "column 2 has 2 teeth in all"},
		{"t,Crank [V],Crank (A)\n" + row, "crank", "line 1: no column is headed \"crank\""}, // it could be two
		{row + "0.005,x,3\n" + row, "2", "line 5, column 2: \"x\" is not a number"},
		{row + "0.005\n" + row, "2", "line 5: has 1 columns: expected at least 3"},
		{row + "-,1,3\n" + row, "2", "line 5, column 1: the time is missing"},
		{row + row, "2", "line 5, column 1: time goes back from 0.004 to 0.001"},
		{"1,1,1\n1,2,2\n1,3,3\n1,4,1\n", "2", "does not count time"},
		{"1,5,1\n2,5,2\n3,5,3\n4,5,1\n", "2", "column 2 stays at 5"},
		{row, "2", "column 2 has 2 teeth in all, and a turn of 60-2 has 58"},
		{row + strings.Repeat("x", 300<<10) + "\n", "2", "line 5: is longer than"},
	} {
		_, err := measure([]byte(c.text), "60-2", capture.Request{Time: "1", Crank: c.crank, Cams: []string{"3"}})
		require.ErrorContains(t, err, c.says, "%.60q", c.text)
		require.NotContains(t, err.Error(), "\n")
	}
	_, err := measure([]byte("Sample,a,b\n"+row), "60-2", columns(1))
	requireTry(t, err, fault.Try{Say: fault.Rate})
}

// A capture that grows between its two readings is no capture.
func TestChangedBetweenReadings(t *testing.T) {
	text := "s,V,V\n0.001,1,2\n0.002,3,1\n0.003,1,2\n0.004,2,4\n"
	s, err := capture.Look(strings.NewReader(text), columns(1))
	require.NoError(t, err)
	_, err = capture.Time(strings.NewReader(text+"0.005,1,1\n"), s)
	require.ErrorContains(t, err, "4 rows when it was first read and 5 now")
}

// failing is a disk that fails after some bytes.
type failing struct{ left int }

func (f *failing) Read(p []byte) (int, error) {
	if f.left == 0 {
		return 0, fmt.Errorf("the disk is broken")
	}
	n := min(f.left, len(p), 18)
	for i := range n {
		p[i] = "0,1,2\n1,2,1\n2,1,2\n"[i]
	}
	f.left -= n
	return n, nil
}

func TestReadErrorsAreNotTheEnd(t *testing.T) {
	for _, left := range []int{0, 18, 180} {
		_, err := capture.Look(&failing{left}, columns(1))
		require.ErrorContains(t, err, "the disk is broken")
	}
}
