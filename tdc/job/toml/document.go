// Package toml takes a TOML file apart so that whatever is wrong with it has its line and
// its column, and gives each value to what takes it.
package toml

import (
	"bytes"
	"errors"

	"evendrop/tdc/job/source"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Document is a job file taken apart: what it says, and where.
type Document struct {
	Data  []byte
	Root  *Table
	count int // of items, in all of its lists
}

// Parse takes a job file apart. What is no TOML, or is there twice, is a
// fault.
func Parse(data []byte) (*Document, error) {
	d := &Document{Data: data[:len(data):len(data)], Root: newTable("", 0, byHeader)}
	var p unstable.Parser
	p.Reset(d.Data)
	current := d.Root
	for p.NextExpression() {
		var err error
		if current, err = d.add(current, p.Expression()); err != nil {
			return nil, err
		}
	}
	if bad, ok := errors.AsType[*unstable.ParserError](p.Error()); ok {
		return nil, syntaxFault(d.Data, int(p.Range(bad.Highlight).Offset), bad.Message)
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
	t, err := d.dotted(t, path[:len(path)-1])
	if err != nil {
		return err
	}
	last := path[len(path)-1]
	if old, ok := t.Get(last.name); ok {
		return d.twice(last.at, shownKey(last.name), old.KeyAt)
	}
	at := last.end + bytes.IndexByte(d.Data[last.end:], '=') + 1
	at += len(d.Data[at:]) - len(bytes.TrimLeft(d.Data[at:], " \t"))
	v, err := d.value(last, at, n)
	if err != nil {
		return err
	}
	v.At = at
	t.put(v)
	return nil
}

// value takes a value apart. The parser does not say where a list in a list
// begins: at the bracket before its first item, and of an empty one it must do
// that it is somewhere behind outer.
func (d *Document) value(key part, outer int, n *unstable.Node) (Value, error) {
	v := Value{Key: key.name, KeyAt: key.at, At: int(n.Raw.Offset), Kind: kinds[n.Kind], Text: string(n.Data)}
	var err error
	switch n.Kind {
	case unstable.Array:
		v.Items, err = d.items(key, outer, n)
		v.At = outer
		if len(v.Items) > 0 {
			v.At = max(outer, bytes.LastIndexByte(d.Data[:v.Items[0].At], '['))
		}
	case unstable.InlineTable:
		v.Table, err = d.inline(key, v.At, n)
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

var kinds = map[unstable.Kind]kind{
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
