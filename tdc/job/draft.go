package job

import (
	"crypto/rand"
	"errors"
	"io/fs"
	"os"
)

// system is what some systems can do with files and others cannot.
var system = struct {
	unnamed func(dir *os.File) (*os.File, error)
	swap    func(root *os.Root, dir *os.File, one, other string) error
	lease   func(*os.File) bool
}{unnamed, swap, lease}

// draft is a file that is written down to the disk and is not in its place yet.
type draft struct {
	root      *os.Root // its folder, which a link put in the folder's place does not change
	dir       *os.File // the same
	name      string   // that it is to have
	file      *os.File // open for adding to
	temporary string   // the name that it has till then, or that what it replaced has; "" of none
	old       fs.FileInfo
	vacated   string // the name that the old one has after it made room; "" when it did not
	placed    bool
}

// newDraft writes a draft for a place in a folder, of the mode that old has, which it
// is to replace; nil of none.
func newDraft(root *os.Root, name string, data []byte, old fs.FileInfo) (*draft, error) {
	d := &draft{root: root, name: name, old: old}
	var err error
	if d.dir, err = root.Open("."); err == nil {
		err = d.fill(data)
	}
	if err != nil {
		d.drop()
		return nil, err
	}
	return d, nil
}

// fill makes the file, without a name where that can be.
func (d *draft) fill(data []byte) error {
	var err error
	if d.file, err = system.unnamed(d.dir); err != nil {
		d.temporary = temporaryName()
		if d.file, err = d.root.OpenFile(d.temporary, os.O_RDWR|os.O_APPEND|os.O_CREATE|os.O_EXCL, 0o666); err != nil {
			d.temporary = ""
			return err
		}
	}
	_, err = d.file.Write(data)
	if err == nil && d.old != nil && d.old.Mode().IsRegular() {
		err = d.file.Chmod(d.old.Mode().Perm())
	}
	if err == nil {
		err = d.file.Sync()
	}
	return err
}

func temporaryName() string { return "." + rand.Text()[:16] + ".tmp" }

// errChanged is a file that another program wrote since it was looked at.
var errChanged = errors.New("was changed by another program in the meantime, so it was left as it is: type the same again")
