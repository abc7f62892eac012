package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// program is the core as WebAssembly, with what runs it.
type program struct {
	packed  []byte // gzip, the same for the same source
	size    int    // unpacked
	runner  string // wasm_exec.js of the toolchain that built it
	version string
}

// buildCore builds the core with the toolchain at hand.
func buildCore(version string) (program, error) {
	dir, err := os.MkdirTemp("", "benchpage")
	if err != nil {
		return program{}, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "core.wasm")
	c := exec.Command("go", slices.Concat([]string{"build", "-trimpath", "-buildvcs=false"}, compiled,
		[]string{"-ldflags=-s -w -buildid= -X 'main.version=" + version + "'", "-o", file, "evendrop/cmd/benchpage/core"})...)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "CGO_ENABLED=0", "GOWASM=")
	if said, err := c.CombinedOutput(); err != nil {
		return program{}, fmt.Errorf("the core cannot be built: %w\n%s", err, said)
	}
	wasm, err := os.ReadFile(file)
	if err != nil {
		return program{}, err
	}
	p := program{size: len(wasm), version: version}
	if p.packed, err = pack(wasm); err != nil {
		return p, err
	}
	p.runner, err = runner()
	return p, err
}

// compiled is how the core is compiled: without inlining it is a tenth smaller as it is
// packed; but for what is inlined in the fit, which is as fast then as it was.
var compiled = []string{
	"-gcflags=all=-l", "-gcflags=math=", "-gcflags=evendrop/geometry=", "-gcflags=evendrop/fit/...=", "-gcflags=evendrop/tdc/adjust/...=",
	"-gcflags=evendrop/tdc/look=",
}

// pack is data as gzip, with nothing of when or where it was made.
func pack(data []byte) ([]byte, error) {
	var packed bytes.Buffer
	w, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err == nil {
		_, err = w.Write(data)
	}
	if err == nil {
		err = w.Close()
	}
	return packed.Bytes(), err
}

// runner is what the toolchain gives to run its WebAssembly.
func runner() (string, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("go env GOROOT: %w", err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	return string(text), err
}
