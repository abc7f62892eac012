package disk

import (
	"errors"
	"io/fs"
	"os"

	"evendrop/tdc/job/system"
)

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
	if d.file, err = system.Able.Unnamed(d.dir); err != nil {
		d.temporary = system.TemporaryName()
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

// ErrChanged is a file that another program wrote since it was looked at.
var ErrChanged = errors.New("was changed by another program in the meantime, so it was left as it is: type the same again")
