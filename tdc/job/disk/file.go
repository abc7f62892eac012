// Package disk reads plain files, and writes files whole or not at all: several together,
// over files that other programs may save at any moment, never through a link that leads
// out of the folder.
package disk

import (
	"bytes"
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
	data, err := readPlain(os.Stat, os.OpenFile, path, missing, text)
	if err != nil {
		return nil, source.Of(path, err)
	}
	return data, nil
}

// Folder is the folder that a job's readings files must stay in.
type Folder string

// FolderOf is the folder of a job file.
func FolderOf(path string) Folder { return Folder(filepath.Dir(path)) }

// Limit is how large a file may be.
type Limit struct {
	Bytes int
	Says  string // of a larger one
}

var text = Limit{source.Most, source.TooLarge}

// Read reads a text file of the Folder, as ReadUpTo does. An error is of a name that leads
// out of it, of no plain file, or of more than 1 MB.
func (f Folder) Read(name string) ([]byte, error) { return f.ReadUpTo(name, text) }

// ReadUpTo reads a file of the Folder. A name that leads out of it, be it through a
// link, is an error; so is anything but a plain file, and what is larger than most.
func (f Folder) ReadUpTo(name string, most Limit) ([]byte, error) {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return nil, fileProblem(err, errNotInFolder)
	}
	defer root.Close()
	return readPlain(root.Stat, root.OpenFile, filepath.FromSlash(name), errNotInFolder, most)
}

var errNotInFolder = errors.New("not found in the job's folder: check the name")

// Anywhere is a Folder whose names may lead out of it.
type Anywhere struct{ Folder }

// Read is that of a Folder without its bounds. An error is of a file that is not there, is
// no plain one, or is too large.
func (f Anywhere) Read(name string) ([]byte, error) { return f.ReadUpTo(name, text) }

// ReadUpTo is that of a Folder without its bounds. An error is of a file that is not there,
// is no plain one, or is larger than most.
func (f Anywhere) ReadUpTo(name string, most Limit) ([]byte, error) {
	return readPlain(os.Stat, os.OpenFile, f.Path(name), errors.New("not found: check the name"), most)
}

// readPlain reads a file, if it is a plain one; missing is what to say of one that is
// not there.
func readPlain(stat func(string) (fs.FileInfo, error), open func(string, int, fs.FileMode) (*os.File, error), name string, missing error, most Limit) ([]byte, error) {
	file, err := openPlain(stat, open, name, os.O_RDONLY)
	if err != nil {
		return nil, fileProblem(err, missing)
	}
	defer file.Close()
	return readAll(file, most)
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
	Problem: "leaves the job's folder: put the file beside the job file and name it from there", Cure: source.Trust,
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

// Cause is what the system says, without the names that it says it of. Another error is
// itself.
func Cause(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return err
}

// ReadAll reads a whole text file; what is larger than 1 MB, or no file, is an ErrUnplain.
func ReadAll(r io.Reader) ([]byte, error) { return readAll(r, text) }

// readAll reads a whole file of at most so many bytes.
func readAll(r io.Reader, most Limit) ([]byte, error) {
	var data bytes.Buffer
	if file, is := r.(fs.File); is {
		if info, err := file.Stat(); err == nil { // which need not be true
			data.Grow(int(min(info.Size(), int64(most.Bytes))) + bytes.MinRead)
		}
	}
	if _, err := data.ReadFrom(io.LimitReader(r, int64(most.Bytes)+1)); err != nil {
		return nil, ErrUnplain(fileProblem(err, errNotInFolder).Error())
	}
	if data.Len() > most.Bytes {
		return nil, ErrUnplain(most.Says)
	}
	return data.Bytes(), nil
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
