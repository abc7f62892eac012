package job

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"evendrop/tdc/job/archive"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/source"
)

// FileName is the name of the job file that a folder stands for.
const FileName = "job.toml"

var noJob = source.Curable{Problem: "not found: check the name", Cure: source.NewJob}

// OnDisk is the job file that a path leads to, for what writes into it or beside it. A zip
// is only read: one is an *Error.
func OnDisk(path string) (string, error) {
	f, err := find(path)
	if err != nil {
		return "", err
	}
	f.close()
	if _, is := f.of.(disk.Folder); !is {
		return "", source.Of(path, errors.New("a zip is only read, and nothing is written into it: unpack it first, and name its folder"))
	}
	return f.path, nil
}

// folder is where the files are that a job file names.
type folder interface {
	Read(name string) ([]byte, error)
	ReadUpTo(name string, most disk.Limit) ([]byte, error)
	Missing(name string) bool
}

// found is a job file, and the folder of the files that it names.
type found struct {
	path string // as an error names it
	data []byte
	of   folder
	zip  *os.File // that it is in; nil of none
}

func (f found) close() {
	if f.zip != nil {
		f.zip.Close()
	}
}

// find finds the job file that a path leads to: itself, or in a folder or a zip. An error is
// an *Error.
func find(path string) (found, error) {
	if disk.IsFolder(path) {
		return findInFolder(path)
	}
	file, err := disk.OpenPlain(path, noJob)
	if err != nil {
		if zip, above, inside := zipAbove(path); zip != nil {
			return findInZip(zip, above, inside)
		}
		return found{}, err
	}
	if archive.Is(file) || strings.EqualFold(filepath.Ext(path), ".zip") {
		return findInZip(file, path, ".")
	}
	defer file.Close()
	data, err := disk.ReadAll(file)
	if err != nil {
		return found{}, source.Of(path, err)
	}
	if isReadings(path) {
		return found{}, source.Of(path, source.Curable{Problem: readings, Cure: source.AsReadings})
	}
	return found{path: path, data: data, of: disk.FolderOf(path)}, nil
}

const readings = "is a readings file by its name: name the job file"

// isReadings tells a readings file by its name.
func isReadings(path string) bool { return strings.EqualFold(filepath.Ext(path), ".csv") }

// findInFolder finds the job file that a folder stands for. A folder without one is told
// what job files it has.
func findInFolder(folder string) (found, error) {
	in := disk.Folder(folder)
	if in.Missing(FileName) {
		problem := "is a folder without a " + FileName + ": check the name"
		if others := in.Named(".toml"); len(others) > 0 {
			problem = "is a folder without a " + FileName + ": name the job file, such as " + filepath.Join(folder, others[0])
		}
		return found{}, source.Of(folder, source.Curable{Problem: problem, Cure: source.NewJob})
	}
	at := filepath.Join(folder, FileName)
	data, err := disk.ReadFile(at, noJob)
	return found{path: at, data: data, of: in}, err
}

// deepest is how many folders deep in a zip a job may be.
const deepest = 40

// zipAbove opens the zip that a path leads into, and is the rest of the path; nil where it
// leads into none.
func zipAbove(path string) (file *os.File, above, inside string) {
	above = path
	for range deepest {
		if above = filepath.Dir(above); disk.IsFolder(above) {
			break
		}
		file, err := disk.OpenPlain(above, noJob)
		if err != nil {
			continue
		}
		inside, err := filepath.Rel(above, path)
		if err == nil && archive.Is(file) {
			return file, above, filepath.ToSlash(inside)
		}
		file.Close()
	}
	return nil, "", ""
}

// findInZip finds the job file in a zip, which is closed unless one is found: the job.toml
// that the zip stands for, where inside is ".", or another.
func findInZip(zip *os.File, name, inside string) (found, error) {
	fsys, err := openZip(zip)
	if err == nil && inside == "." {
		inside, err = findAtTop(fsys, name)
	}
	if err != nil {
		zip.Close()
		return found{}, source.Of(name, err)
	}
	f, err := findFS(fsys, inside, name)
	if err != nil {
		zip.Close()
	}
	f.zip = zip
	return f, err
}

// findAtTop finds the job file that a zip stands for. One without is told what job files it
// has.
func findAtTop(fsys fs.FS, name string) (string, error) {
	inside, err := archive.Find(fsys, FileName)
	if lacking, is := errors.AsType[*archive.Lacking](err); is {
		for _, other := range lacking.Files {
			if strings.EqualFold(path.Ext(other), ".toml") {
				return "", fmt.Errorf("%w: name the job file, such as %s", err, filepath.Join(name, filepath.FromSlash(other)))
			}
		}
	}
	return inside, err
}

func openZip(zip *os.File) (fs.FS, error) {
	info, err := zip.Stat()
	if err != nil {
		return nil, disk.Cause(err)
	}
	return archive.Open(zip, info.Size())
}

// findFS finds a job file in a file system, whose name stands before the file's in what is
// said of it.
func findFS(fsys fs.FS, name, of string) (found, error) {
	if info, err := fs.Stat(fsys, name); err == nil && info.IsDir() {
		name = path.Join(name, FileName)
	}
	at := filepath.Join(of, filepath.FromSlash(name))
	data, err := disk.ReadFS(fsys, name, errors.New("not found: check the name"))
	if err == nil && isReadings(name) {
		err = errors.New(readings)
	}
	if err != nil {
		return found{}, source.Of(at, err)
	}
	return found{path: at, data: data, of: disk.InFS{FS: fsys, Folder: path.Dir(name)}}, nil
}
