package disk

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"time"

	"evendrop/tdc/job/source"
	"evendrop/tdc/job/system"
)

// place puts the draft in its place. What it replaces must be old still; what takes
// a name must find it free.
func (d *draft) place() error {
	if d.old == nil || d.vacated != "" {
		return d.publish()
	}
	if d.temporary == "" {
		name := system.TemporaryName()
		if err := system.GiveName(d.dir, d.file, name); err != nil {
			return err
		}
		d.temporary = name
	}
	// an older text is not to be seen by that name even for a moment: whoever opened it
	// then would save it over what another program put there since
	if now, err := d.root.Lstat(d.name); err != nil || !os.SameFile(now, d.old) {
		return ErrChanged
	}
	if err := system.Able.Swap(d.root, d.dir, d.temporary, d.name); err != nil {
		return err
	}
	d.placed = true
	if now, err := d.root.Lstat(d.temporary); err == nil && !os.SameFile(now, d.old) {
		return d.giveBack()
	}
	return nil
}

// makeRoom takes the old file out of the place.
func (d *draft) makeRoom() error {
	away := system.TemporaryName()
	if err := d.root.Rename(d.name, away); err != nil {
		return err
	}
	d.vacated = away
	if now, err := d.root.Lstat(away); err == nil && !os.SameFile(now, d.old) {
		return ErrChanged
	}
	return nil
}

// publish names the draft where no other file has its name. Some file systems have no
// links; there the name was free a moment ago.
func (d *draft) publish() error {
	var err error
	switch {
	case d.temporary == "":
		err = system.GiveName(d.dir, d.file, d.name)
	default:
		err = d.root.Link(d.temporary, d.name)
		if err != nil && !errors.Is(err, fs.ErrExist) {
			if _, taken := d.root.Lstat(d.name); taken == nil {
				return fs.ErrExist
			}
			err = d.root.Rename(d.temporary, d.name)
		}
	}
	d.placed = err == nil
	return err
}

// placeOver is place for a file that must still hold what was read from it, or else it
// gets its place back. Leased is that other programs wait to open it.
func (d *draft) placeOver(old *os.File, data []byte, leased bool) error {
	if !holds(old, data) {
		return ErrChanged
	}
	if err := d.place(); err != nil {
		return err
	}
	// whoever found the old one by its name a moment ago opens it by now
	time.Sleep(2 * time.Millisecond)
	if leased && system.Awaited(old) || !holds(old, data) {
		return d.giveBack()
	}
	return nil
}

// holds tells whether a file's data are these.
func holds(file *os.File, data []byte) bool {
	now, err := io.ReadAll(io.NewSectionReader(file, 0, source.Most+1))
	return err == nil && bytes.Equal(now, data)
}

// giveBack undoes a place, and is ErrChanged. A file that came there in the meantime
// is newer than the one that was displaced, and has the place.
func (d *draft) giveBack() error {
	expected, err := d.file.Stat()
	for err == nil {
		var put, displaced fs.FileInfo
		if put, err = d.root.Lstat(d.temporary); err != nil {
			break
		}
		if err = system.Able.Swap(d.root, d.dir, d.temporary, d.name); err != nil {
			break
		}
		d.placed = false
		if displaced, err = d.root.Lstat(d.temporary); err == nil && os.SameFile(displaced, expected) {
			return ErrChanged
		}
		expected = put
	}
	return err
}

// undo takes a draft out of its place again; what it replaced is back.
func (d *draft) undo() {
	mine, err := d.file.Stat()
	now, gone := d.root.Lstat(d.name)
	switch {
	case !d.placed || err != nil || gone != nil || !os.SameFile(mine, now):
	case d.old != nil && d.vacated == "":
		_ = d.giveBack()
	default:
		_ = d.root.Remove(d.name)
	}
	if d.vacated == "" {
		return
	}
	if d.root.Link(d.vacated, d.name) != nil {
		if _, taken := d.root.Lstat(d.name); taken != nil {
			_ = d.root.Rename(d.vacated, d.name)
		}
	}
}

// drop closes a draft, and takes away what it replaced, or itself when it never came
// to its place.
func (d *draft) drop() {
	for _, name := range []string{d.temporary, d.vacated} {
		if name != "" {
			_ = d.root.Remove(name)
		}
	}
	if d.file != nil {
		d.file.Close()
	}
	if d.dir != nil {
		_ = d.dir.Sync() // Windows cannot
		d.dir.Close()
	}
}
