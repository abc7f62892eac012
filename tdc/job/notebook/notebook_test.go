package notebook_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/notebook"
	"evendrop/tdc/job/sheet"
)

// openNotebook opens a notebook on a file that holds text, or on none.
func openNotebook(t *testing.T, text string) (n *notebook.Notebook, path, says string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "r.csv")
	if text != "" {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	}
	n, says, err := notebook.Open(path, sheet.Depths, bench(), "mm")
	require.NoError(t, err)
	return n, path, says
}

func bench() evidence.Setup {
	return evidence.Setup{Protractor: evidence.DefaultProtractor(), Gauge: evidence.DefaultGauge(evidence.Dial)}
}

func content(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

// A file keeps its header, separator, decimals, comments, byte order mark and line
// ends, and gets a column only when a reading needs it.
func TestAddKeepsTheFilesOwnForm(t *testing.T) {
	forward, back := sheet.Entry{Angle: "342,5", Depth: "3.29", Turn: evidence.Forward}, sheet.Entry{Angle: "11.8", Depth: "0,70", Turn: evidence.Backward}
	noted := sheet.Entry{Angle: "1", Depth: `0.13"`, Turn: evidence.Forward, Note: `# loose, "maybe"`}
	for _, c := range []struct {
		name, before string
		entry        sheet.Entry
		after        string
	}{
		{"none", "", forward, "angle,depth,turn,sweep,note\n342.5,3.29,forward,,\n"},
		{"comments alone", "# mine", forward, "# mine\nangle,depth,turn,sweep,note\n342.5,3.29,forward,,\n"},
		{"header alone", "angle,depth\n", forward, "angle,depth\n342.5,3.29\n"},
		{"no line end", "angle,depth\n340,4", forward, "angle,depth\n340,4\n342.5,3.29\n"},
		{"semicolons and commas", "\ufeffangle;depth;turn\r\n340;4,5;forward\r\n# c\r\n", back,
			"\ufeffangle;depth;turn\r\n340;4,5;forward\r\n# c\r\n11,8;0,70;backward\r\n"},
		{"semicolons and points", "depth;angle\n4.5;340\n", forward, "depth;angle\n4.5;340\n3.29;342.5\n"},
		{"semicolons, nothing to go by", "depth;angle\n", forward, "depth;angle\n3.29;342,5\n"},
		{"tabs", "angle\tdepth\tnote\n340\t4\t\n", forward, "angle\tdepth\tnote\n340\t4\t\n342,5\t3.29\t\n"},
		{"a turn column is added", "# c\nangle,depth\n340,4\n\n# d\n341,\"3.9\"\n", back,
			"# c\nangle,depth,turn\n340,4,\n\n# d\n341,\"3.9\",\n11.8,0.70,backward\n"},
		{"a set column is added", "angle,depth,turn,note\n340,4,,\n", sheet.Entry{Angle: "30", Depth: "3", Turn: evidence.Forward, Set: 2},
			"angle,depth,turn,note,set\n340,4,,,\n30,3,forward,,2\n"},
		{"a set column is there", "angle;set;depth\n340;;4\n341;2;4\n", sheet.Entry{Angle: "30", Depth: "3", Turn: evidence.Forward, Set: 2},
			"angle;set;depth\n340;;4\n341;2;4\n30;2;3\n"},
		{"set 1 is written where there is a column", "angle,depth,set\n340,4,\n", forward, "angle,depth,set\n340,4,\n342.5,3.29,1\n"},
		{"old line ends", "angle,depth\r340,4\r", forward, "angle,depth\r340,4\r342.5,3.29\r"},
		{"mixed line ends stay", "angle,depth\n340,4\r\n", forward, "angle,depth\n340,4\r\n342.5,3.29\r\n"},
		{"a note in quotes", "angle,depth,note\n340,4,\n", noted, "angle,depth,note\n340,4,\n1,\"0.13\"\"\",\"loose, \"\"maybe\"\"\"\n"},
		{"a note first is no comment", "note,angle,depth\n,340,4\n", noted, "note,angle,depth\n,340,4\n\"loose, \"\"maybe\"\"\",1,\"0.13\"\"\"\n"},
	} {
		n, path, _ := openNotebook(t, c.before)
		before, err := n.Readings()
		require.NoError(t, err, c.name)
		after, err := n.Add(c.entry)
		require.NoError(t, err, c.name)
		require.Equal(t, c.after, content(t, path), c.name)
		require.Len(t, after, len(before)+1, c.name)
		last := after[len(before)]
		require.Equal(t, c.entry.Turn, last.Turn, c.name)
		require.Equal(t, evidence.SetOf(c.entry.Set), evidence.SetOf(last.Set), c.name)
		again, err := n.Readings()
		require.NoError(t, err, c.name)
		require.Equal(t, after, again, c.name)
	}
}

// A line that was cut short while it was written becomes a comment; one that may
// have been is doubted; nothing else is touched.
func TestCutShort(t *testing.T) {
	for _, c := range []struct{ before, says, after string }{
		{"angle,depth,turn\n340,4,forward\n342.5,3.", "line 3 was cut short", "angle,depth,turn\n340,4,forward\n# cut short: 342.5,3.\n"},
		{"angle,depth,turn\n340,4,forward\n342.5,3.29,forw", "line 3 was cut short", "angle,depth,turn\n340,4,forward\n# cut short: 342.5,3.29,forw\n"},
		{"angle,depth\r\n340,4\r\n\"34", "line 3 was cut short", "angle,depth\r\n340,4\r\n# cut short: \"34\r\n"},
		{"angle,depth\n3", "line 2 was cut short", "angle,depth\n# cut short: 3\n"},
		{"angle,depth\n340,4\n342.5,3.2", `check that "342.5,3.2" is whole`, ""},
		{"angle,depth", "", ""},
		{"angle,depth\n340,4\n# a com", "", ""},
		{"angle,depth\n340,4\n  ", "", ""},
	} {
		_, path, says := openNotebook(t, c.before)
		if c.says == "" {
			require.Empty(t, says, c.before)
		}
		require.Contains(t, says, c.says, c.before)
		if c.after == "" {
			c.after = c.before
		}
		require.Equal(t, c.after, content(t, path))
	}
}

// A file that is wrong elsewhere is refused, and left alone.
func TestNotebookRefuses(t *testing.T) {
	path := filepath.Join(t.TempDir(), "r.csv")
	const text = "angle,depth\n340,deep\n341,3"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	_, _, err := notebook.Open(path, sheet.Depths, bench(), "mm")
	require.ErrorContains(t, err, "r.csv:2:5")
	require.Equal(t, text, content(t, path))

	n, path, _ := openNotebook(t, "angle,depth\n340,4\n")
	_, err = n.Add(sheet.Entry{Angle: "1000", Depth: "3", Turn: evidence.Forward})
	require.Error(t, err)
	require.Equal(t, "angle,depth\n340,4\n", content(t, path))
}
