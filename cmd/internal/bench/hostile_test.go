package bench_test

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/bench"
)

// zipOf is a zip of files, one after another a name and a text.
func zipOf(t testing.TB, texts ...string) string {
	t.Helper()
	var packed bytes.Buffer
	w := zip.NewWriter(&packed)
	for i := 0; i < len(texts); i += 2 {
		f, err := w.Create(texts[i])
		require.NoError(t, err)
		_, err = f.Write([]byte(texts[i+1]))
		require.NoError(t, err)
	}
	require.NoError(t, w.Close())
	return base64.StdEncoding.EncodeToString(packed.Bytes())
}

// What is no request is an error in words, and the job that is open stays open.
func TestHostileRequests(t *testing.T) {
	files := littleJob()
	c, _ := at(t, files)
	types(t, c, files, reading(-20), reading(-12), reading(12))
	deep := strings.Repeat("[", 100_000)
	for _, request := range []string{
		"", "null", "[]", "1", `"hello"`, "{", `{"action"}`, `{"action": 3}`, `{"action": ""}`, `{"action": "rm"}`, `{"action": "state", "revision": "1"}`,
		`{"action": "open", "files": "x"}`, `{"action": "history", "most": 1e99}`, deep, `{"action": ` + deep, "\x00\xff\xfe", `{"action":"type","line":"a` + "\n" + `"}`,
		`{"action": "type", "line": "340 4\n341 5"}`, `{"action": "type", "line": "` + strings.Repeat("9", 5_000) + `"}`,
		`{"action": "picture", "name": "curve", "n": -1}`, `{"action": "picture", "name": "curve", "n": 99}`, `{"action": "picture", "name": "lean"}`,
		`{"action": "picture", "name": "no such"}`, `{"action": "begin", "lines": ["` + strings.Repeat("x", 5_000) + `"]}`,
	} {
		var out bench.Response
		require.NoError(t, json.Unmarshal(c.Do([]byte(request)), &out))
		require.NotEmpty(t, out.Error, "%.60s", request)
		require.Empty(t, out.Panic, "%.60s", request)
	}
	require.Contains(t, string(c.Do(make([]byte, 100<<20+1))), "more than 100 MB")
	require.Len(t, ask(t, c, bench.Request{Action: bench.StateOf}).State.Readings, 3)
}

// Files with names that lead anywhere else, that are there twice, or too large, and zips with
// such, are refused; so is a job that is none.
func TestHostileFiles(t *testing.T) {
	ok := bench.File{Name: "job.toml", Text: little}
	with := func(f bench.File) bench.Request { return bench.Request{Action: bench.Open, Files: []bench.File{ok, f}} }
	many := []bench.File{ok}
	for i := range 1_000 {
		many = append(many, bench.File{Name: fmt.Sprint(i)})
	}
	for name, c := range map[string]struct {
		request bench.Request
		says    string
	}{
		"up":              {with(bench.File{Name: "../x"}), "is not the name of a file"},
		"up inside":       {with(bench.File{Name: "a/../../x"}), "is not the name of a file"},
		"absolute":        {with(bench.File{Name: "/etc/passwd"}), "is not the name of a file"},
		"backslash":       {with(bench.File{Name: `a\b`}), "is not the name of a file"},
		"drive":           {with(bench.File{Name: "c:x"}), "is not the name of a file"},
		"empty":           {with(bench.File{}), "is not the name of a file"},
		"dot":             {with(bench.File{Name: "."}), "is not the name of a file"},
		"control":         {with(bench.File{Name: "a\nb"}), "is not the name of a file"},
		"long":            {with(bench.File{Name: strings.Repeat("a", 300)}), "is not the name of a file"},
		"twice":           {with(ok), "is there twice"},
		"both":            {with(bench.File{Name: "a", Text: "a", Base64: "YQ=="}), "both as text and in base64"},
		"no base64":       {with(bench.File{Name: "a", Base64: "!"}), "is not whole in base64"},
		"many":            {bench.Request{Action: bench.Open, Files: many}, "at most 1,000 files"},
		"none":            {bench.Request{Action: bench.Open}, "there is no job.toml"},
		"no job":          {bench.Request{Action: bench.Open, Files: []bench.File{{Name: "job.toml", Text: "= ="}}}, "job.toml:1:1"},
		"large":           {bench.Request{Action: bench.Open, Files: []bench.File{{Name: "job.toml", Text: strings.Repeat("#", 1<<20+1)}}}, "1 MB"},
		"leads out":       {bench.Request{Action: bench.Open, Files: []bench.File{{Name: "job.toml", Text: strings.Replace(little, "cylinder-1.csv", "../r.csv", 1)}}}, "job.toml:8"},
		"no cylinder":     {bench.Request{Action: bench.Open, Files: []bench.File{ok}, Cylinder: 7}, "no cylinder 7"},
		"no zip":          {bench.Request{Action: bench.Open, Zip: "aGVsbG8="}, "is not a zip"},
		"no base64 zip":   {bench.Request{Action: bench.Open, Zip: "?"}, "not whole in base64"},
		"zip and files":   {bench.Request{Action: bench.Open, Zip: "aGVsbG8=", Files: []bench.File{ok}}, "not of both"},
		"zip leads out":   {bench.Request{Action: bench.Open, Zip: zipOf(t, "job.toml", little, "../x", "")}, "leads out of the zip"},
		"zip without":     {bench.Request{Action: bench.Open, Zip: zipOf(t, "other.toml", little)}, "has no job.toml"},
		"zip of no job":   {bench.Request{Action: bench.Open, Zip: zipOf(t, "job.toml", "a =")}, "job.toml:1"},
		"a zip that lies": {bench.Request{Action: bench.Open, Zip: zipOf(t, "job.toml", strings.Repeat("#", 2<<20))}, "1 MB"},
	} {
		core := &bench.Core{}
		out := asked(t, core, c.request)
		require.Contains(t, out.Error, c.says, name)
		require.Zero(t, out.Revision, name)
	}
}

// A job that cannot be opened leaves the one that is.
func TestFailedOpenLeavesTheJob(t *testing.T) {
	c, out := at(t, littleJob())
	refused := asked(t, c, bench.Request{Action: bench.Open, Files: []bench.File{{Name: "job.toml", Text: "="}}})
	require.NotEmpty(t, refused.Error)
	require.Equal(t, out.Revision, refused.Revision)
	require.Equal(t, "Bench engine", ask(t, c, bench.Request{Action: bench.StateOf}).Job.Title)
}

// A zip of which a file is damaged says which, and what to do.
func TestDamagedZip(t *testing.T) {
	data, err := base64.StdEncoding.DecodeString(zipOf(t, "bench/job.toml", little, "bench/photo.jpg", "a photo that was sent"))
	require.NoError(t, err)
	data[bytes.Index(data, []byte("bench/photo.jpg"))+len("bench/photo.jpg")+4] ^= 0xff
	out := asked(t, &bench.Core{}, bench.Request{Action: bench.Open, Zip: base64.StdEncoding.EncodeToString(data)})
	require.Equal(t, `"bench/photo.jpg": cannot be read: it is damaged in the zip: zip the folder again`, out.Error)
}

// Another revision than the core's is refused, and nothing is typed.
func TestStale(t *testing.T) {
	files := littleJob()
	c, out := at(t, files)
	ask(t, c, bench.Request{Action: bench.Type, Line: reading(-20), Revision: out.Revision})
	late := asked(t, c, bench.Request{Action: bench.Type, Line: reading(-12), Revision: out.Revision})
	require.True(t, late.Stale)
	require.NotEmpty(t, late.Error)
	require.Len(t, ask(t, c, bench.Request{Action: bench.StateOf}).State.Readings, 1)
}

// A zip's one folder is the job's, photos and what was struck among its files byte for byte.
func TestZipOfAFolder(t *testing.T) {
	photo := string([]byte{0xff, 0xd8, 0xff, 0, '\r', '\n', 0x1a})
	readings := "\ufeffangle,depth\r\n# struck: 1,2\r\n340,4.1\r"
	out := ask(t, &bench.Core{}, bench.Request{Action: bench.Open, Zip: zipOf(t, "bench/job.toml", little, "bench/cylinder-1.csv", readings,
		"bench/photos/a.jpg", photo)})
	files := kept{}
	files.take(out.Changed)
	require.Equal(t, bench.File{Name: "cylinder-1.csv", Text: readings}, files["cylinder-1.csv"])
	require.Equal(t, bench.File{Name: "photos/a.jpg", Base64: base64.StdEncoding.EncodeToString([]byte(photo))}, files["photos/a.jpg"])
	c, _ := at(t, files)
	types(t, c, files, "341 3.9", "strike 1")
	require.Equal(t, "\ufeffangle,depth\r\n# struck: 1,2\r\n# struck: 340,4.1\r341,3.9\r\n", files["cylinder-1.csv"].Text)
	again := kept{}
	again.take(ask(t, &bench.Core{}, bench.Request{Action: bench.Open, Zip: ask(t, c, bench.Request{Action: bench.Export}).Zip}).Changed)
	require.Equal(t, files, again)
	twice := ask(t, c, bench.Request{Action: bench.Export}).Zip
	require.Equal(t, twice, ask(t, c, bench.Request{Action: bench.Export}).Zip, "the same files, the same bytes")
}

// Any lines at all, of what people type and of what they never do, leave a job that opens.
func TestAnyLines(t *testing.T) {
	const seed = 20
	t.Logf("seed %d", seed)
	rng := rand.New(rand.NewPCG(seed, 1))
	pieces := []string{"340 4.1", "5 2", reading(-20), reading(15), "b", "f", "undo", "redo", "k", "m", "fix 1 3 4", "strike 1", "set 2", "stop 333 37", "dwell 1 9",
		"view 351 19", "mark pin; flywheel; 6; 0; 1", "mark", "", "cancel", "lift inlet: 62 1.0", "lobe inlet", "card inlet: 110 ATDC", "piston", "cylinder 2 180", "cylinder 1", "look",
		"list", "plot", "next", "help", "done", "# note", "\u202e 1 2", "\x00", "999999 9", "1e9 1e9", "name = \"x\"", "[[mark]]", "mark a\"b; crank; 1; 2; 3"}
	for range 60 {
		files := littleJob()
		c, _ := at(t, files)
		for range 25 {
			line := pieces[rng.IntN(len(pieces))]
			if rng.IntN(6) == 0 {
				line += " " + pieces[rng.IntN(len(pieces))]
			}
			out := asked(t, c, bench.Request{Action: bench.Type, Line: line})
			files.take(out.Changed)
			for _, action := range []bench.Action{bench.MarksOf, bench.HistoryOf} {
				if rng.IntN(5) == 0 {
					asked(t, c, bench.Request{Action: action, Most: 1})
				}
			}
		}
		at(t, files)
	}
}

// FuzzDo gives a core with a job any request.
func FuzzDo(f *testing.F) {
	f.Add([]byte(`{"action": "type", "line": "340 4.1"}`))
	f.Add([]byte(`{"action": "begin", "lines": ["a", "86", "back"]}`))
	f.Add([]byte(`{"action": "open", "files": [{"name": "job.toml", "text": "[engine]\nstroke = 86"}]}`))
	f.Add([]byte(`{"action": "expect", "line": "12 BTDC", "turn": "backward"}`))
	f.Fuzz(func(t *testing.T, request []byte) {
		files := littleJob()
		c, _ := at(t, files)
		var out bench.Response
		require.NoError(t, json.Unmarshal(c.Do(request), &out))
		require.Empty(t, out.Panic)
	})
}
