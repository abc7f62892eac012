package job

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"evendrop/tdc"
)

// Notebook is a readings file that is written into at the bench. It is read anew
// for every entry, so that what somebody mends by hand meanwhile counts. Nothing is
// ever taken out of it: what does not count becomes a comment.
type Notebook struct {
	path  string
	setup tdc.Setup
	unit  string
}

// OpenNotebook opens a readings file, which need not be there yet, and mends a last
// line that was cut short; what it did, or doubts, it says in words.
func OpenNotebook(path string, setup tdc.Setup, unit string) (n *Notebook, says string, err error) {
	n = &Notebook{path, setup, unit}
	data, err := n.read()
	if err != nil {
		return n, "", err
	}
	text := newlines(data)
	start := bytes.LastIndexByte(text, '\n') + 1
	last := string(text[start:])
	_, err = n.Readings()
	if trimmed := strings.TrimSpace(last); trimmed == "" || trimmed[0] == '#' || start == 0 {
		return n, "", err
	}
	line := bytes.Count(text, []byte("\n")) + 1
	bad, ok := errors.AsType[*Error](err)
	switch {
	case err == nil && blank(path, data): // a header alone
		return n, "", nil
	case err == nil:
		return n, fmt.Sprintf("%s line %d has no line end, so it may have been cut short: check that %q is whole.", path, line, last), nil
	case !ok || bad.Line != line:
		return n, "", err
	}
	mended := append(bytes.Clone(text[:start]), "# cut short: "+last+"\n"...)
	if err := Write(path, page{text: mended, lineEnd: lineEnd(data)}.data(), true); err != nil {
		return n, "", err
	}
	_, err = n.Readings()
	return n, fmt.Sprintf("%s line %d was cut short (%q). It is a comment now and does not count: type that reading again.", path, line, last), err
}

// read is the file's data; nothing of one that is not there.
func (n *Notebook) read() ([]byte, error) {
	if _, err := os.Stat(n.path); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	return ReadFile(n.path, noReadings)
}

// Readings are the readings in the file, in their order.
func (n *Notebook) Readings() ([]tdc.Reading, error) {
	data, err := n.read()
	if err != nil {
		return nil, err
	}
	return n.readings(data)
}

func (n *Notebook) readings(data []byte) ([]tdc.Reading, error) {
	if blank(n.path, data) {
		return nil, nil
	}
	return ReadReadings(n.path, bytes.NewReader(data), n.setup, n.unit)
}

// Add writes a reading down to the disk, below the others, and is all of them. An
// entry that cannot be read back is an error, and the file stays as it was.
func (n *Notebook) Add(e Entry) ([]tdc.Reading, error) {
	before, p, err := n.open()
	if err != nil {
		return nil, err
	}
	appended := p.add(e)
	readings, err := n.readings(p.data())
	if err != nil {
		return nil, err
	}
	return readings, n.write(before, p, appended)
}

// Remark writes a comment below the readings.
func (n *Notebook) Remark(text string) error {
	before, p, err := n.open()
	if err != nil {
		return err
	}
	p.put("# " + text + "\n")
	if _, err := n.readings(p.data()); err != nil {
		return err
	}
	return n.write(before, p, true)
}

// Undo makes a comment of the last reading, which it returns as it was written; ""
// when there is none.
func (n *Notebook) Undo() (string, []tdc.Reading, error) {
	before, p, err := n.open()
	if err != nil {
		return "", nil, err
	}
	struck := p.strike("undone")
	readings, err := n.readings(p.data())
	if err != nil || struck == "" {
		return "", readings, err
	}
	return struck, readings, n.write(before, p, false)
}

// open is the file's data and its page.
func (n *Notebook) open() ([]byte, page, error) {
	before, err := n.read()
	if err != nil {
		return nil, page{}, err
	}
	p, err := newPage(n.path, before, n.unit)
	return before, p, err
}

// write writes a page: only what was added to it, where there is a file and that
// is all.
func (n *Notebook) write(before []byte, p page, appended bool) error {
	_, err := os.Stat(n.path)
	there := err == nil
	if !appended || !there || len(before) == 0 {
		return Write(n.path, p.data(), there)
	}
	if err := appendTo(n.path, p.filed(p.added)); err != nil {
		return &Error{File: n.path, Problem: appendProblem(err)}
	}
	return nil
}

// appendTo writes data to the end of a file, down to the disk. What was written of
// it before something failed is taken back.
func appendTo(path string, data []byte) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_APPEND, 0)
	if err != nil {
		return err
	}
	info, err := file.Stat()
	if err != nil {
		return errors.Join(err, file.Close())
	}
	_, err = file.Write(data)
	if err == nil {
		err = file.Sync()
	}
	err = errors.Join(err, file.Close())
	if err != nil {
		_ = os.Truncate(path, info.Size()) // a cut line is mended when the file is opened next
	}
	return err
}

// appendProblem says why a line cannot be added to a file.
func appendProblem(err error) string {
	if errors.Is(err, fs.ErrPermission) {
		return "may not be written: check who may write it"
	}
	return "cannot be written: " + firstCause(err).Error()
}

// firstCause is what the system said first, of errors that may be several.
func firstCause(err error) error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return cause(joined.Unwrap()[0])
	}
	return cause(err)
}

// lineEnd is what a file's lines end in.
func lineEnd(data []byte) string {
	switch {
	case bytes.Contains(data, []byte("\r\n")):
		return "\r\n"
	case bytes.Contains(data, []byte("\r")) && !bytes.Contains(data, []byte("\n")):
		return "\r"
	}
	return "\n"
}
