package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"evendrop/tdc/job"
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
	first := regexp.MustCompile(`x="([0-9.]+)" y="[0-9.]+">1</text>`).FindAllStringSubmatch(string(svg), -1)
	require.Len(t, first, 2)
	require.NotEqual(t, first[0][1], first[1][1]) // a turn apart
	require.Contains(t, words, "|158|")           // the exhaust's edge at 140, 18 late

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

func TestEdgesIntoAJob(t *testing.T) {
	dir := t.TempDir()
	before, after := invented(t, dir, "before.csv", 0, 0), invented(t, dir, "after.csv", 18, 0)
	path := filepath.Join(dir, "job.toml")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte("angle,depth\n340,3\n350,0.9\n5,0.3\n15,2\n"), 0o600))
	text := "# mine\r\n[[cylinder]]\r\nnumber = 1\r\nreadings = \"r.csv\"\r\n\r\n[drive]\r\nlayout = \"two cams\" # no line end"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	into := edges(after, "--against", before, "--into", path, "--on", "inlet wheel", "--on", "exhaust wheel")
	code, out, errs := ev(into...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "58 teeth a turn")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(data), text))
	require.Equal(t, strings.Count(string(data), "\n"), strings.Count(string(data), "\r\n"))
	require.Contains(t, string(data), "# name = \"crank wheel gap\"")
	j, err := job.Open(path)
	require.NoError(t, err)
	require.Len(t, j.Marks, 12)
	require.Equal(t, "inlet wheel", j.Marks[0].On)
	require.InDelta(t, 18, j.Marks[0].Off.Value, 2*sampled)

	code, out, errs = ev(into...)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "another mark has this name")
	again, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, data, again)

	code, _, errs = ev(edges(after, "--into", path)...)
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, "--into needs --against")
	code, _, errs = ev(edges(after, "--against", before, "--into", filepath.Join(dir, "none.toml"))...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "none.toml: not found")
}

func TestProgressWaitsASecond(t *testing.T) {
	var said strings.Builder
	now := time.Unix(0, 0)
	p := readingProgress{r: strings.NewReader(strings.Repeat("x", 100)), size: 100, file: "c.csv", to: &said, now: func() time.Time { return now }}
	p.last = now
	some := make([]byte, 40)
	read := func() { _, _ = p.Read(some) }
	read()
	require.Empty(t, said.String())
	now = now.Add(time.Second + 1)
	read()
	require.Equal(t, "\rc.csv: 80 % read", said.String())
	read()
	p.done()
	require.Equal(t, "\rc.csv: 80 % read\r\033[K", said.String())
}

// A healthy engine's places, kept, tell how far another's edges are from them.
func TestEdgesAgainstKnownGood(t *testing.T) {
	dir := t.TempDir()
	healthy, doubtful := invented(t, dir, "healthy.csv", 0, 0), invented(t, dir, "doubtful.csv", 18, 0)
	code, marks, errs := ev(edges(healthy, "--marks", "--places", "--on", "inlet wheel", "--on", "exhaust wheel")...)
	require.Equal(t, answered, code, errs)
	readings := "angle,depth\n340,3.2\n345,1.8\n350,0.8\n10,0.8\n15,1.8\n20,3.2\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	path, known := filepath.Join(dir, "job.toml"), filepath.Join(dir, "known.toml")
	text := "[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n\n[drive]\nlayout = \"two cams\"\n\n" + marks
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	code, _, errs = ev("keep", path, known)
	require.Equal(t, answered, code, errs)
	code, out, errs := ev(edges(doubtful, "--against", known, "--as", "json")...)
	require.Equal(t, answered, code, errs)
	var got struct {
		Against struct {
			Finding string
			Shifts  []struct {
				Channel int
				Shift   float64 `json:"shift_deg"`
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Against.Shifts, 12)
	for _, s := range got.Against.Shifts {
		require.InDelta(t, map[int]float64{3: 18, 4: 0}[s.Channel], s.Shift, 2*sampled)
	}
	require.Contains(t, got.Against.Finding, "One cam alone moved, column 3")
	require.Contains(t, out, "does not tell speed or leads")

	other, err := os.ReadFile(known)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(known, []byte(strings.ReplaceAll(string(other), ", after the gap", "")), 0o600))
	code, _, errs = ev(edges(doubtful, "--against", known)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "has no mark named as the places of edges are")
	code, _, errs = ev(edges(doubtful, "--against", path)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "this is a job file")
}
