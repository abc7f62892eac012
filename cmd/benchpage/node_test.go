package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/bench"
	"evendrop/tdc/job/jobtest"
)

// exchange is a request and what a core said to it.
type exchange struct {
	Request  bench.Request   `json:"request"`
	Response json.RawMessage `json:"response"`
}

// exchanges is the requests about a folder's job, answered here.
func exchanges(t *testing.T, folder string, requests ...bench.Request) (list []exchange) {
	t.Helper()
	open := bench.Request{Action: bench.Open}
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(folder, e.Name()))
		require.NoError(t, err)
		open.Files = append(open.Files, bench.File{Name: e.Name(), Text: string(data)})
	}
	c := &bench.Core{Version: tested}
	for _, r := range append([]bench.Request{open}, requests...) {
		text, err := json.Marshal(r)
		require.NoError(t, err)
		list = append(list, exchange{r, c.Do(text)})
	}
	return list
}

const tested = "evendrop (test)"

// The core says the same as WebAssembly: of examples and invented jobs, opened, judged, typed
// into and exported.
func TestSameUnderNode(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not here, which runs WebAssembly: the core as WebAssembly is not compared")
	}
	typed := []bench.Request{
		{Action: bench.MarksOf}, {Action: bench.HistoryOf, Most: 2}, {Action: bench.Expect, Line: "20"}, {Action: bench.Type, Line: "20 1.5"}, {Action: bench.Type, Line: "undo"},
		{Action: bench.Type, Line: "look"}, {Action: bench.Export},
	}
	var all [][]exchange
	for _, example := range []string{"builder", "diagnostician"} {
		all = append(all, exchanges(t, filepath.Join("..", "..", "examples", example), append(typed, bench.Request{Action: bench.Sheet}, bench.Request{Action: bench.Details})...))
	}
	jobs := 200
	if testing.Short() {
		jobs = 20
	}
	for seed := range jobs {
		folder := filepath.Join(t.TempDir(), "job")
		require.NoError(t, jobtest.Jobs().Example(seed).Write(folder))
		requests := typed[:1]
		if seed%10 == 0 {
			requests = append(typed[:len(typed):len(typed)], bench.Request{Action: bench.Sheet})
		}
		all = append(all, exchanges(t, folder, requests...))
	}
	core, err := buildCore(tested)
	require.NoError(t, err)
	dir := t.TempDir()
	exchanges, err := json.Marshal(all)
	require.NoError(t, err)
	for name, data := range map[string][]byte{"core.wasm": unpacked(t, core.packed), "runner.js": []byte(core.runner), "exchanges.json": exchanges} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), data, 0o600))
	}
	said, err := exec.Command(node, "testdata/same.js", filepath.Join(dir, "core.wasm"), filepath.Join(dir, "runner.js"), filepath.Join(dir, "exchanges.json")).CombinedOutput()
	t.Logf("%s", strings.TrimSpace(string(said)))
	require.NoError(t, err)
}
