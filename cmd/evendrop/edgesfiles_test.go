package main

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// texts reads a picture with a strict XML parser: the text of each element of a
// name, in order.
func texts(t *testing.T, svg string) map[string][]string {
	t.Helper()
	found := map[string][]string{}
	var open []string
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return found
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			open = append(open, token.Name.Local)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 && strings.TrimSpace(string(token)) != "" {
				name := open[len(open)-1]
				found[name] = append(found[name], string(token))
			}
		}
	}
}

func TestEdgesPicture(t *testing.T) {
	dir := t.TempDir()
	capture, path := invented(t, dir, "c.csv", 0, 18), filepath.Join(dir, "p.svg")
	code, out, errs := ev(edges(capture, "--picture", path)...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "58 teeth a turn")
	svg, err := os.ReadFile(path)
	require.NoError(t, err)
	found := texts(t, string(svg))
	require.Equal(t, "Sensor signals over crank angle", found["title"][0])
	require.Contains(t, found["desc"][0], "8 turns of 60-2 laid over 0 to 720 crank degrees")
	require.Contains(t, found["desc"][0], "12 edges are marked")
	words := strings.Join(found["text"], "|") + "|"
	require.Contains(t, words, "|1|10|20|30|40|50|1|10|20|30|40|50|") // teeth of both turns
	require.Contains(t, words, "column 3")
	require.Contains(t, words, "|158.0|") // the exhaust's edge at 140, 18 late

	code, out, errs = ev(edges(capture, "--picture", path)...)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "type --replace to overwrite it")
	code, _, errs = ev(edges(capture, "--picture", path, "--replace")...)
	require.Equal(t, answered, code, errs)
	code, _, errs = ev(edges(capture, "--replace")...)
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "--replace goes with --picture")
}
