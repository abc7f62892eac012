package timing_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/wheel/capture"
	"evendrop/tdc/wheel/compare"
	"evendrop/tdc/wheel/fault"
)

// small is a capture of a 4-1 wheel and one cam, short enough to be bent.
func small(header, row string) []byte {
	var b bytes.Buffer
	b.WriteString(header)
	for i := range 60 {
		crank := map[bool]int{true: 5}[i%16 < 12 && i%4 < 2]
		cam := map[bool]int{true: 4}[i%32 < 9]
		fmt.Fprintf(&b, row, i, crank, cam)
	}
	return b.Bytes()
}

// The captures to be bent are whole: 16 rows a turn, from row 0 to 48 in full.
func TestSmallCaptures(t *testing.T) {
	for _, data := range [][]byte{
		small("Time,Crank,Cam\n(s),(V),(V)\n", "%d,%d,%d\n"), small("t;a;b\ns;V;V\n", "0,%03d;%d,5;-%d\r\n"), small("", "%d\t%d\t%d\n"),
	} {
		r, err := measure(data, "4-1", columns(1))
		require.NoError(t, err)
		require.GreaterOrEqual(t, r.TurnsUsed, 2)
		require.NotEmpty(t, r.Edges)
	}
}

// Whatever is in a capture, it is measured or refused in one line of words about
// a line that it has; what is measured can be reckoned with.
func FuzzCapture(f *testing.F) {
	f.Add(small("Time,Crank,Cam\n(s),(V),(V)\n", "%d,%d,%d\n"), uint8(0))
	f.Add(small("t;a;b\ns;V;V\n", "0,%03d;%d,5;-%d\r\n"), uint8(1))
	f.Add(small("", "%d\t%d\t%d\n"), uint8(2))
	f.Add([]byte("1,inf,2\n2,-,>3\n3,∞,***\n4,1,2\n,,\n"), uint8(3))
	for i, cams := range []int{1, 0} {
		e := crankingEngine()
		e.teeth, e.turns = wheelEdges(4, 3), 4.2
		l := analyser()
		l.bounce, l.channels = 5, 1+cams
		list, _ := e.list(l)
		f.Add(list, uint8(8*i))
		f.Add(list, uint8(64+8*i))
		f.Add(list, uint8(64+8*i+3))
	}
	f.Fuzz(func(t *testing.T, data []byte, choice uint8) {
		q := columns(1)
		if choice%8 >= 4 {
			q = capture.Request{Crank: "2", Cams: []string{"3", "1"}, Rate: 1000}
		}
		if choice&8 > 0 {
			q.Cams = nil
		}
		name := []string{"4-1", "90,90,180", "12-1", "60-2", "", "8-1-1", "6x30,90,90", "45,90,45,45,90,45"}[choice%4+choice>>4&4]
		r, err := measure(data, name, q)
		if err != nil {
			requireOneLine(t, err, data)
			return
		}
		require.Positive(t, r.TurnsUsed)
		require.GreaterOrEqual(t, r.TurnsLeftOut, 0)
		require.Positive(t, r.RPMMin)
		require.GreaterOrEqual(t, r.RPMMax, r.RPMMin)
		for _, e := range r.Edges {
			require.Positive(t, e.Count)
			require.True(t, e.Angle >= 0 && e.Angle < r.Period, e)
			require.LessOrEqual(t, r.Period.Degrees(), 720+1e-9)
			require.True(t, e.Deviation >= 0 || math.IsNaN(float64(e.Deviation)) && e.Count == 1, e)
			require.False(t, math.IsNaN(e.Teeth), e)
		}
		if len(r.Edges) > 0 {
			c, err := compare.Compare(r, r)
			require.NoError(t, err)
			for _, s := range c.Shifts {
				require.InDelta(t, 0, s.Angle.Degrees(), 1e-9)
			}
		}
	})
}

func requireOneLine(t *testing.T, err error, data []byte) {
	t.Helper()
	fault, ok := errors.AsType[*fault.Fault](err)
	require.True(t, ok, "%T", err)
	require.NotEmpty(t, fault.Problem)
	require.False(t, strings.ContainsAny(err.Error(), "\n\r\x1b"), "%q", err)
	require.LessOrEqual(t, fault.Line, bytes.Count(data, []byte("\n"))+1)
	require.NotContains(t, err.Error(), "%!")
}
