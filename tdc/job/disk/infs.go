package disk

import (
	"errors"
	"io/fs"
	"path"
	"strings"
)

// InFS is a Folder in a file system that is no disk, such as a zip's, and says the same of
// its files.
type InFS struct {
	FS     fs.FS
	Folder string // a name in FS; "." is its top
}

// Read reads a text file of the folder, as ReadUpTo does. It errs as that does, and beyond
// 1 MB.
func (f InFS) Read(name string) ([]byte, error) { return f.ReadUpTo(name, text) }

// ReadUpTo reads a file of the folder. A name that leads out of it is an error; a link
// goes where FS lets it go.
func (f InFS) ReadUpTo(name string, most Limit) ([]byte, error) {
	at, err := f.at(name)
	if err != nil {
		return nil, err
	}
	return readFS(f.FS, at, errNotInFolder, most)
}

// at is where a name in the job file leads in the file system.
func (f InFS) at(name string) (string, error) {
	within := path.Clean(name)
	if path.IsAbs(within) || within == ".." || strings.HasPrefix(within, "../") {
		return "", errors.New(ErrLeaves.Problem) // trust is no cure: there is nothing outside
	}
	return path.Join(f.Folder, within), nil
}

// Missing tells whether a file of that name is not there.
func (f InFS) Missing(name string) bool {
	at, err := f.at(name)
	if err != nil {
		return false
	}
	_, err = fs.Stat(f.FS, at)
	return errors.Is(err, fs.ErrNotExist)
}

// ReadFS reads a text file of at most 1 MB from a file system, by a name as fs.ValidPath
// has it; missing is what to say of one that is not there. An error is of anything but a
// plain file, and of a larger one.
func ReadFS(fsys fs.FS, name string, missing error) ([]byte, error) {
	return readFS(fsys, name, missing, text)
}

func readFS(fsys fs.FS, name string, missing error, most Limit) ([]byte, error) {
	file, err := fsys.Open(name)
	if err != nil {
		return nil, fileProblem(err, missing)
	}
	defer file.Close()
	info, err := file.Stat()
	if err == nil {
		err = unplain(info.Mode())
	}
	if err != nil {
		return nil, fileProblem(err, missing)
	}
	return readAll(file, most)
}
