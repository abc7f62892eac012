package class

import (
	"os"
	"path/filepath"

	"evendrop/cmd/internal/answer/rehearse"
	"evendrop/cmd/internal/usage"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// Write writes jobs, sheets and key, and then says so: all or none. An old key never
// stands beside new jobs, nor a new one beside old ones. An error is of a place in which a
// file is that may not be overwritten, of a larger class there, of a folder or file that
// cannot be written, or say's.
func (c Class) Write(replace bool, say func() error) error {
	open, secret, err := c.files()
	if err != nil {
		return err
	}
	if err := c.left(); err != nil {
		return err
	}
	for _, f := range append(open, secret...) {
		if err := f.Free(replace); err != nil {
			return err
		}
	}
	var together disk.Together
	for _, f := range append(open, secret...) {
		if err := together.MakeFolder(filepath.Dir(f.Path)); err != nil {
			return err
		}
	}
	for _, f := range open {
		together.Write(f.Path, f.Data, replace)
	}
	for _, f := range secret {
		together.WriteAfter(f.Path, f.Data, replace)
	}
	return together.DoneWith(say)
}

// files is what the class gets, and what it does not.
func (c Class) files() (open, secret []rehearse.File, err error) {
	for _, e := range c.engines {
		answer, err := e.Answer()
		if err != nil {
			return nil, nil, err
		}
		open = append(open, e.Files()...)
		secret = append(secret, rehearse.File{Path: e.AnswerFile, Marker: rehearse.PracticeAnswer, Data: answer})
	}
	sheets, err := c.sheets()
	open = append(open, rehearse.File{Path: c.worksheet(), Marker: rehearse.ClassPage, Data: sheets})
	secret = append(secret, rehearse.File{Path: c.keyPage(), Marker: rehearse.ClassPage, Data: c.whole()})
	for _, f := range open {
		if filepath.Dir(f.Path) == filepath.Clean(c.key) {
			return nil, nil, usage.Errorf("--answer %s: the jobs themselves are written there: choose another folder", c.key)
		}
	}
	return open, secret, err
}

// left refuses a folder in which a larger class would be left in part: its engines have
// another key.
func (c Class) left() error {
	next := len(c.engines) + 1
	for _, path := range []string{jobIn(c.folder, next), answerIn(c.key, next)} {
		if _, err := os.Lstat(path); err == nil {
			return &source.Error{File: path, Problem: "is of a larger class: choose another folder, or delete that class first"}
		}
	}
	return nil
}
