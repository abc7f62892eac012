// Package notebook keeps the files that are written into at the bench, while editors may
// save them too: readings, lifts and the job file.
package notebook

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"time"

	"evendrop/tdc/evidence"
	"evendrop/tdc/job/disk"
	"evendrop/tdc/job/sheet"
	"evendrop/tdc/job/source"
)

// Notebook is a readings file that is written into at the bench. It is read anew
// for every entry, so that what somebody mends by hand meanwhile counts. Nothing is
// ever taken out of it: what does not count becomes a comment.
type Notebook struct {
	path  string
	kind  sheet.Kind
	setup evidence.Setup
	unit  string
	held  *disk.Held
	last  int    // readings that it had when it was looked at last
	kept  []kept // that were added here
	lost  int    // of those that are no longer in it
	news  []string
	blank time.Time // since when it has had no readings any more
}

// Open opens a readings file, or a lobe's, for this process alone, makes it when it is not
// there, and mends a last line that was cut short; what it did, or doubts, it says in
// words. Unit is that of lengths without one, mm or in. An error is of a file that cannot be
// held or read.
func Open(path string, kind sheet.Kind, setup evidence.Setup, unit string) (n *Notebook, says string, err error) {
	n = &Notebook{path: path, kind: kind, setup: setup, unit: unit}
	if n.held, err = disk.Hold(path); err == nil {
		says, err = n.mend()
	}
	if err != nil {
		n.Close()
		return n, "", n.wrong(err)
	}
	return n, says, nil
}

// Close lets another process write the file.
func (n *Notebook) Close() {
	if n.held != nil {
		n.held.Close()
		n.held = nil
	}
}

// mend makes the file where there is none, and a comment of a last line that was cut
// short.
func (n *Notebook) mend() (says string, err error) {
	if there, err := n.held.Find(); err != nil {
		return "", err
	} else if !there {
		return "", n.held.Create([]byte(n.kind.NewHeader()))
	}
	err = n.again(func() error {
		data, err := n.held.Read()
		if err != nil {
			return err
		}
		says, err = n.mendCut(data)
		return err
	})
	return says, err
}

func (n *Notebook) mendCut(data []byte) (string, error) {
	text := source.Newlines(data)
	start := bytes.LastIndexByte(text, '\n') + 1
	last := string(text[start:])
	readings, err := n.readings(data)
	n.last = len(readings)
	if trimmed := strings.TrimSpace(last); trimmed == "" || trimmed[0] == '#' || start == 0 {
		return "", err
	}
	line := bytes.Count(text, []byte("\n")) + 1
	bad, ok := errors.AsType[*source.Error](err)
	switch {
	case err == nil && sheet.Blank(n.path, data): // a header alone
		return "", nil
	case err == nil:
		return fmt.Sprintf("%s line %d has no line end, so it may have been cut short: check that %q is whole.", n.path, line, last), nil
	case !ok || bad.Line != line:
		return "", err
	}
	mended := append(bytes.Clone(text[:start]), "# cut short: "+last+"\n"...)
	mended = sheet.Page{Text: mended, LineEnd: source.LineEnd(data)}.Data()
	if readings, err = n.readings(mended); err != nil {
		return "", err
	}
	n.last = len(readings)
	return fmt.Sprintf("%s line %d was cut short (%q). It is a comment now and does not count: type that reading again.", n.path, line, last),
		n.held.Rewrite(data, mended)
}

// Readings are the readings in the file, in their order. An error is of a file that cannot
// be read, has a row that is no reading, or has none any more where it had some (*Emptied).
func (n *Notebook) Readings() (readings []evidence.Reading, err error) {
	err = n.again(func() error {
		data, err := n.look()
		if err == nil {
			readings, err = n.take(data)
		}
		return err
	})
	return readings, n.wrong(err)
}

func (n *Notebook) readings(data []byte) ([]evidence.Reading, error) {
	return n.kind.Read(n.path, data, n.setup, n.unit)
}

// Add writes a reading down to the disk, below the others, and is all of them. An
// entry that cannot be read back is an error, and the file stays as it was.
func (n *Notebook) Add(e sheet.Entry) ([]evidence.Reading, error) {
	var added []evidence.Reading // after a try that another program came between
	readings, err := n.change(func(p *sheet.Page, readings []evidence.Reading) (appended, done bool) {
		if len(added) > 0 && has(readings, added[len(added)-1]) > has(added[:len(added)-1], added[len(added)-1]) {
			return false, true // that program had it in what it wrote
		}
		return p.Add(e), false
	}, func(after []evidence.Reading) { added = after })
	if err == nil && len(readings) > 0 {
		n.kept = append(n.kept, kept{e.Angle + " " + e.Depth, withoutLine(readings[len(readings)-1])})
	}
	return readings, err
}

// Remark writes a comment below the readings. An error is of a file that cannot be read or
// written, or has none of its readings any more (*Emptied).
func (n *Notebook) Remark(text string) error {
	_, err := n.change(func(p *sheet.Page, _ []evidence.Reading) (appended, done bool) {
		p.Put("# " + text + "\n")
		return true, false
	}, nil)
	return err
}
