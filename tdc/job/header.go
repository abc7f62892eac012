package job

import (
	"bytes"
	"slices"
	"strings"
)

// open finds or makes the table that a [header] names.
func (d *document) open(path []part) (*table, error) {
	t, err := d.walk(path[:len(path)-1])
	if err != nil {
		return nil, err
	}
	last, name := d.header(path), "["+shownPath(path)+"]"
	old, ok := t.get(last.name)
	switch {
	case !ok:
		return t.sub(last, name, byHeader), nil
	case old.kind == tableKind && old.table.origin == byPath:
		old.table.origin, old.table.name, old.table.at = byHeader, name, last.at
		return old.table, nil
	}
	return nil, d.again(last.at, path, name, old.keyAt)
}

// openNext adds the table that a [[header]] names to its list.
func (d *document) openNext(path []part) (*table, error) {
	t, err := d.walk(path[:len(path)-1])
	if err != nil {
		return nil, err
	}
	last, name := d.header(path), "[["+shownPath(path)+"]]"
	list, ok := t.get(last.name)
	if !ok {
		list = value{key: last.name, keyAt: last.at, at: last.at, kind: listKind, open: true}
	} else if !list.open {
		return nil, d.again(list.keyAt, path, name, list.keyAt)
	}
	next := newTable(name, last.at, byHeader)
	list.items = append(list.items, value{key: last.name, keyAt: last.at, at: last.at, kind: tableKind, table: next})
	t.put(list)
	return next, nil
}

// walk follows the outer names of a header from the top of the file.
func (d *document) walk(path []part) (*table, error) {
	t := d.root
	for _, p := range path {
		v, ok := t.get(p.name)
		switch {
		case !ok:
			t = t.sub(p, shownKey(p.name), byPath)
		case v.open:
			t = v.items[len(v.items)-1].table
		case v.kind == tableKind && v.table.origin != byValue:
			t = v.table
		default:
			return nil, d.twice(p.at, shownKey(p.name), v.keyAt)
		}
	}
	return t, nil
}

// dotted follows the outer names of a dotted key from a table.
func (d *document) dotted(t *table, path []part) (*table, error) {
	for _, p := range path {
		v, ok := t.get(p.name)
		switch {
		case !ok:
			t = t.sub(p, shownKey(p.name), byDots)
		case v.kind == tableKind && v.table.origin == byDots:
			t = v.table
		default:
			return nil, d.twice(p.at, shownKey(p.name), v.keyAt)
		}
	}
	return t, nil
}

// header is the last name of a header, at the bracket that begins its line.
func (d *document) header(path []part) part {
	last := path[len(path)-1]
	line := bytes.LastIndexByte(d.data[:path[0].at], '\n') + 1
	last.at = line + bytes.IndexByte(d.data[line:], '[')
	return last
}

// again is the fault of a header that does not go with what was there before.
// Of the tables that a job may have more than one of, it has too few brackets.
func (d *document) again(at int, path []part, name string, before int) error {
	if key := shownPath(path); slices.Contains([]string{"cylinder", "joint", "mark"}, key) {
		return faultf(at, fewBrackets, key, key)
	}
	return d.twice(d.header(path).at, name, before)
}

const fewBrackets = "[%s]: there may be more than one: write [[%s]]"

// twice is the fault of something that was there before.
func (d *document) twice(at int, name string, before int) error {
	return faultf(at, "%s: is there already, on line %d: keep one of them", name, lineOf(d.data, before))
}

func shownPath(path []part) string {
	names := make([]string, len(path))
	for i, p := range path {
		names[i] = shownKey(p.name)
	}
	return strings.Join(names, ".")
}
