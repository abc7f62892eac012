package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
)

// system is what a program runs on.
type system struct{ os, processor, name string }

// systems are those that a release is made for, by the names that people know.
var systems = []system{
	{"linux", "amd64", "linux-intel"}, {"linux", "arm64", "linux-arm"}, {"darwin", "amd64", "mac-intel"},
	{"darwin", "arm64", "mac-apple"}, {"windows", "amd64", "windows-intel"}, {"windows", "arm64", "windows-arm"},
}

// program is what the program's file is called.
func (s system) program() string {
	if s.os == "windows" {
		return "evendrop.exe"
	}
	return "evendrop"
}

// build is the program for a system. Nothing of when or where it was built is in it.
func (s system) build(source string) ([]byte, error) {
	dir, err := os.MkdirTemp("", "release")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, s.program())
	c := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid= -X 'main.source="+source+"'", "-o", file, "./cmd/evendrop")
	c.Env = append(os.Environ(), "GOOS="+s.os, "GOARCH="+s.processor, "CGO_ENABLED=0", "GOFLAGS=")
	if said, err := c.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("%s cannot be built: %w\n%s", s.name, err, said)
	}
	return os.ReadFile(file)
}

// zip writes evendrop-NAME.zip: a folder evendrop with the program, the examples and the
// README.
func (s system) zip(dir, source string) error {
	program, err := s.build(source)
	if err != nil {
		return err
	}
	packed, err := s.packed(os.DirFS("."), program)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "evendrop-"+s.name+".zip"), packed, 0o644)
}

// packed is the zip of a program, with the README and the examples of a source.
func (s system) packed(source fs.FS, program []byte) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	if err := add(w, s.program(), program, 0o755); err != nil {
		return nil, err
	}
	for _, root := range []string{"README.md", "examples"} {
		if err := addAll(w, source, root); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return out.Bytes(), err
}

// addAll adds a file, or all of a folder in the order of their names.
func addAll(w *zip.Writer, source fs.FS, root string) error {
	return fs.WalkDir(source, root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(source, path)
		if err != nil {
			return err
		}
		return add(w, path, data, 0o644)
	})
}

// add adds a file without a time, so that the same files make the same zip.
func add(w *zip.Writer, name string, data []byte, mode fs.FileMode) error {
	h := &zip.FileHeader{Name: "evendrop/" + name, Method: zip.Deflate}
	h.SetMode(mode)
	into, err := w.CreateHeader(h)
	if err != nil {
		return err
	}
	_, err = into.Write(data)
	return err
}

// goRun runs a program of ours.
func goRun(args ...string) error {
	c := exec.Command("go", append([]string{"run"}, args...)...)
	c.Stdout, c.Stderr = os.Stdout, os.Stderr
	return c.Run()
}
