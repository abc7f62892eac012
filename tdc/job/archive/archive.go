// Package archive reads a zip as a file system, as much of it as is asked for and no more
// than a job's folder holds, whoever made it. It touches no disk: the zip may be in memory.
package archive

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"strings"
	"sync/atomic"
	"unicode/utf8"
)

// What a zip may hold: more than a job's folder does with all the photos that it may name.
const (
	MostFiles = 1_000    // and folders
	MostBytes = 64 << 20 // unpacked
)

// mostListed is the longest list of files that is read, bytes: for each name there is
// twice what most systems allow it.
const mostListed = MostFiles << 11

// Is tells whether a file is a zip, by how it begins.
func Is(r io.ReaderAt) bool {
	var begin [4]byte
	_, err := r.ReadAt(begin[:], 0)
	return err == nil && (string(begin[:]) == "PK\x03\x04" || string(begin[:]) == "PK\x05\x06")
}

// Open reads the list of a zip's files. What could lead out of it, or is there twice, what
// is locked and what is too much is an error in words. The files themselves are unpacked as
// they are read, and no further than MostBytes in all, whatever their headers say.
func Open(r io.ReaderAt, size int64) (fs.FS, error) {
	list := &listReader{from: r, left: mostListed}
	z, err := zip.NewReader(list, size)
	switch {
	case list.left < 0 || z != nil && len(z.File) > MostFiles:
		return nil, fmt.Errorf("holds more than 1,000 files: zip only the job file and the files that it names")
	case err != nil && !errors.Is(err, zip.ErrInsecurePath): // which is said in words
		return nil, errors.New("is not a zip that can be read: zip the folder again")
	}
	list.listed = true
	named(z.File)
	if err := check(z.File); err != nil {
		return nil, err
	}
	unpacked := &contents{zip: z}
	unpacked.left.Store(MostBytes)
	return unpacked, nil
}

// listReader reads a zip, of its list no more than is left.
type listReader struct {
	from   io.ReaderAt
	left   int
	listed bool
}

func (r *listReader) ReadAt(p []byte, at int64) (int, error) {
	if !r.listed {
		if r.left -= len(p); r.left < 0 {
			return 0, errTooMuch
		}
	}
	return r.from.ReadAt(p, at)
}

// check refuses a zip with a file that no job's folder has.
func check(files []*zip.File) error {
	there := map[string]bool{} // whether it is a folder, by name
	left := uint64(MostBytes)
	for _, f := range files {
		if err := checkFile(f); err != nil {
			return err
		}
		if f.UncompressedSize64 > left {
			return errTooMuch
		}
		left -= f.UncompressedSize64
		if err := place(there, path.Clean(f.Name), f.Mode().IsDir()); err != nil {
			return err
		}
	}
	return nil
}

var errTooMuch = errors.New("holds more than 64 MB unpacked: zip only the job file and the files that it names")

// checkFile refuses a file that leads out of the zip, or cannot be read.
func checkFile(f *zip.File) error {
	name := f.Name
	refuse := func(problem string) error { return fmt.Errorf("%q: %s", cut(name), problem) }
	switch {
	case strings.Contains(name, `\`):
		return refuse("a name with a backslash: zip the folder again, with / between folders")
	case path.IsAbs(name), len(name) > 1 && name[1] == ':':
		return refuse("a name that begins at the top of a disk: zip the folder again, from beside it")
	case strings.Contains("/"+name+"/", "/../"):
		return refuse("a name that leads out of the zip: zip the folder again, from beside it")
	case f.Mode()&fs.ModeSymlink != 0:
		return refuse("a link: zip the folder again, with the file itself")
	case !f.Mode().IsRegular() && !f.Mode().IsDir():
		return refuse("is not a plain file: leave it out")
	case f.Flags&locked != 0:
		return refuse("is locked with a password: zip the folder again, without one")
	}
	return nil
}

// locked is the bit of a file's flags that says so (APPNOTE of the zip format, 4.4.4, from
// memory).
const locked = 1

// place puts a name in its place, where there is no other.
func place(there map[string]bool, name string, folder bool) error {
	if is, twice := there[name]; twice && !(is && folder) {
		return fmt.Errorf("%q: is in it twice: zip the folder again", cut(name))
	}
	there[name] = folder
	for above := path.Dir(name); above != "." && above != "/"; above = path.Dir(above) {
		if is, has := there[above]; has && !is {
			return fmt.Errorf("%q: is in it twice, as a file and as a folder: zip the folder again", cut(above))
		}
		there[above] = true
	}
	return nil
}

// cut keeps the beginning of a long name.
func cut(name string) string {
	const most = 80
	if utf8.RuneCountInString(name) <= most {
		return name
	}
	return string([]rune(name)[:most]) + "..."
}

// contents are the files of a zip that was checked.
type contents struct {
	zip  *zip.Reader
	left atomic.Int64 // bytes that may still be unpacked
}

// Open opens a file or a folder, by a name as fs.ValidPath has it.
func (c *contents) Open(name string) (fs.File, error) {
	f, err := c.zip.Open(name)
	if err != nil {
		return nil, unopened(name, err)
	}
	if _, folder := f.(fs.ReadDirFile); folder {
		return f, nil
	}
	return &packed{f, name, c}, nil
}

// unopened is why a file cannot be opened: it is not there, or not as the list has it.
func unopened(name string, err error) error {
	if _, missing := errors.AsType[*fs.PathError](err); missing {
		return err
	}
	if errors.Is(err, zip.ErrAlgorithm) {
		err = errors.New("it is packed in a way that is not known here: zip the folder again")
	} else {
		err = errDamaged
	}
	return &fs.PathError{Op: "open", Path: name, Err: err}
}

var errDamaged = errors.New("it is damaged in the zip: zip the folder again")

// packed is a file that is unpacked as it is read.
type packed struct {
	fs.File
	name string
	of   *contents
}

// Read unpacks some of a file.
func (p *packed) Read(into []byte) (int, error) {
	n, err := p.File.Read(into)
	switch {
	case p.of.left.Add(-int64(n)) < 0:
		return 0, &fs.PathError{Op: "read", Path: p.name, Err: fmt.Errorf("the zip %w", errTooMuch)}
	case err != nil && err != io.EOF:
		err = &fs.PathError{Op: "read", Path: p.name, Err: errDamaged}
	}
	return n, err
}
