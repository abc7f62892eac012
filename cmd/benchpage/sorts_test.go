package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"evendrop/cmd/internal/browser/browsertest"
	"evendrop/cmd/internal/scenes"
)

// tabs are the screens of the page, each with what it shows once it is drawn.
var tabs = [][2]string{
	{"read", `document.querySelector('.work .pad')`},
	{"seen", `document.querySelector('.seen')`},
	{"marks", `document.querySelector('.bars')`},
	{"sheet", `document.getElementById('sheet')?.contentDocument?.querySelector('h1')`},
	{"job", `document.querySelector('.facts')`},
}

// A job of every sort, in inches, in other scripts, with the longest names, with an answer and
// without one: each of its screens can be tapped, and nothing is clipped, at every size.
func TestEverySort(t *testing.T) {
	file := pageFile(t)
	b := browsertest.Start(t, "")
	for _, scene := range scenes.All() {
		t.Run(scene.Name, func(t *testing.T) {
			dir, err := scene.Write(t.TempDir())
			require.NoError(t, err)
			files, err := filepath.Glob(filepath.Join(dir, "*.*"))
			require.NoError(t, err)
			h := at(t, b, file, sizes[0])
			h.pick(files...)
			for _, screen := range tabs {
				h.tap("#tab-" + screen[0])
				h.until(screen[1])
				h.sound(scene.Name + ", " + screen[0])
			}
			require.Empty(t, h.Errors())
		})
	}
}
