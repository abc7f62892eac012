package job

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"unicode/utf8"
)

// maxFile is the largest file that is read, bytes; the longest readings file
// that is allowed takes half of it.
const maxFile = 1 << 20

// What is said of a file that is not there, or is a folder.
const (
	noJob      = "not found: check the name, or make a new job with evendrop begin DIR"
	noReadings = "not found: check the name of the readings file"
)

// ReadFile reads a text file of at most 1 MB that the user named; missing is what to
// say of one that is not there. An error is an *Error.
func ReadFile(path, missing string) ([]byte, error) {
	file, err := OpenPlain(path, missing)
	if bad, ok := errors.AsType[*Error](err); ok && bad.Problem == errIsFolder.Error() {
		bad.Problem += ", such as " + filepath.Join(path, "job.toml")
	}
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := readAll(file)
	if err != nil {
		return nil, &Error{File: path, Problem: err.Error()}
	}
	return data, nil
}

// folder is the folder that a job's readings files must stay in.
type folder string

// folderOf is the folder of a job file.
func folderOf(path string) folder { return folder(filepath.Dir(path)) }

// read reads a readings file of the folder. A name that leads out of it, be it
// through a link, is an error; so is anything but a plain file.
func (f folder) read(name string) ([]byte, error) {
	root, err := os.OpenRoot(string(f))
	if err != nil {
		return nil, errors.New(fileProblem(err))
	}
	defer root.Close()
	data, err := readPlain(root.Stat, root.OpenFile, filepath.FromSlash(name))
	if err != nil {
		return nil, errors.New(fileProblem(err))
	}
	return data, nil
}

// readPlain reads a file of readings, if it is a plain one.
func readPlain(stat func(string) (fs.FileInfo, error), open func(string, int, fs.FileMode) (*os.File, error), name string) ([]byte, error) {
	file, err := openPlain(stat, open, name, os.O_RDONLY)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return readAll(file)
}

// readAnywhere is read without the bounds of the folder.
func (f folder) readAnywhere(name string) ([]byte, error) {
	data, err := readPlain(os.Stat, os.OpenFile, f.path(name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, errors.New("not found: check the name")
	case err != nil:
		return nil, errors.New(fileProblem(err))
	}
	return data, nil
}

// path is where a name in the job file leads.
func (f folder) path(name string) string {
	name = filepath.FromSlash(name)
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(string(f), name)
}

var errLeaves = errors.New("leaves the job's folder: put the readings file beside the job file and name it from there, " +
	"or type --trust-paths if you trust this job to read it")

// fileProblem says why a file cannot be opened.
func fileProblem(err error) string {
	if problem, ok := errors.AsType[errUnplain](err); ok {
		return problem.Error()
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "not found in the job's folder: check the name"
	case errors.Is(err, fs.ErrPermission):
		return "may not be read: check who may read it"
	case strings.Contains(cause(err).Error(), "escapes"): // os.Root has no named error for it
		return errLeaves.Error()
	}
	return "cannot be read: " + cause(err).Error()
}

// cause is what the system says, without the names that it says it of.
func cause(err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		return path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		return link.Err
	}
	return err
}

// readAll reads a whole file of at most maxFile.
func readAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxFile+1))
	if err != nil {
		return nil, errUnplain(fileProblem(err))
	}
	if len(data) > maxFile {
		return nil, errUnplain("is larger than 1 MB: expected a text file somebody typed")
	}
	return data, nil
}

// plainText is a file's data without its byte order mark, when it is text in
// UTF-8.
func plainText(name string, data []byte) ([]byte, error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	for at := 0; at < len(data); {
		r, size := utf8.DecodeRune(data[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			return nil, locate(name, data, faultf(at, "is not text in UTF-8 from here on: save the file as UTF-8"))
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0x7f:
			return nil, locate(name, data, faultf(at, "a control character, code %d: take it out, or save the file as plain text in UTF-8", r))
		}
		at += size
	}
	return data, nil
}
