package toml

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

func cylinderOf(t *testing.T, text string) (*Document, *Table) {
	t.Helper()
	d, err := Parse([]byte(text), "cylinder", "mark")
	require.NoError(t, err, text)
	return d, d.Tables("cylinder")[0]
}

// An item comes into a list however it is written, and goes again.
func TestAppendAndWithdraw(t *testing.T) {
	for _, c := range []struct{ before, after, without string }{
		{
			"[[cylinder]]\nnumber = 1 # the front\n\n[[mark]]\n",
			"[[cylinder]]\nnumber = 1 # the front\nstops = [[3, 4]]\n\n[[mark]]\n",
			"[[cylinder]]\nnumber = 1 # the front\n# undone:\n# stops = [[3, 4]]\n\n[[mark]]\n",
		}, {
			"[[cylinder]]\nstops = [[1, 2]] # by hand\nnumber = 1\n",
			"[[cylinder]]\nstops = [[1, 2], [3, 4]] # by hand\nnumber = 1\n",
			"[[cylinder]]\n# undone: stops [3, 4]\nstops = [[1, 2]] # by hand\nnumber = 1\n",
		}, {
			"[[cylinder]]\nstops = [[\"1 BTDC\", 2], ]",
			"[[cylinder]]\nstops = [[\"1 BTDC\", 2],  [3, 4]]",
			"[[cylinder]]\n# undone: stops [3, 4]\nstops = [[\"1 BTDC\", 2]]",
		}, {
			"[[cylinder]]\nstops = [\n\t[1, 2], # ], first\n\t# [9, 9],\n]\nnumber = 1\n",
			"[[cylinder]]\nstops = [\n\t[1, 2], # ], first\n\t# [9, 9],\n\t[3, 4],\n]\nnumber = 1\n",
			"[[cylinder]]\nstops = [\n\t[1, 2], # ], first\n\t# [9, 9],\n# undone: \t[3, 4],\n]\nnumber = 1\n",
		}, {
			"[[cylinder]]\r\nstops = [\r\n  [1, 2] # last\r\n]\r\n",
			"[[cylinder]]\r\nstops = [\r\n  [1, 2], # last\r\n  [3, 4],\r\n]\r\n",
			"[[cylinder]]\r\nstops = [\r\n  [1, 2], # last\r\n# undone:   [3, 4],\r\n]\r\n",
		}, {
			"[[cylinder]]\nnumber = 1",
			"[[cylinder]]\nnumber = 1\nstops = [[3, 4]]\n",
			"[[cylinder]]\nnumber = 1\n# undone:\n# stops = [[3, 4]]\n",
		},
	} {
		d, table := cylinderOf(t, c.before)
		after, err := d.Append(table, "stops", "[3, 4]")
		require.NoError(t, err)
		require.Equal(t, c.after, string(after), "%q", c.before)
		d, table = cylinderOf(t, string(after))
		stops, _ := table.Get("stops")
		last := stops.Items[len(stops.Items)-1]
		require.Equal(t, []string{"3", "4"}, []string{last.Items[0].Text, last.Items[1].Text})
		without, there := d.Withdraw(table, "stops", "[3, 4]", "undone")
		require.True(t, there)
		require.Equal(t, c.without, string(without), "%q", c.before)
		d, table = cylinderOf(t, string(without))
		_, there = d.Withdraw(table, "stops", "[3, 4]", "undone")
		require.False(t, there)
	}
}

func TestAppendRefuses(t *testing.T) {
	d, table := cylinderOf(t, "[[cylinder]]\nstops = \"stops.csv\"\n")
	_, err := d.Append(table, "stops", "[3, 4]")
	require.ErrorContains(t, err, "is not a list")
}

// The first of several items goes with the comma behind it.
func TestWithdrawFirst(t *testing.T) {
	d, table := cylinderOf(t, "[[cylinder]]\nstops = [[3, 4], [1, 2]]\n")
	without, there := d.Withdraw(table, "stops", "[3, 4]", "undone")
	require.True(t, there)
	require.Equal(t, "[[cylinder]]\n# undone: stops [3, 4]\nstops = [[1, 2]]\n", string(without))
}

// A key comes below the table's others, never among those of the next.
func TestSet(t *testing.T) {
	d, table := cylinderOf(t, "[[cylinder]]\nnumber = 1\nnote = \"\"\"\na ] # b\n\"\"\"  # end\n# of what follows\n[[mark]]\nnumber = 2\n")
	require.Equal(t, "[[cylinder]]\nnumber = 1\nnote = \"\"\"\na ] # b\n\"\"\"  # end\nthrow = 180\n# of what follows\n[[mark]]\nnumber = 2\n", string(d.Set(table, "throw", "180")))
}

// A table that is struck stays as comments, and nothing else does.
func TestStrike(t *testing.T) {
	d, err := Parse([]byte("[[mark]]\nname = \"a\" # one\n\n# said\nread = [\n  1,\n]\n\n[[mark]]\nname = \"b\"\n"), "mark")
	require.NoError(t, err)
	struck := d.Strike(d.Tables("mark")[0], "undone")
	require.Equal(t, "# undone:\n# [[mark]]\n# name = \"a\" # one\n\n# said\n# read = [\n#   1,\n# ]\n\n[[mark]]\nname = \"b\"\n", string(struck))
}

// FuzzEdit adds an item to a list in any document, and takes it out again: every other
// value stays what it was.
func FuzzEdit(f *testing.F) {
	for _, file := range []string{"diagnostician/job.toml", "builder/job.toml"} {
		data, err := os.ReadFile(filepath.Join("..", "..", "..", "examples", file))
		require.NoError(f, err)
		f.Add(string(data))
	}
	f.Add("[[cylinder]]\nstops = [[1, 2]]\n[[cylinder]]\nstops = [\n[1, '''a]\n''']# x\n,\n]")
	f.Add("[[cylinder]]\nstops=[[] \n,]")
	f.Add("[[cylinder]]\nstops = [\n[1, 2] # a, b\n, # c\n]")
	f.Add("[[cylinder]]\nstops = [\n[1, 2] # a, b\n]")
	f.Add("[[cylinder]]\na.stops = 1\nb = {c = [{}, \"\\\"]\"]}\r\n[x]\n")
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) || strings.HasPrefix(text, "\ufeff") {
			return // refused before
		}
		d, err := Parse([]byte(text), "cylinder")
		if err != nil || len(d.Tables("cylinder")) == 0 {
			return
		}
		before, err := outlined([]byte(text))
		if err != nil {
			return
		}
		after, err := d.Append(d.Tables("cylinder")[0], "stops", "[3.25, 4]")
		if err != nil {
			return
		}
		lines, err := outlined(after)
		require.NoError(t, err, "%s", after)
		more := 0
		for key, value := range lines {
			if _, had := before[key]; !had {
				require.True(t, strings.HasPrefix(key, "cylinder") || strings.Contains(key, "stops"), "%s = %s", key, value)
				more++
			}
		}
		require.Positive(t, more)
		for key, value := range before {
			require.Equal(t, value, lines[key], key)
		}
		d, err = Parse(after, "cylinder")
		require.NoError(t, err)
		without, there := d.Withdraw(d.Tables("cylinder")[0], "stops", "[3.25, 4]", "undone")
		require.True(t, there)
		again, err := outlined(without)
		require.NoError(t, err, "%s", without)
		require.Equal(t, before, again)
	})
}
