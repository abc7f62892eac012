// Package toml takes a TOML file apart so that whatever is wrong with it has its line and
// its column, gives each value to what takes it, and writes TOML as somebody would type it.
//
// The library parses; the document that it is put into is ours. Its decoder knows the
// place of a syntax error and of a key that no field has, but hands on a value without
// its place, so that "stroke = 0: expected a length above 0" would have no line. Of what
// is there twice it knows the line, not the first one's, and the column only of the whole
// dotted or inline key: of the cases of TestRefuseTwice it has 5 columns in 18. FuzzDocument
// holds the document to the library's, key for key.
package toml

import (
	"bytes"
	"errors"

	"evendrop/tdc/job/source"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Document is a file taken apart: what it says, and where.
type Document struct {
	Root    *Table
	data    []byte
	several []string // tables that may be there more than once
	count   int      // of items, in all of its lists
}

// Line is the line that a table begins on, from 1.
func (d *Document) Line(t *Table) int { return source.LineOf(d.data, t.at) }

// Place is the line and the column of a value, from 1.
func (d *Document) Place(v Value) (line, column int) { return source.PlaceOf(d.data, v.at) }

// Lacks is a fault at the end of the document.
func (d *Document) Lacks(what error) error { return source.Faultf(len(d.data), "%w", what) }

// Read takes a file's data apart and gives them to take. The tables named in several may
// be there more than once. Whatever is wrong is a *source.Error of the file named name.
func Read(name string, data []byte, several []string, take func(*Document) error) error {
	data, err := source.PlainText(name, data)
	if err != nil {
		return err
	}
	d, err := Parse(data, several...)
	if err == nil {
		err = take(d)
	}
	return source.Locate(name, data, err)
}

// Parse takes a file apart. What is not valid TOML, or is there twice, is a fault.
func Parse(data []byte, several ...string) (*Document, error) {
	d := &Document{data: data[:len(data):len(data)], Root: newTable("", 0, byHeader), several: several}
	var p unstable.Parser
	p.Reset(d.data)
	current := d.Root
	for p.NextExpression() {
		var err error
		if current, err = d.add(current, p.Expression()); err != nil {
			return nil, err
		}
	}
	if bad, ok := errors.AsType[*unstable.ParserError](p.Error()); ok {
		return nil, syntaxFault(d.data, int(p.Range(bad.Highlight).Offset), bad.Message)
	}
	return d, nil
}

// add adds a line of the file, and returns the table that the next ones go to.
func (d *Document) add(current *Table, n *unstable.Node) (*Table, error) {
	path, err := keyPath(n)
	if err != nil {
		return nil, err
	}
	switch n.Kind {
	case unstable.Table:
		return d.open(path)
	case unstable.ArrayTable:
		return d.openNext(path)
	}
	return current, d.set(current, path, n.Value())
}

// part is one name of a dotted key.
type part struct {
	name    string
	at, end int // offsets
}

// mostParts is how many names a dotted key may have: more than any job needs.
const mostParts = 16

func keyPath(n *unstable.Node) ([]part, error) {
	var path []part
	for it := n.Key(); it.Next(); {
		k := it.Node()
		at := int(k.Raw.Offset)
		if len(path) == mostParts {
			return nil, source.Faultf(at, "more than %d names in one key: expected a key such as stroke or engine.stroke", mostParts)
		}
		path = append(path, part{name: string(k.Data), at: at, end: at + int(k.Raw.Length)})
	}
	return path, nil
}

// set gives a value to a key.
func (d *Document) set(t *Table, path []part, n *unstable.Node) error {
	t, err := d.follow(t, path[:len(path)-1], byDots)
	if err != nil {
		return err
	}
	last := path[len(path)-1]
	if old, ok := t.Get(last.name); ok {
		return d.twice(last.at, shownKey(last.name), old.keyAt)
	}
	at := last.end + bytes.IndexByte(d.data[last.end:], '=') + 1
	at += len(d.data[at:]) - len(bytes.TrimLeft(d.data[at:], " \t"))
	v, err := d.value(last, at, n)
	if err != nil {
		return err
	}
	v.at = at
	t.put(v)
	return nil
}

// value takes a value apart. The parser does not say where a list in a list
// begins: at the bracket before its first item, and of an empty one it must do
// that it is somewhere behind outer.
func (d *Document) value(key part, outer int, n *unstable.Node) (Value, error) {
	v := Value{key: key.name, keyAt: key.at, at: int(n.Raw.Offset), Kind: kinds[n.Kind], Text: string(n.Data)}
	var err error
	switch n.Kind {
	case unstable.Array:
		v.Items, err = d.items(key, outer, n)
		v.at = outer
		if len(v.Items) > 0 {
			v.at = max(outer, bytes.LastIndexByte(d.data[:v.Items[0].at], '['))
		}
	case unstable.InlineTable:
		v.Table, err = d.inline(key, v.at, n)
	}
	return v, err
}

// mostInList is how many items one list may have.
const mostInList = 3_000

// mostItems is how many items the lists of one file may have: each takes room, long
// before it is known to be of any use.
const mostItems = 20_000

// items takes a list apart.
func (d *Document) items(key part, outer int, n *unstable.Node) ([]Value, error) {
	var items []Value
	for it := n.Children(); it.Next(); {
		if len(items) == mostInList {
			return nil, source.Faultf(key.at, "%s: more than 3,000 items in one list: expected what somebody wrote by hand", shownKey(key.name))
		}
		if d.count++; d.count > mostItems {
			return nil, source.Faultf(key.at, "%s: more than 20,000 items in the lists of one file: expected what somebody wrote by hand", shownKey(key.name))
		}
		item, err := d.value(key, outer, it.Node())
		if err != nil {
			return nil, err
		}
		items = append(items, item)
	}
	return items, nil
}

// inline takes { ... } apart.
func (d *Document) inline(key part, at int, n *unstable.Node) (*Table, error) {
	t := newTable(shownKey(key.name), at, byValue)
	for it := n.Children(); it.Next(); {
		path, err := keyPath(it.Node())
		if err == nil {
			err = d.set(t, path, it.Node().Value())
		}
		if err != nil {
			return nil, err
		}
	}
	return t, nil
}

var kinds = map[unstable.Kind]Kind{
	unstable.String:        TextKind,
	unstable.Integer:       numberKind,
	unstable.Float:         numberKind,
	unstable.Bool:          truthKind,
	unstable.Array:         ListKind,
	unstable.InlineTable:   TableKind,
	unstable.LocalDate:     dateKind,
	unstable.LocalTime:     dateKind,
	unstable.LocalDateTime: dateKind,
	unstable.DateTime:      dateKind,
}
