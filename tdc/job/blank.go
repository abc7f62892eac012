package job

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// OpenBlank is Open for a job whose readings may still have to be taken: a
// readings file that is missing, or has none in it, is none.
func OpenBlank(path string) (Job, error) {
	folder := folderOf(path)
	return openJob(path, func(name string) ([]byte, error) {
		if folder.missing(name) {
			return nil, errBlank
		}
		data, err := folder.read(name)
		if err == nil && blank(name, data) {
			return nil, errBlank
		}
		return data, err
	})
}

// CheckBlank is what would be wrong with a job file, yet to be written, whose readings
// are still to be taken; nil when it would open. What is wrong is an *Error.
func CheckBlank(path string, data []byte) error {
	_, err := parse(path, data, func(string) ([]byte, error) { return nil, errBlank })
	return err
}

// errBlank stands for a readings file without readings.
var errBlank = errors.New("no readings yet")

// missing tells whether the folder is there and a file of that name is not.
func (f folder) missing(name string) bool {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return false
	}
	defer root.Close()
	_, err = root.Stat(filepath.FromSlash(name))
	return errors.Is(err, fs.ErrNotExist)
}

// blank tells whether a readings file has no row below its header row.
func blank(name string, data []byte) bool {
	data = newlines(bytes.TrimPrefix(data, []byte("\ufeff")))
	s := newSheet(name, data)
	if _, err := s.next(); err != nil {
		return err == io.EOF
	}
	_, err := s.next()
	return err == io.EOF
}
