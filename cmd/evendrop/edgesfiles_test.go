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

// elements reads a picture with a strict XML parser, and is its elements' names in
// their order, and the text of each element of a name.
func elements(t *testing.T, svg string) (names []string, texts map[string][]string) {
	t.Helper()
	texts = map[string][]string{}
	var open []string
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return names, texts
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			names, open = append(names, token.Name.Local), append(open, token.Name.Local)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 && strings.TrimSpace(string(token)) != "" {
				name := open[len(open)-1]
				texts[name] = append(texts[name], string(token))
			}
		}
	}
}

func texts(t *testing.T, svg string) map[string][]string {
	t.Helper()
	_, found := elements(t, svg)
	return found
}

func TestEdgesPicture(t *testing.T) {
	dir := t.TempDir()
	capture, path := invented(t, dir, "c.csv", 0, 18), filepath.Join(dir, "p.svg")
	code, out, errs := ev(edgesOf(capture, "--picture", path)...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "58 teeth a turn")
	svg, err := os.ReadFile(path)
	require.NoError(t, err)
	found := texts(t, string(svg))
	require.Equal(t, "Sensor signals over crank angle", found["title"][0])
	require.Contains(t, found["desc"][0], "8 turns of 60-2 laid over 0 to 720 crank degrees")
	require.Contains(t, found["desc"][0], "12 edges are marked")
	words := strings.Join(found["text"], "|") + "|"
	require.Contains(t, words, "|1|5|10|15|20|25|30|35|40|45|50|55|1|5|10|15|") // teeth of both turns
	require.Contains(t, words, "column 3")
	first := regexp.MustCompile(`x="([0-9.]+)" y="[0-9.]+">1</text>`).FindAllStringSubmatch(string(svg), -1)
	require.Len(t, first, 2)
	require.NotEqual(t, first[0][1], first[1][1]) // a turn apart
	require.Contains(t, words, "|158|")           // the exhaust's edge at 140, 18 late

	code, out, errs = ev(edgesOf(capture, "--picture", path)...)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, "type --replace to overwrite it")
	code, _, errs = ev(edgesOf(capture, "--picture", path, "--replace")...)
	require.Equal(t, answered, code, errs)
	code, _, errs = ev(edgesOf(capture, "--replace")...)
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
	into := edgesOf(after, "--against", before, "--into", path, "--on", "inlet wheel", "--on", "exhaust wheel")
	code, out, errs := ev(into...)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "58 teeth a turn")
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(data), text))
	require.Equal(t, strings.Count(string(data), "\n"), strings.Count(string(data), "\r\n"))
	j, err := job.Open(path)
	require.NoError(t, err)
	require.Len(t, j.Marks, 2)
	require.Equal(t, "inlet wheel", j.Marks[0].On)
	require.InDelta(t, 18, j.Marks[0].Off.Value, 2*sampled)

	code, out, errs = ev(into...)
	require.Equal(t, failed, code)
	require.Empty(t, out)
	require.Contains(t, errs, `job.toml: what would be added does not fit, and nothing was written: name = "cam of column 3": another mark has this name`)
	again, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, data, again)

	other := filepath.Join(dir, "other.toml")
	require.NoError(t, os.WriteFile(other, []byte(text+"\ncrank_wheel = \"36-1\"\n"), 0o600))
	code, _, errs = ev(edgesOf(after, "--into", other)...)
	require.Equal(t, wrongUse, code)
	require.Contains(t, errs, `other.toml says crank_wheel = "36-1"`)
	picture := filepath.Join(dir, "p.svg")
	code, _, errs = ev(edgesOf(after, "--into", path, "--on", "cam wheel", "--on", "exhaust wheel", "--picture", picture)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, `the drive has no member "cam wheel": it could be "inlet wheel" or "exhaust wheel": write which`)
	require.NoFileExists(t, picture)
	require.NoFileExists(t, path+".tmp")
	code, _, errs = ev(edgesOf(after, "--against", before, "--into", filepath.Join(dir, "none.toml"))...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "none.toml: not found")
}

func TestProgressWaitsASecond(t *testing.T) {
	var said strings.Builder
	now := time.Unix(0, 0)
	p := shownFile{
		passingLine: passingLine{to: &said, now: func() time.Time { return now }, last: now},
		ReadCloser:  io.NopCloser(strings.NewReader(strings.Repeat("x", 100))), size: 100, name: "c.csv",
	}
	some := make([]byte, 40)
	read := func() { _, _ = p.Read(some) }
	read()
	require.Empty(t, said.String())
	now = now.Add(time.Second + 1)
	read()
	require.Equal(t, "\rc.csv: 80 % read", said.String())
	read()
	p.wipe()
	require.Equal(t, "\rc.csv: 80 % read\r\033[K", said.String())
}

// A healthy engine's places, kept, tell how far another's edges are from them.
func TestEdgesAgainstKnownGood(t *testing.T) {
	dir := t.TempDir()
	healthy, doubtful := invented(t, dir, "healthy.csv", 0, 0), invented(t, dir, "doubtful.csv", 18, 0)
	code, marks, errs := ev(edgesOf(healthy, "--marks", "--on", "inlet wheel", "--on", "exhaust wheel")...)
	require.Equal(t, answered, code, errs)
	readings := "angle,depth\n340,3.2\n345,1.8\n350,0.8\n10,0.8\n15,1.8\n20,3.2\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	path, known := filepath.Join(dir, "job.toml"), filepath.Join(dir, "known.toml")
	text := "[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n\n[drive]\nlayout = \"two cams\"\n\n" + marks
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	code, _, errs = ev("keep", path, known)
	require.Equal(t, answered, code, errs)
	// nobody said what they should be: measured, and called nothing
	code, out, errs := ev("find", path, "--as", "json", "--strict")
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, `"off_deg": null`)
	require.NotContains(t, out, "outside")
	code, out, errs = ev("find", path)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "cam edge 1, column 3 rising, after the gap     40.00      0.19")
	require.Contains(t, answerOf(t, "find", path), "they are not judged")
	page := filepath.Join(dir, "p.html")
	code, _, errs = ev("find", path, "--page", page)
	require.Equal(t, answered, code, errs)
	html, err := os.ReadFile(page)
	require.NoError(t, err)
	require.Contains(t, string(html), "Marks only measured")
	require.Equal(t, 12, strings.Count(string(html), ", after the gap"))
	code, out, errs = ev("find", path, "--against", known)
	require.Equal(t, answered, code, errs)
	require.Contains(t, unwrapped(out), "No joint has to have moved to explain these marks")
	code, out, errs = ev("recheck", path, path)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "Unchanged: cam edge 1, column 3 rising, after the gap")

	code, out, errs = ev(edgesOf(doubtful, "--against", known, "--as", "json")...)
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
	require.Contains(t, out, "does not state speed or leads")

	other, err := os.ReadFile(known)
	require.NoError(t, err)
	require.Regexp(t, `off = (600|599\.99)`, string(other)) // of two turns, as it was measured
	require.NoError(t, os.WriteFile(known, []byte(strings.ReplaceAll(string(other), ", after the gap", "")), 0o600))
	code, _, errs = ev(edgesOf(doubtful, "--against", known)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "has no mark named as the places of edges are")
	code, _, errs = ev(edgesOf(doubtful, "--against", path)...)
	require.Equal(t, failed, code)
	require.Contains(t, errs, "this is a job file")
}

// With the protractor's TDC known, the tooth that stood at the sensor tells where
// the gap stands: 14 pitches of 6 deg before the 15th tooth (facts of a 60-2 wheel).
// A healthy engine's is kept, and another held against it.
func TestEdgesGapAgainstTDC(t *testing.T) {
	dir := t.TempDir()
	capture := invented(t, dir, "c.csv", 0, 0)
	readings := "angle,depth\n343,3.2\n348,1.8\n353,0.8\n13,0.8\n18,1.8\n23,3.2\n" // TDC at 3
	require.NoError(t, os.WriteFile(filepath.Join(dir, "r.csv"), []byte(readings), 0o600))
	text := "[gauge]\nlash = 0\nlash_known_to = 0\n[[cylinder]]\nnumber = 1\nreadings = \"r.csv\"\n\n[drive]\nlayout = \"two cams\"\n"
	measured := func(name, head string, tooth, at string) (gap, u float64) {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(head+text), 0o600))
		code, _, errs := ev(edgesOf(capture, "--into", path, "--tooth", tooth, "--at", at)...)
		require.Equal(t, answered, code, errs)
		code, out, errs := ev("find", path, "--as", "json")
		require.Equal(t, answered, code, errs)
		var got struct {
			Marks []struct {
				Name        string
				Read        float64  `json:"read_deg"`
				Off         *float64 `json:"off_deg"`
				Uncertainty float64  `json:"standard_uncertainty_deg"`
			}
		}
		require.NoError(t, json.Unmarshal([]byte(out), &got))
		require.Len(t, got.Marks, 13)
		require.Equal(t, "crank wheel gap at the sensor", got.Marks[0].Name)
		require.Nil(t, got.Marks[0].Off)
		return got.Marks[0].Read, got.Marks[0].Uncertainty
	}
	gap, u := measured("first.toml", "", "1", "279")
	require.InDelta(t, -84, gap, 1e-3) // a hundredth of what the readings know
	require.Greater(t, u, 0.1)         // the protractor's, read to half a degree
	later, _ := measured("later.toml", "", "15", "3")
	require.InDelta(t, gap, later, 1e-9)
	halves, _ := measured("halves.toml", "[protractor]\nwraps = 360\ncounts = \"with\"\n", "15", "3 ATDC")
	require.InDelta(t, gap, halves, 1e-9)

	known := filepath.Join(dir, "known.toml")
	code, _, errs := ev("keep", filepath.Join(dir, "first.toml"), known)
	require.Equal(t, answered, code, errs)
	moved := filepath.Join(dir, "moved.toml")
	measured("moved.toml", "", "15", "15")
	code, out, errs := ev("find", moved, "--against", known)
	require.Equal(t, answered, code, errs)
	require.Contains(t, out, "crank wheel gap", out)
	require.Contains(t, unwrapped(out), "-72.0 -84.0 +12.0")

	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"--tooth", "3"}, "--tooth and --at go together"},
		{[]string{"--at", "3"}, "--tooth and --at go together"},
		{[]string{"--tooth", "3", "--at", "3"}, "--tooth goes with --into"},
		{[]string{"--tooth", "59", "--at", "3", "--into", moved}, "expected a tooth of the 60-2 wheel, 1 to 58"},
		{[]string{"--tooth", "-1", "--at", "3", "--into", moved}, "--tooth -1: expected a whole number from 1 up, such as 1"},
		{[]string{"--tooth", "1", "--at", "x", "--into", moved}, "--at \"x\": expected an angle"},
		{[]string{"--tooth", "1", "--at", "900", "--into", moved}, "--at 900 is not on a protractor that wraps at 360"},
	} {
		code, out, errs := ev(edgesOf(capture, c.args...)...)
		require.Equal(t, wrongUse, code, errs)
		require.Empty(t, out)
		require.Contains(t, errs, c.says)
	}
}

// Edges of a cam that moved by different amounts are a mark each.
func TestEdgesThatDoNotAgree(t *testing.T) {
	dir := t.TempDir()
	before, after := invented(t, dir, "before.csv", 0, 0), invented(t, dir, "after.csv", 18, 0)
	data, err := os.ReadFile(after)
	require.NoError(t, err)
	lines := strings.Split(string(data), "\n")
	for i := range lines[3:] {
		if angle := i % 7200; angle >= 1280 && angle < 1580 && i < 34000 { // the first lobe ends 30 deg sooner
			fields := strings.Split(lines[i+3], ";")
			fields[2] = "0"
			lines[i+3] = strings.Join(fields, ";")
		}
	}
	require.NoError(t, os.WriteFile(after, []byte(strings.Join(lines, "\n")), 0o600))
	code, out, errs := ev(edgesOf(after, "--against", before, "--marks")...)
	require.Equal(t, answered, code, errs)
	require.Equal(t, 6+1, strings.Count(out, "[[mark]]"), out)
	require.Contains(t, out, `name = "cam of column 3, edge 2 falling"`)
	require.Contains(t, out, "off = -12.0")
	require.Contains(t, out, `name = "cam of column 4"`)
}

// The example's captures are of its story: the flywheel, which carries the crank
// wheel, stands 2.8 - 0.1 deg later than on the healthy engine and the cam 0.5 - 0.1,
// so the cam comes 2.3 deg early by the wheel. In the job it says the same as the
// marks read on the protractor.
func TestEdgesOfTheExample(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"job.toml", "cylinder-1.csv", "capture.csv", "capture-healthy.csv"} {
		data, err := os.ReadFile(filepath.Join(filepath.Dir(diagnostician), name))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o600))
	}
	args := []string{"--crank", "Crank", "--cam", "Cam", "--wheel", "60-2", "--into", filepath.Join(dir, "job.toml"), "--as", "json"}
	args = append(args, "--against", filepath.Join(dir, "capture-healthy.csv"))
	code, out, errs := ev(append([]string{"edges", filepath.Join(dir, "capture.csv")}, args...)...)
	require.Equal(t, answered, code, errs)
	var got struct {
		Against struct {
			Shifts []struct {
				Shift    float64 `json:"shift_deg"`
				Expanded float64 `json:"expanded_uncertainty_deg"`
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Len(t, got.Against.Shifts, 6)
	for _, s := range got.Against.Shifts {
		require.InDelta(t, -2.3, s.Shift, s.Expanded)
	}
	code, out, errs = ev("find", filepath.Join(dir, "job.toml"))
	require.Equal(t, answered, code, errs)
	out = unwrapped(out)
	require.Contains(t, out, "which points to flywheel on crank, 2.")
	require.Contains(t, out, "cam of column 3 -2.36 0.29")
}
