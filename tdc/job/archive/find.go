package archive

import (
	"fmt"
	"io/fs"
	"path"
	"strings"
)

// Find is where a job file of this name is: at the top, or in the one folder that there is.
// Where it is not, that is a *Lacking.
func Find(fsys fs.FS, name string) (string, error) {
	files, folders := within(fsys, ".")
	if isFile(fsys, name) {
		return name, nil
	}
	if len(folders) == 1 {
		at := path.Join(folders[0], name)
		if isFile(fsys, at) {
			return at, nil
		}
		inner, innermost := within(fsys, folders[0])
		files, folders = append(files, inner...), innermost
	}
	return "", &Lacking{name, files, folders}
}

func isFile(fsys fs.FS, name string) bool {
	info, err := fs.Stat(fsys, name)
	return err == nil && info.Mode().IsRegular()
}

// within is the files and the folders in a folder. What systems add of their own, a name
// with a point before it or __MACOSX, is nobody's.
func within(fsys fs.FS, folder string) (files, folders []string) {
	entries, _ := fs.ReadDir(fsys, folder)
	for _, e := range entries {
		at := path.Join(folder, e.Name())
		switch {
		case strings.HasPrefix(e.Name(), "."), e.Name() == "__MACOSX":
		case e.IsDir():
			folders = append(folders, at)
		default:
			files = append(files, at)
		}
	}
	return files, folders
}

// mostNamed is as many of what is there as a line has room for.
const mostNamed = 5

// Lacking is a zip that has no job file of the name where Find looks.
type Lacking struct {
	Name           string
	Files, Folders []string // that are there, by name
}

// Error says what there is instead.
func (l *Lacking) Error() string {
	var has []string
	for _, file := range l.Files {
		has = append(has, cut(file))
	}
	for _, folder := range l.Folders {
		has = append(has, cut(folder)+"/")
	}
	if len(has) == 0 {
		return "has no file in it: zip the job's folder"
	}
	if more := len(has) - mostNamed; more > 0 {
		has = append(has[:mostNamed], fmt.Sprintf("%d more", more))
	}
	list := has[0]
	if last := len(has) - 1; last > 0 {
		list = strings.Join(has[:last], ", ") + " and " + has[last]
	}
	return fmt.Sprintf("has no %s, at its top or in its one folder; it has %s", l.Name, list)
}
