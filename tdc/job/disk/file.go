// Package disk reads plain files, and writes files whole or not at all: several together,
// over files that other programs may save at any moment, never through a link that leads
// out of the folder.
package disk

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"evendrop/tdc/job/source"
)

// ReadFile reads a text file of at most 1 MB that the user named; missing is what to
// say of one that is not there. An error is an *Error.
func ReadFile(path string, missing error) ([]byte, error) {
	data, err := readPlain(os.Stat, os.OpenFile, path, missing)
	if err != nil {
		return nil, source.Of(path, err)
	}
	return data, nil
}

// Folder is the folder that a job's readings files must stay in.
type Folder string

// FolderOf is the folder of a job file.
func FolderOf(path string) Folder { return Folder(filepath.Dir(path)) }

// Read reads a readings file of the Folder. A name that leads out of it, be it
// through a link, is an error; so is anything but a plain file.
func (f Folder) Read(name string) ([]byte, error) {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return nil, fileProblem(err, errNotInFolder)
	}
	defer root.Close()
	return readPlain(root.Stat, root.OpenFile, filepath.FromSlash(name), errNotInFolder)
}

var errNotInFolder = errors.New("not found in the job's folder: check the name")

// ReadAnywhere is Read without the bounds of the Folder.
func (f Folder) ReadAnywhere(name string) ([]byte, error) {
	return readPlain(os.Stat, os.OpenFile, f.Path(name), errors.New("not found: check the name"))
}

// readPlain reads a file, if it is a plain one; missing is what to say of one that is
// not there.
func readPlain(stat func(string) (fs.FileInfo, error), open func(string, int, fs.FileMode) (*os.File, error), name string, missing error) ([]byte, error) {
	file, err := openPlain(stat, open, name, os.O_RDONLY)
	if err != nil {
		return nil, fileProblem(err, missing)
	}
	defer file.Close()
	return ReadAll(file)
}

// Path is where a name in the job file leads.
func (f Folder) Path(name string) string {
	name = filepath.FromSlash(name)
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(string(f), name)
}

// ErrLeaves is a name that leads out of the job's folder.
var ErrLeaves = source.Curable{
	Problem: "leaves the job's folder: put the readings file beside the job file and name it from there", Cure: source.Trust,
}

// fileProblem says why a file cannot be read; missing is that it is not there.
func fileProblem(err, missing error) error {
	if problem, ok := errors.AsType[ErrUnplain](err); ok {
		return problem
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return missing
	case errors.Is(err, fs.ErrPermission):
		return errors.New("may not be read: check who may read it")
	case strings.Contains(Cause(err).Error(), "escapes"): // os.Root has no named error for it
		return ErrLeaves
	}
	return fmt.Errorf("cannot be read: %w", Cause(err))
}

// Cause is what the system says, without the names that it says it of.
func Cause(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return err
}

// ReadAll reads a whole file of at most maxFile.
func ReadAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, source.Most+1))
	if err != nil {
		return nil, ErrUnplain(fileProblem(err, errNotInFolder).Error())
	}
	if len(data) > source.Most {
		return nil, ErrUnplain(source.TooLarge)
	}
	return data, nil
}

// IsFolder tells whether a path leads to a folder.
func IsFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// Named is the names of the folder's files that end so, in order.
func (f Folder) Named(end string) []string {
	entries, _ := os.ReadDir(string(f)) // of what cannot be listed there are none
	var names []string
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(filepath.Ext(e.Name()), end) {
			names = append(names, e.Name())
		}
	}
	return names
}

// Missing tells whether the folder is there and a file of that name is not.
func (f Folder) Missing(name string) bool {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return false
	}
	defer root.Close()
	_, err = root.Stat(filepath.FromSlash(name))
	return errors.Is(err, fs.ErrNotExist)
}
