package bench

import (
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job/sheet"
)

// What would not read well is refused, and the files stay as they were: nothing that is handed
// over is taken on trust, though a session has read it itself.
func TestPaperKeepsNothingThatDoesNotRead(t *testing.T) {
	const (
		text = "[engine]\nstroke = 86\nrod = 146\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n"
		rows = "angle,depth\n340,4.1\n"
	)
	p, _, err := newPaper(map[string][]byte{"job.toml": []byte(text), "r.csv": []byte(rows)}, "job.toml")
	require.NoError(t, err)

	_, err = p.Amend(func([]byte) ([]byte, error) { return []byte(text + "stroke is long\n"), nil })
	require.Error(t, err)
	b := &book{of: p, name: "r.csv", kind: sheet.Depths}
	bad, err := sheet.NewPage("r.csv", []byte("angle,depth\n340,deep\n"), sheet.Depths, "mm")
	require.NoError(t, err)
	_, err = b.keep(bad)
	require.Error(t, err)

	require.Equal(t, text, string(p.files["job.toml"]))
	require.Equal(t, rows, string(p.files["r.csv"]))
	require.Empty(t, p.changed)

	_, err = p.Amend(func([]byte) ([]byte, error) { return []byte(text + "# longer\n"), nil })
	require.NoError(t, err)
	good, err := b.page()
	require.NoError(t, err)
	_, err = b.keep(good)
	require.NoError(t, err)
	require.Equal(t, map[string]bool{"job.toml": true, "r.csv": true}, p.changed)
}
