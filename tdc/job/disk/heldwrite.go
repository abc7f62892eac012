package disk

import (
	"bytes"
	"errors"
	"io/fs"
	"os"

	"evendrop/tdc/job/system"
)

// Create makes the file where there is none; else it is ErrChanged.
func (h *Held) Create(data []byte) error {
	d, err := newDraft(h.root, h.name, data, nil)
	if err != nil {
		return err
	}
	defer d.drop()
	if err = system.LockFile(d.file); err == nil {
		err = d.place()
	}
	switch {
	case errors.Is(err, fs.ErrExist):
		return ErrChanged
	case err != nil:
		return err
	}
	h.adopt(d)
	return nil
}

// adopt holds a draft that came to its place.
func (h *Held) adopt(d *draft) {
	h.forget()
	h.file, d.file = d.file, nil
}

// Add writes data at the end of a file that holds before, down to the disk. What was
// written of it before something failed is taken back. ErrChanged is that it may have
// gone with what another program wrote at the same time.
func (h *Held) Add(before, data []byte) error {
	n, err := h.file.Write(data)
	if err == nil {
		err = h.file.Sync()
	}
	if err != nil {
		if info, bad := h.file.Stat(); bad == nil && info.Size() == int64(len(before)+n) {
			_ = h.file.Truncate(int64(len(before))) // a cut line is mended when the file is opened next
		}
		return err
	}
	mine, err := h.file.Stat()
	if err != nil {
		return err
	}
	if now, err := h.root.Lstat(h.name); err != nil || !os.SameFile(mine, now) || !holds(h.file, append(bytes.Clone(before), data...)) {
		return ErrChanged
	}
	return nil
}

// Rewrite puts another text in the place of one that the file must hold still; where it does
// not, it is ErrChanged and the file stays.
func (h *Held) Rewrite(before, data []byte) error {
	info, err := h.file.Stat()
	if err != nil {
		return err
	}
	d, err := newDraft(h.root, h.name, data, info)
	if err != nil {
		return err
	}
	defer d.drop()
	if err = system.LockFile(d.file); err == nil {
		err = d.placeOver(h.file, before, h.leased)
	}
	if err == nil {
		h.adopt(d)
	}
	return err
}
