package main

import (
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// checksums writes SHA256SUMS, as sha256sum -c reads it, of everything in a folder.
func checksums(dir string) error {
	var lines strings.Builder
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		name, err := filepath.Rel(dir, path)
		fmt.Fprintf(&lines, "%x  %s\n", sha256.Sum256(data), filepath.ToSlash(name))
		return err
	})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "SHA256SUMS"), []byte(lines.String()), 0o644)
}
