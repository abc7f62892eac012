package bench

import (
	"archive/zip"
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"evendrop/cmd/internal/legible"
	"evendrop/tdc/job/archive"
)

// filed is a file as it goes over the border.
func filed(name string, data []byte) File {
	if utf8.Valid(data) {
		return File{Name: name, Text: string(data)}
	}
	return File{Name: name, Base64: base64.StdEncoding.EncodeToString(data)}
}

// bytes is what a file holds.
func (f File) bytes() ([]byte, error) {
	switch {
	case f.Base64 == "":
		return []byte(f.Text), nil
	case f.Text != "":
		return nil, fmt.Errorf("%s: comes both as text and in base64", f.shown())
	}
	data, err := base64.StdEncoding.DecodeString(f.Base64)
	if err != nil {
		return nil, fmt.Errorf("%s: is not whole in base64", f.shown())
	}
	return data, nil
}

func (f File) shown() string { return fmt.Sprintf("%q", legible.Cut(f.Name, longestName)) }

// longestName is longer than any file's of a job, in bytes.
const longestName = 200

// check refuses a name that no file in a job's folder has.
func (f File) check() error {
	if !fs.ValidPath(f.Name) || f.Name == "." || len(f.Name) > longestName || strings.ContainsAny(f.Name, `\:`) || strings.ContainsFunc(f.Name, unicode.IsControl) {
		return fmt.Errorf("%s: is not the name of a file in the job's folder: give it a plain name, of at most 200 letters", f.shown())
	}
	return nil
}

// taken is files by their names, as many and as large as a job's folder may have.
func taken(list []File) (map[string][]byte, error) {
	if len(list) > archive.MostFiles {
		return nil, errors.New("a job has at most 1,000 files")
	}
	files, left := map[string][]byte{}, archive.MostBytes
	for _, f := range list {
		if err := f.check(); err != nil {
			return nil, err
		}
		if _, twice := files[f.Name]; twice {
			return nil, fmt.Errorf("%s: is there twice", f.shown())
		}
		data, err := f.bytes()
		if err != nil {
			return nil, err
		}
		if left -= len(data); left < 0 {
			return nil, errors.New("a job's files are at most 64 MB together")
		}
		files[f.Name] = data
	}
	return files, nil
}

// unzipped is the files beside the job file in a zip, by names from there.
func unzipped(text, jobFile string) (map[string][]byte, error) {
	packed, err := base64.StdEncoding.DecodeString(text)
	if err != nil {
		return nil, errors.New("the zip is not whole in base64")
	}
	fsys, err := archive.Open(bytes.NewReader(packed), int64(len(packed)))
	if err != nil {
		return nil, fmt.Errorf("the zip %w", err)
	}
	at, err := archive.Find(fsys, jobFile)
	if err != nil {
		return nil, fmt.Errorf("the zip %w", err)
	}
	list := []File{}
	files := map[string][]byte{}
	err = fs.WalkDir(fsys, path.Dir(at), func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		data, err := fs.ReadFile(fsys, name)
		name = strings.TrimPrefix(name, path.Dir(at)+"/")
		files[name] = data
		list = append(list, File{Name: name})
		return err
	})
	if bad, is := errors.AsType[*fs.PathError](err); is {
		return nil, fmt.Errorf("%s: cannot be read: %w", File{Name: bad.Path}.shown(), bad.Err)
	}
	if err != nil {
		return nil, err
	}
	_, err = taken(list) // by their names
	return files, err
}

// zipped is files as a zip, the same for the same files.
func zipped(files map[string][]byte) ([]byte, error) {
	var packed bytes.Buffer
	w := zip.NewWriter(&packed)
	for _, name := range slices.Sorted(maps.Keys(files)) {
		into, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: noTime})
		if err == nil {
			_, err = io.Copy(into, bytes.NewReader(files[name]))
		}
		if err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return packed.Bytes(), err
}

// noTime is the first day that a zip can say.
var noTime = time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
