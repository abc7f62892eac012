package job

import (
	"errors"
	"os"
	"strconv"
)

// Parse is the reading of a job file without a file system, for tests.
var Parse = parse

// ParseKnownGood is the reading of a known-good file without a file system.
var ParseKnownGood = parseKnownGood

// OnAPlainSystem runs a test as on a system that can neither keep a file without a
// name, nor have two files trade names in one step, nor keep programs from a file.
func OnAPlainSystem(test func()) {
	able := system
	defer func() { system = able }()
	system.unnamed = func(*os.File) (*os.File, error) { return nil, errors.ErrUnsupported }
	system.swap = func(root *os.Root, _ *os.File, one, other string) error { return swapByLink(root, one, other) }
	system.lease = func(*os.File) bool { return false }
	test()
}

// WhenTrading runs a test that is told of each moment in which two files trade names.
func WhenTrading(told, test func()) {
	able := system
	defer func() { system = able }()
	system.swap = func(root *os.Root, dir *os.File, one, other string) error {
		told()
		return able.swap(root, dir, one, other)
	}
	test()
}

// WithoutLines is a job that does not know which lines its marks are from.
func (j Job) WithoutLines() Job {
	j.markLines, j.jointLines = nil, nil
	return j
}

// Outline is every key of a job file with its text, if that is what it has, as
// the document holds them.
func Outline(data []byte) (map[string]string, error) {
	doc, err := newDocument(data)
	if err != nil {
		return nil, err
	}
	lines := map[string]string{}
	outline("", value{kind: tableKind, table: doc.root}, lines)
	return lines, nil
}

func outline(path string, v value, lines map[string]string) {
	switch v.kind {
	case textKind:
		lines[path] = "text " + v.text
	case tableKind:
		lines[path] = "table"
		for _, inner := range v.table.values {
			outline(path+"."+strconv.Quote(inner.key), inner, lines)
		}
	case listKind:
		lines[path] = "list"
		for i, item := range v.items {
			outline(path+"["+strconv.Itoa(i)+"]", item, lines)
		}
	default:
		lines[path] = "other"
	}
}
