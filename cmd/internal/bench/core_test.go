package bench

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// A core that breaks down says so, and goes on with the files that the page kept.
func TestPanicIsAnAnswer(t *testing.T) {
	c := &Core{open: &sitting{}, revision: 3} // it has no session, and no request counts on that
	var out Response
	require.NoError(t, json.Unmarshal(c.Do([]byte(`{"action": "type", "line": "340 4.1"}`)), &out))
	require.Contains(t, out.Panic, "nil pointer")
	require.Zero(t, out.Revision)
	out = Response{}
	require.NoError(t, json.Unmarshal(c.Do([]byte(`{"action": "state"}`)), &out))
	require.True(t, out.Stale)
	require.Empty(t, out.Panic)
	out = Response{}
	require.NoError(t, json.Unmarshal(c.Do([]byte(`{"action": "open", "files": [{"name": "job.toml", "text": "[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\nstops = [[-31.5, 24]]\n"}]}`)), &out))
	require.Empty(t, out.Error)
	require.Positive(t, out.Revision)
}

// ask does one request, and fails where the core says that it went wrong.
func ask(t *testing.T, c *Core, request string) (out Response) {
	t.Helper()
	require.NoError(t, json.Unmarshal(c.Do([]byte(request)), &out))
	require.Empty(t, out.Error+out.Panic, request)
	return out
}

// The marks that somebody named when a job was begun are lines that ask about them, for buttons.
func TestNamedMarks(t *testing.T) {
	out := ask(t, &Core{}, `{"action": "begin", "lines": ["Invented V8", "3.56 in", "y", "4.06", "5.93", "", "y", "", "", "dial", "y", "damper TDC mark, 1, pin on cam", "n"]}`)
	require.True(t, out.Interview.Done)
	require.Equal(t, []Answer{{"mark damper TDC mark on pulley", "damper TDC mark"}, {"mark locking pin hole on flywheel", "locking pin hole"}, {"mark", "pin on cam"}}, out.Interview.Buttons)
}

// While a lobe is read the next place is none of the piston's: what to read of the lobe stands
// there, and the piston's place is back with the piston.
func TestNoPlaceOfThePistonInALobe(t *testing.T) {
	c := &Core{}
	out := ask(t, c, `{"action": "open", "files": [{"name": "job.toml", "text": "[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\nstops = [[-31.5, 24]]\n[drive]\nlayout = \"two cams\"\n"}]}`)
	typed := func(line string) State {
		out = ask(t, c, fmt.Sprintf(`{"action": "type", "line": %q, "revision": %d}`, line, out.Revision))
		return *out.State
	}
	require.NotNil(t, typed("piston").Next)
	in := typed("lift inlet 1")
	require.Nil(t, in.Next)
	require.Len(t, in.Standing, 2)
	require.Contains(t, in.Standing[0], "TDC")
	require.Contains(t, in.Standing[1], "Of inlet lobe, cylinder 1 read, turning forward, on each side two lifts about")
	for _, lift := range []string{"8 1.04", "20 3", "110 9", "200 3", "206 1.2"} {
		typed(lift)
	}
	lacks := ask(t, c, fmt.Sprintf(`{"action": "marks", "revision": %d}`, out.Revision)).Marks
	require.Len(t, lacks.Notes, 1)
	require.Contains(t, lacks.Notes[0], "inlet lobe, cylinder 1: The checking lift of 1.00 mm was not read across")
	require.NotNil(t, typed("piston").Next)
}
