package toml

import (
	"bytes"
	"slices"
	"strings"

	"evendrop/tdc/job/source"
)

// open finds or makes the table that a [header] names.
func (d *Document) open(path []part) (*Table, error) {
	t, err := d.follow(d.Root, path[:len(path)-1], byPath)
	if err != nil {
		return nil, err
	}
	last, name := d.header(path), "["+shownPath(path)+"]"
	old, ok := t.Get(last.name)
	switch {
	case !ok:
		return t.sub(last, name, byHeader), nil
	case old.Kind == TableKind && old.Table.origin == byPath:
		old.Table.origin, old.Table.name, old.Table.at = byHeader, name, last.at
		return old.Table, nil
	}
	return nil, d.again(last.at, path, name, old.keyAt)
}

// openNext adds the table that a [[header]] names to its list.
func (d *Document) openNext(path []part) (*Table, error) {
	t, err := d.follow(d.Root, path[:len(path)-1], byPath)
	if err != nil {
		return nil, err
	}
	last, name := d.header(path), "[["+shownPath(path)+"]]"
	list, ok := t.Get(last.name)
	if !ok {
		list = Value{key: last.name, keyAt: last.at, at: last.at, Kind: ListKind, open: true}
	} else if !list.open {
		return nil, d.again(list.keyAt, path, name, list.keyAt)
	}
	next := newTable(name, last.at, byHeader)
	list.Items = append(list.Items, Value{key: last.name, keyAt: last.at, at: last.at, Kind: TableKind, Table: next})
	t.put(list)
	return next, nil
}

// follow follows the outer names of a header from the top of the file (byPath), or
// those of a dotted key from a table (byDots), which goes into no table of a header's.
func (d *Document) follow(t *Table, path []part, by origin) (*Table, error) {
	for _, p := range path {
		v, ok := t.Get(p.name)
		switch {
		case !ok:
			t = t.sub(p, shownKey(p.name), by)
		case v.open && by == byPath:
			t = v.Items[len(v.Items)-1].Table
		case v.Kind == TableKind && (v.Table.origin == by || by == byPath && v.Table.origin != byValue):
			t = v.Table
		default:
			return nil, d.twice(p.at, shownKey(p.name), v.keyAt)
		}
	}
	return t, nil
}

// header is the last name of a header, at the bracket that begins its line.
func (d *Document) header(path []part) part {
	last := path[len(path)-1]
	line := bytes.LastIndexByte(d.data[:path[0].at], '\n') + 1
	last.at = line + bytes.IndexByte(d.data[line:], '[')
	return last
}

// again is the fault of a header that does not go with what was there before.
// Of the tables that there may be more than one of, it has too few brackets.
func (d *Document) again(at int, path []part, name string, before int) error {
	if key := shownPath(path); slices.Contains(d.several, key) {
		return source.Faultf(at, fewBrackets, key, key)
	}
	return d.twice(d.header(path).at, name, before)
}

// twice is the fault of something that was there before.
func (d *Document) twice(at int, name string, before int) error {
	return source.Faultf(at, "%s: already exists, on line %d: keep one of them", name, source.LineOf(d.data, before))
}

func shownPath(path []part) string {
	names := make([]string, len(path))
	for i, p := range path {
		names[i] = shownKey(p.name)
	}
	return strings.Join(names, ".")
}
