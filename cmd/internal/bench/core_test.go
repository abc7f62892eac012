package bench

import (
	"encoding/json"
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
